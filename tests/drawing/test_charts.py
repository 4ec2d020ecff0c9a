"""Symbol charts: they show what was worked, on the right side, and can be read."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from charted import HEAD, chart, example, in_row
from overlapping import overlaps

from hookwright.checking import check
from hookwright.drawing.chart import SMALLEST, chart_sheets
from hookwright.drawing.recorder import Recorder, drawn_again
from hookwright.source import Source

CLEAN = (
    "fulmar-lace-scarf", "kelp-square", "petrel-cap", "puffling", "shingle-cloth",
    "skerry-yoke-tee", "turnstone-wave-throw",
)  # fmt: skip

WAVE = (
    f"{HEAD}Ch 17.\n"
    "Row 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (16 sc)\n"
    "Row 2 (WS): Ch 1, working in back loops only, 2 sc in first st, sc in next 5 sts, "
    "sc2tog twice, sc in next 5 sts, 2 sc in last st. Turn. (16 sc)\n"
    "Row 3 (RS): Ch 1, working in back loops only, 2 sc in first st, sc in next 5 sts, "
    "sc2tog twice, sc in next 5 sts, 2 sc in last st. Turn. (16 sc)\n"
)

RIB = (
    f"{HEAD}Ch 10.\n"
    "Row 1 (RS): Hdc in 3rd ch from hook and in each ch across. Turn. (8 hdc)\n"
    "Row 2 (WS): Ch 2, *fpdc around next st, bpdc around next st; rep from * across. Turn."
    " (8 sts)\n"
    "Row 3 (RS): Ch 2, *fpdc around next st, bpdc around next st; rep from * across. Turn."
    " (8 sts)\n"
)


@pytest.mark.parametrize("name", CLEAN)
def test_no_two_symbols_of_an_example_lie_on_one_another(name: str) -> None:
    for drawn in example(name):
        found = overlaps(drawn.marks)
        assert [(a.symbol.id, a.node, b.symbol.id, b.node) for a, b in found] == []


@pytest.mark.parametrize("name", CLEAN)
def test_a_stitch_is_wide_enough_on_paper_and_stands_for_one_that_was_worked(
    name: str,
) -> None:
    for drawn in example(name):
        assert drawn.unit >= SMALLEST
        nodes = [mark.node for mark in drawn.marks if mark.whole]
        assert sorted(nodes) == np.flatnonzero(drawn.cut.keep).tolist()


def test_a_back_loop_wave_that_is_turned_shows_the_right_side() -> None:
    # Source: charts show the right side, so that on wrong-side rows front and back loop
    # swap (hookincrochet.com/hccatalog/aboutcharts.html).
    drawn = chart(WAVE)
    assert {mark.loop for mark in in_row(drawn, 2)} == {"front"}
    assert {mark.loop for mark in in_row(drawn, 3)} == {"back"}
    assert {mark.loop for mark in in_row(drawn, 1)} == {""}


def test_a_post_rib_stands_in_columns_seen_from_the_right_side() -> None:
    # Source: as above. What is worked fpdc, bpdc on both sides stands in columns: seen from
    # the right side each column is raised on the same face in every row.
    drawn = chart(RIB)
    wrong = [mark.post for mark in in_row(drawn, 2)]
    right = [mark.post for mark in in_row(drawn, 3)]
    assert wrong == ["back", "front"] * 4
    assert right == ["front", "back"] * 4
    assert wrong[::-1] == right  # turned, the row is read from the other end


def test_increases_fan_out_and_decreases_meet() -> None:
    drawn = chart(WAVE)
    row = in_row(drawn, 2)
    together = [mark for mark in row if mark.symbol.together]
    assert len(together) == 2
    assert all(len(mark.glyph.lines) >= 4 for mark in together)
    first, second = row[:2]
    assert abs(first.glyph.boxes[0][0] - second.glyph.boxes[0][0]) < 0.6 * drawn.unit
    assert abs(first.at - second.at) > 0.3 * drawn.unit


def test_right_side_rows_begin_at_the_right_and_left_handed_ones_at_the_left() -> None:
    for mirrored, way in ((False, -1), (True, 1)):
        drawn = chart(RIB, mirrored=mirrored)
        heads = {head.number: head for head in drawn.heads}
        assert heads["1"].way == way
        assert heads["2"].way == -way
        assert heads["1"].at.real * way < 0 < heads["2"].at.real * way


def test_left_handed_charts_are_mirrored_but_not_their_signs() -> None:
    one, other = chart(RIB), chart(RIB, mirrored=True)
    for mark, mirrored in zip(in_row(one, 3), in_row(other, 3), strict=True):
        assert mark.node == mirrored.node
        assert mark.at.real == pytest.approx(-mirrored.at.real)
        assert mark.post == mirrored.post


def test_rounds_go_anticlockwise() -> None:
    text = f"{HEAD}Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
    for mirrored, sign in ((False, 1), (True, -1)):
        drawn = chart(text, mirrored=mirrored)
        at = [mark.at - drawn.marks[0].at for mark in in_row(drawn, 2)]
        turned = [(b * a.conjugate()).imag for a, b in pairwise(at)]
        # The page has y down, so that anticlockwise turns are below 0.
        assert all(turn * sign < 0 for turn in turned)


def test_every_symbol_can_point_at_its_words() -> None:
    checked = check(Source(RIB))
    drawn = chart(checked)
    (sheet,) = chart_sheets(drawn, "", "chart")
    recorder = Recorder()
    drawn_again(sheet.marks, recorder)
    told = [dict(begun.group.data) for begun in recorder.groups("symbol")]
    words = {RIB[int(t["start"]) : int(t["end"])] for t in told if "start" in t}
    assert "fpdc around next st" in words
    assert "Hdc in 3rd ch from hook" in words
    heads = [dict(begun.group.data) for begun in recorder.groups("row-head")]
    assert [RIB[int(h["start"]) :][:5] for h in heads] == ["Row 1", "Row 2", "Row 3"]


PANEL = (
    f"{HEAD}Ch 42.\n"
    "Row 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (41 sc)\n"
    "Row 2 (WS): Ch 1, sc in first st, *dc in next st, sc in next 3 sts; rep from * "
    "across. Turn. (41 sts)\n"
    "Row 3 (RS): Ch 1, sc in each st across. Turn. (41 sc)\n"
    "Rows 4-41: Rep Rows 2 and 3. (41 sc)\n"
)


def test_one_repeat_with_its_edges_is_as_many_stitches_as_text_and_multiple_say() -> None:
    # Source: arithmetic. A multiple of 4 + 1: one repeat and the edge are 5 stitches.
    drawn = chart(PANEL, repeat=True)
    rows = sorted({mark.row for mark in drawn.marks})
    assert [len(in_row(drawn, row)) for row in rows] == [5] * len(rows)
    assert rows == [0, 1, 2, 3]
    assert drawn.frame.words == "4-st repeat"
    assert drawn.frame.rows == "Rows 2–3: 20 times"


def test_what_is_left_out_leaves_no_gap() -> None:
    drawn = chart(PANEL, repeat=True)
    for row in (0, 1, 2, 3):
        across = sorted(mark.at.real for mark in in_row(drawn, row))
        steps = [b - a for a, b in pairwise(across)]
        assert all(step == pytest.approx(drawn.unit, rel=0.05) for step in steps)


def test_a_large_chart_is_split_over_pages_and_no_symbol_is_lost() -> None:
    drawn = chart(PANEL.replace("4-41", "4-201"))
    sheets = chart_sheets(drawn, "Panel", "chart")
    assert len(sheets) > 1
    total = 0
    for sheet in sheets:
        recorder = Recorder()
        drawn_again(sheet.marks, recorder)
        total += len(recorder.groups("symbol"))
        assert sheet.room.width < 190
        assert sheet.room.height < 270
    assert total == len(drawn.marks)


def test_the_same_text_gives_the_same_file() -> None:
    one, other = (chart_sheets(chart(RIB), "Rib", "chart")[0].svg() for _ in range(2))
    assert one == other
    assert "<script" not in one
    assert "href" not in one


def test_a_yarn_that_nothing_names_is_told_in_the_legend() -> None:
    text = (
        f"{HEAD}Ch 9.\nRow 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (8 sc)\n"
        "Row 2: With Teal, ch 1, sc in each st across. Turn. (8 sc)\n"
    )
    (sheet,) = chart_sheets(chart(text), "", "chart")
    assert "the yarn it is begun with, Teal" in sheet.description
