"""Patterns laid out from their text: what each construct becomes."""

from __future__ import annotations

import numpy as np
import pytest

from hookwright.checking import check
from hookwright.shape.graph import Joint
from hookwright.shape.laying import Piece, heights_in, pieces_laid
from hookwright.shape.relaxing import Relaxed, relax
from hookwright.shape.starts import start_of
from hookwright.source import Source

US = "US terms. Ch 1 does not count as a stitch. Ch 3 counts as a dc.\n\n"


def laid(text: str) -> list[Piece]:
    checked = check(Source(US + text))
    assert not checked.has_errors(), [finding.message for finding in checked.findings]
    pieces = list(
        pieces_laid(checked.worked.sizes[0].outcomes, heights_in(checked.worked, 0))
    )
    assert [piece.reason for piece in pieces] == [""] * len(pieces)
    return pieces


def at_rest(piece: Piece) -> Relaxed:
    return relax(piece.graph, start_of(piece.graph), tolerance=1e-6)


def granny(rounds: int) -> str:
    """A granny square: 3 dc and ch 1 along the sides, (3 dc, ch 2, 3 dc) in the corners."""
    lines = [
        "Ch 4; join with sl st in first ch to form a ring.",
        (
            "Rnd 1: Ch 3, 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * 2 more times; "
            "join with sl st in top of beg ch-3. (12 dc, 4 ch-2 sps)"
        ),
    ]
    for number in range(2, rounds + 1):
        side = "3 dc in next ch-1 sp, ch 1, " * (number - 2)
        lines.append(
            f"Rnd {number}: Sl st in next 2 dc, sl st in ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in "
            f"same sp, ch 1, {side}*(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1, {side}rep from * 2 "
            "more times; join with sl st in top of beg ch-3. "
            f"({12 * number} dc, 4 ch-2 sps, {4 * (number - 1)} ch-1 sps)"
        )
    return "\n".join(lines)


def test_rows_to_and_fro_are_a_grid() -> None:
    (piece,) = laid(
        "Ch 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn. (20 sc)\n"
        "Rows 2-30: Ch 1, sc in each st across. Turn. (20 sc)\n"
    )
    graph = piece.graph
    assert (graph.size, graph.cells) == (20 * 31, 19 * 30)
    relaxed = at_rest(piece)
    assert np.abs(relaxed.strain).max() < 1e-6
    assert not relaxed.flipped.any()
    # Each stitch stands on the one below, whichever way its row was worked.
    stands = graph.edge[graph.joint == int(Joint.STITCH)]
    across = relaxed.position[stands].real
    assert np.abs(across[:, 0] - across[:, 1]).max() < 1e-6


def test_every_node_knows_its_row_and_its_words() -> None:
    text = (
        "Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn. (8 sc)\n"
        "Row 2: Ch 1, sc in first 3 sts, hdc in each st to end. (3 sc, 5 hdc)\n"
    )
    (piece,) = laid(text)
    graph = piece.graph
    assert np.bincount(graph.row).tolist() == [8, 8, 8]
    names = [graph.names[name] for name in graph.name[graph.row == 2]]
    assert names == ["sc"] * 3 + ["hdc"] * 5
    assert (graph.span[graph.row == 2] >= 0).all()


def test_a_granny_square_does_not_lean() -> None:
    # Own trial on 8 rounds: no fold in solid fabric, lean 0.0 degrees, corner/mid 1.34.
    (piece,) = laid(granny(8))
    graph, relaxed = piece.graph, at_rest(piece)
    assert not relaxed.flipped[graph.corner_solid].any()
    course = graph.courses[-1]
    rim = relaxed.position[course.nodes] - relaxed.position[0]
    chain = np.array([graph.names[name] == "ch" for name in graph.name[course.nodes]])
    corner = np.flatnonzero(chain & np.roll(chain, -1))
    assert len(corner) == 4
    centres = (rim[corner] + rim[(corner + 1) % course.number]) / 2
    lean = []
    for one, other in zip(corner, np.roll(corner, -1), strict=True):
        middle = one + 0.5 + ((other - one) % course.number) / 2
        near = (
            rim[int(middle) % course.number] + rim[int(middle + 0.5) % course.number]
        ) / 2
        at = list(corner).index(one)
        lean.append(np.angle(near / (centres[at] + centres[(at + 1) % 4])))
    assert abs(np.degrees(np.mean(lean))) < 0.1
    sides = np.abs(rim).min()
    assert np.abs(centres).mean() / sides == pytest.approx(1.34, abs=0.05)


def test_an_oval_goes_along_both_sides_of_its_chain() -> None:
    (piece,) = laid(
        "Ch 12.\n"
        "Rnd 1: Sc in 2nd ch from hook, sc in next 9 ch, 3 sc in last ch, working along the "
        "other side of the chain, sc in next 9 ch, 2 sc in last ch; join with sl st in first "
        "sc. (24 sc)\n"
        "Rnd 2: Ch 1, 2 sc in first st, sc in next 9 sts, 2 sc in each of next 3 sts, sc in "
        "next 9 sts, 2 sc in each of last 2 sts; join with sl st in first sc. (30 sc)\n"
    )
    relaxed = at_rest(piece)
    assert not relaxed.flipped[piece.graph.corner_solid].any()
    chain = relaxed.position[piece.graph.row == 0]
    assert abs(chain[0] - chain[-1]) == pytest.approx(10, rel=0.05)


