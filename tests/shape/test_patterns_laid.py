"""Patterns laid out from their text: what each construct becomes."""

from __future__ import annotations

import numpy as np

from hookwright.checking import check
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
        "Ch 18.\nRow 1: Sc in 2nd ch from hook, *ch 5, sk next 3 ch, sc in next ch; rep from * "
        "across. Ch 5, turn. (5 sc, 4 ch-5 sps)\n"
        "Row 2: Sc in next ch-5 sp, *ch 5, sc in next ch-5 sp; rep from * across. (4 sc, 3 ch-5 "
        "sps)\n"
    )
    graph, position = piece.graph, at_rest(piece).position
    ends = np.bincount(graph.edge.ravel(), minlength=graph.size)
    assert (ends > 1).all()  # no node hangs on one thread alone
    assert not np.isnan(position).any()


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
