"""Blocks worked from corner to corner lie as squares, side by side."""

from __future__ import annotations

import numpy as np
import pytest

from hookwright.checking import check
from hookwright.shape.facts import Measured
from hookwright.shape.graph import FabricGraph, Laid
from hookwright.shape.laying import heights_in, pieces_laid
from hookwright.shape.measures import measures_of
from hookwright.shape.relaxing import relax
from hookwright.shape.starts import start_of
from hookwright.source import Source

ROWS = """Row 1 (RS): Ch {ch}, {dc} in {n}th ch from hook and in next {more} ch. Turn. (1 block)
Row 2: Ch {ch}, {dc} in {n}th ch from hook and in next {more} ch, sl st in ch-{up} sp of next \
block, ch {up}, {each} {dc} in same sp. Turn. (2 blocks)
Rows 3-7: Ch {ch}, {dc} in {n}th ch from hook and in next {more} ch, (sl st in ch-{up} sp of \
next block, ch {up}, {each} {dc} in same sp) across. Turn. (7 blocks)
Row 8: Sl st in next {each} {dc}, (sl st in ch-{up} sp of next block, ch {up}, {each} {dc} in \
same sp) 6 times, sl st in ch-{up} sp of last block. Turn. (6 blocks)
Row 9: Sl st in next {each} {dc}, (sl st in ch-{up} sp of next block, ch {up}, {each} {dc} in \
same sp) 5 times, sl st in ch-{up} sp of last block. (5 blocks)
"""
OF_DC: dict[str, int | str] = {"ch": 6, "n": 4, "more": 2, "up": 3, "each": 3, "dc": "dc"}
OF_TR: dict[str, int | str] = {"ch": 8, "n": 5, "more": 3, "up": 4, "each": 4, "dc": "tr"}


def text(kind: dict[str, int | str], gauge: str = "") -> str:
    return f"US terms.{gauge}\n\n{ROWS.format(**kind)}"


def block_middles(graph: FabricGraph, position: np.ndarray, row: Laid) -> np.ndarray:
    """The middles of the stitches of each block of a row, in working order."""
    stitches = row.nodes[~graph.is_chain[row.nodes]]
    breaks = np.flatnonzero(np.diff(stitches) > 1) + 1
    return np.array([position[own].mean() for own in np.split(stitches, breaks)])


@pytest.mark.parametrize("kind", [OF_DC, OF_TR], ids=["three dc", "four tr"])
def test_blocks_stand_square_on_each_other(kind: dict[str, int | str]) -> None:
    # A square of side s: along a row, from corner to corner, s times the root of 2; from
    # one row to the next but one the same, at a right angle. Source: Pythagoras.
    checked = check(Source(text(kind)))
    heights = heights_in(checked.worked, 0)
    (piece,) = pieces_laid(checked.worked.sizes[0].outcomes, heights)
    assert not piece.reason
    graph = piece.graph
    rest = relax(graph, start_of(graph))
    assert not rest.flipped[graph.corner_solid].any()
    rows = [course for course in graph.courses if course.row > 2]
    middles = [block_middles(graph, rest.position, row) for row in rows]
    assert [len(own) for own in middles] == [3, 4, 5, 6, 7, 6, 5]
    for row, below, above in zip(rows, middles, middles[2:5], strict=False):
        along = np.diff(below).mean()
        # Over a block stands the next one but one, a place further where rows grow.
        up = (above[1 : 1 + len(below)] - below[: len(above) - 1]).mean()
        diagonal = row.block * np.sqrt(2)
        assert abs(along) == pytest.approx(diagonal, rel=0.03)
        assert abs(up) == pytest.approx(diagonal, rel=0.06)
        assert abs(np.degrees(np.angle(up / along))) == pytest.approx(90, abs=4)


def measured(gauge: str) -> Measured:
    ((only,),) = (
        part.sizes for part in measures_of(check(Source(text(OF_DC, gauge)))).parts
    )
    return only


def test_a_block_is_as_large_as_its_gauge_and_the_piece_as_all_its_blocks() -> None:
    piece = measured(" Gauge: 5 blocks and 5 rows = 4 in.")
    assert piece.row_pitch_mm == pytest.approx(4 * 25.4 / 5)
    # Seven blocks, and the chain along one edge: 7 times a fifth of 4 in.
    assert piece.width_mm == pytest.approx(7 * 4 * 25.4 / 5, rel=0.04)
    assert piece.height_mm == pytest.approx(piece.width_mm, rel=0.02)


def test_without_a_gauge_of_blocks_five_go_into_the_width_of_fourteen_dc() -> None:
    # Common practice, no source: 14 dc in 4 in, and 5 blocks in 4 in, with one yarn and hook.
    piece = measured(" Gauge: 14 dc and 8 rows = 4 in.")
    assert piece.row_pitch_mm == pytest.approx(4 * 25.4 / 5, rel=0.1)


def test_a_row_of_many_stitches_beside_a_chain_is_no_block() -> None:
    lines = "Row 1: Ch 13, dc in 4th ch from hook and in next 9 ch. Turn.\n"
    checked = check(Source(f"US terms. Ch 3 is a ch-3 sp.\n\n{lines}"))
    (piece,) = pieces_laid(checked.worked.sizes[0].outcomes, heights_in(checked.worked, 0))
    assert not any(course.block for course in piece.graph.courses)
    lengths = {round(float(one), 3) for one in piece.graph.length}
    assert all(one <= 1.9 for one in lengths)
