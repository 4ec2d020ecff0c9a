"""The graph keeps what each stitch is worked into, and with which yarn."""

from __future__ import annotations

import numpy as np

from hookwright.checking import check
from hookwright.shape.columns import PARTS
from hookwright.shape.graph import FabricGraph
from hookwright.shape.laying import heights_in, pieces_laid
from hookwright.source import Source
from hookwright.working.fabric import Into

HEAD = "US terms. The ch 1 at the start of a row does not count as a stitch.\n\n"


def laid(rows: str) -> FabricGraph:
    checked = check(Source(HEAD + rows))
    outcomes = checked.worked.sizes[0].outcomes
    (piece,) = pieces_laid(outcomes, heights_in(checked.worked, 0))
    assert not piece.reason
    return piece.graph


def parts_in(graph: FabricGraph, row: int) -> list[Into]:
    own = graph.row[graph.leg[:, 0]] == row
    return [PARTS[number] for number in graph.leg_into[own] if number >= 0]


def test_a_leg_says_which_part_of_its_place_it_is_worked_into() -> None:
    graph = laid(
        "Ch 5.\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn. (4 sc)\n"
        "Row 2: Ch 1, sc in back loop only of each st across. Turn. (4 sc)\n"
        "Row 3: Ch 1, FPdc around next st, BPdc around next st, sc in front loop only of "
        "next 2 sts. Turn. (4 sts)\n"
    )
    assert parts_in(graph, 1) == [Into.BOTH_LOOPS] * 4
    assert parts_in(graph, 2) == [Into.BACK_LOOP] * 4
    assert parts_in(graph, 3) == [
        Into.FRONT_POST,
        Into.BACK_POST,
        Into.FRONT_LOOP,
        Into.FRONT_LOOP,
    ]


def test_a_stitch_over_three_places_has_three_legs() -> None:
    graph = laid(
        "Ch 6.\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn. (5 sc)\n"
        "Row 2: Ch 1, sc in first st, sc3tog over next 3 sts, sc in last st. Turn. (3 sts)\n"
    )
    own = graph.leg[graph.row[graph.leg[:, 0]] == 2]
    assert np.bincount(own[:, 0] - graph.courses[2].first).tolist() == [1, 3, 1]


def test_a_node_knows_its_yarn() -> None:
    graph = laid(
        "With A, ch 5.\nRow 1: With A, sc in 2nd ch from hook and in each ch across. Turn. "
        "(4 sc)\nRow 2: With B, ch 1, sc in first 2 sts, with A, sc in last 2 sts. Turn. "
        "(4 sc)\n"
    )
    rows = [graph.yarn[course.nodes] for course in graph.courses]
    assert [graph.yarns[number] for number in rows[2]] == ["B", "B", "A", "A"]
    assert set(rows[0].tolist()) == {-1}


def test_a_beginning_chain_that_counts_is_told_from_the_stitch_it_stands_for() -> None:
    graph = laid(
        "The ch 3 counts as a dc.\n\nCh 6.\nRow 1: Dc in 4th ch from hook and in each ch "
        "across. Turn. (4 dc)\nRow 2: Ch 3, dc in next 3 sts. Turn. (4 dc)\n"
    )
    last = graph.courses[-1].nodes
    assert graph.stands[last].tolist() == [True, False, False, False]
    assert {graph.names[number] for number in graph.name[last]} == {"dc"}


def test_each_stitch_has_its_words_where_they_stand_in_the_text() -> None:
    text = (
        f"{HEAD}Fan: 3 dc in the same st.\n\nCh 10.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (9 sc)\n"
        "Row 2: Ch 1, sc in first st, *sk 1, fan in next st, sk 1, sc in next st; rep from "
        "* across. Turn.\n"
        "Row 3: Ch 1, hdc in first st, hdc in each st across. Turn. (9 hdc)\n"
        "Row 4: Rep Row 3.\n"
    )
    checked = check(Source(text))
    outcomes = checked.worked.sizes[0].outcomes
    (piece,) = pieces_laid(outcomes, heights_in(checked.worked, 0))
    graph = piece.graph

    def words(row: int, at: int) -> str:
        begin, end = graph.span[graph.courses[row].first + at].tolist()
        return text[begin:end]

    assert words(1, 0) == "Sc in 2nd ch from hook"
    assert words(2, 0) == "sc in first st"
    assert words(2, 1) == "3 dc in the same st"
    assert words(3, 0) == words(4, 0) == "hdc in first st"


def test_a_cable_has_a_leg_for_each_stitch_and_they_cross() -> None:
    graph = laid(
        "**Cable:** Sk next 2 sts, FPtr around each of next 2 sts, then FPtr around each of the "
        "2 skipped sts. A cable is worked over 4 sts and counts as 4 sts.\n\n"
        "The ch 3 counts as a dc.\n\nCh 8.\nRow 1: Dc in 4th ch from hook and in each ch "
        "across. Turn. (6 dc)\nRow 2: Ch 3, cable over next 4 sts, dc in last st. Turn. (6 sts)\n"
    )
    top = graph.courses[-1]
    own = graph.leg[graph.row[graph.leg[:, 0]] == 2]
    under = graph.courses[-2].first + graph.courses[-2].number - 1 - own[:, 1]
    assert (own[:, 0] - top.first).tolist() == [0, 1, 2, 3, 4, 5]
    assert under.tolist() == [0, 3, 4, 1, 2, 5]