def test_an_increase_and_a_decrease_are_triangles() -> None:
    (piece,) = laid(
        "Ch 9.\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn. (8 sc)\n"
        "Row 2: Ch 1, 2 sc in first st, sc in next 4 sts, sc2tog, sc in last st. Turn. (8 sc)\n"
    )
    sides = np.bincount(piece.graph.corner_cell[piece.graph.corner_solid])
    assert sorted(sides.tolist()) == [3] * 2 + [4] * (7 + 6)


def test_chain_spaces_are_holes_with_chains_for_nodes() -> None:
    (piece,) = laid(
        "Ch 8.\nRow 1: Dc in 4th ch from hook and in each ch across. Turn. (6 dc)\n"
        "Row 2: Ch 3, dc in next st, ch 4, skip 2 sts, dc in last 2 sts. Turn. (4 dc, 1 ch-4 sp)\n"
    )
    graph = piece.graph
    assert graph.size == 6 + 6 + 8
    assert not graph.corner_solid.all()
    holes = graph.corner_cell[~graph.corner_solid]
    assert np.bincount(holes)[holes].tolist() == [10] * 10


def test_chains_over_as_many_stitches_lie_straight_over_them() -> None:
    (piece,) = laid(
        "Ch 8.\nRow 1: Dc in 4th ch from hook and in each ch across. Turn. (6 dc)\n"
        "Row 2: Ch 3, dc in next st, ch 2, skip 2 sts, dc in last 2 sts. Turn. (4 dc, 1 ch-2 sp)\n"
    )
    graph = piece.graph
    assert graph.corner_solid.all()
    assert graph.cells == 5 + 5
    assert len(graph.leg) == 2 * 5 + 2, (
        "a chain has no leg, and the first stitches reach out"
    )


def test_moss_lies_in_straight_rows() -> None:
    rows = "".join(
        f"Row {row}: Ch 1, sc in first sc, *sc in next ch-1 sp, ch 1, sk next sc; rep from * to "
        f"last ch-1 sp, sc in last ch-1 sp, sc in last sc. Turn. (7 sc, 4 ch-1 sps)\n"
        f"Row {row + 1}: Ch 1, sc in first sc, ch 1, sk next sc, *sc in next ch-1 sp, ch 1, sk "
        "next sc; rep from * to last sc, sc in last sc. Turn. (6 sc, 5 ch-1 sps)\n"
        for row in (2, 4, 6, 8)
    )
    (piece,) = laid(
        "Ch 12.\nRow 1: Sc in 2nd ch from hook, *ch 1, sk next ch, sc in next ch; rep from * "
        f"across. Turn. (6 sc, 5 ch-1 sps)\n{rows}"
    )
    position = at_rest(piece).position
    last = position[piece.graph.courses[-1].nodes]
    assert np.ptp(last.imag) < 0.25


def test_crossed_stitches_stand_in_order_for_the_mesh() -> None:
    (piece,) = laid(
        "Ch 12.\nRow 1: Dc in 4th ch from hook and in each ch across. Turn. (10 dc)\n"
        "Row 2: Ch 3, *skip next st, dc in next st, dc in skipped st; rep from * to last st, dc "
        "in last st. Turn. (10 dc)\n"
    )
    relaxed = at_rest(piece)
    assert piece.graph.cells == 9 + 9
    assert not relaxed.flipped.any()


@pytest.mark.parametrize("last", [10, 11])
def test_a_border_goes_all_round(last: int) -> None:
    rows = "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn. (10 sc)\n"
    (piece,) = laid(
        rows + f"Rows 2-{last - 1}: Ch 1, sc in each st across. Turn. (10 sc)\n"
        f"Row {last}: Ch 1, sc in each st across. Do not turn. (10 sc)\n"
        f"Rnd 1: Ch 1, sc in the end of each of the {last} rows, ch 1, sc in the underside of "
        f"each of the 10 foundation ch, ch 1, sc in the end of each of the {last} rows, ch 1, "
        f"sc in each of the 10 sts of Row {last}, ch 1; join with sl st in first sc. "
        f"({20 + 2 * last} sc, 4 ch-1 sps)\n"
    )
    relaxed = at_rest(piece)
    assert not relaxed.flipped[piece.graph.corner_solid].any()
    body, rim = (
        relaxed.position[piece.graph.row <= last],
        relaxed.position[piece.graph.row > last],
    )
    centre = body.mean()
    assert np.abs(rim - centre).min() > 4.5
    area = abs(np.sum(np.conj(rim) * np.roll(rim, -1)).imag) / 2
    assert area > 11 * 10


def test_a_spike_keeps_its_long_leg_as_an_overlay() -> None:
    (piece,) = laid(
        "Ch 8.\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn. (7 sc)\n"
        "Rows 2 and 3: Ch 1, sc in each st across. Turn. (7 sc)\n"
        "Row 4: Ch 1, sc in next 3 sts, sc in next st 2 rows below, sc in next 3 sts. (7 sc)\n"
    )
    graph = piece.graph
    assert len(graph.overlay) == 1
    top, below = graph.overlay[0]
    position = at_rest(piece).position
    assert graph.row[top] - graph.row[below] > 1
    assert abs(position[top].real - position[below].real) < 1e-3


def test_long_repeats_cost_no_loop_over_stitches() -> None:
    # 400,000 stitches are more than are laid out, and that is said at once.
    checked = check(
        Source(
            US + "Ch 900000001.\nRow 1: Sc in 2nd ch from hook and in each ch across. "
            "(900000000 sc)\n"
        )
    )
    (piece,) = pieces_laid(checked.worked.sizes[0].outcomes, heights_in(checked.worked, 0))
    assert "too large" in piece.reason
