"""Rows that go out along chains of their own and work back: blocks, and points."""

from __future__ import annotations

import numpy as np

from hookwright.checking import check
from hookwright.shape.laying import Piece, heights_in, pieces_laid
from hookwright.shape.relaxing import relax
from hookwright.shape.starts import start_of
from hookwright.source import Source

BLOCKS = """Row 1 (RS): Ch 6, dc in 4th ch from hook and in next 2 ch. Turn. (1 block)
Row 2 (WS): Ch 6, dc in 4th ch from hook and in next 2 ch, sl st in ch-3 sp of next block, \
ch 3, 3 dc in same sp. Turn. (2 blocks)
Row 3 (RS): Ch 6, dc in 4th ch from hook and in next 2 ch, (sl st in ch-3 sp of next block, \
ch 3, 3 dc in same sp) across. Turn. (3 blocks)
Row 4 (WS): Sl st in next 3 dc, (sl st in ch-3 sp of next block, ch 3, 3 dc in same sp) \
twice, sl st in ch-3 sp of last block. Turn. (2 blocks)
"""

STAR = """**Point:** Ch 5, sc in 2nd ch from hook, hdc in next ch, dc in next ch, tr in next ch.

Ch 4; join with sl st in first ch to form a ring.
Rnd 1 (RS): Ch 3, 14 dc in ring; join with sl st in top of beg ch-3. (15 dc)
Rnd 2: Ch 1, *sc in next st, point, sk next 2 sts; rep from * around; join with sl st in \
first sc. Fasten off. (5 sc, 5 points)
"""


def laid(text: str) -> Piece:
    checked = check(Source(f"US terms. Ch 3 counts as a dc.\n\n{text}"))
    assert not checked.has_errors(), [finding.message for finding in checked.findings]
    heights = heights_in(checked.worked, 0)
    (piece,) = pieces_laid(checked.worked.sizes[0].outcomes, heights)
    assert not piece.reason
    return piece


def test_blocks_from_corner_to_corner_lie_side_by_side() -> None:
    graph = laid(BLOCKS).graph
    rest = relax(graph, start_of(graph))
    assert [course.own_chains for course in graph.courses[1:]] == [
        (),
        ((0, 3),),
        ((0, 3),),
        (),
    ]
    assert not rest.flipped[graph.corner_solid].any()
    # The stitches of a block stand on a chain each, so that it is as broad as it is.
    third = graph.courses[3]
    stands = graph.leg[np.isin(graph.leg[:, 0], third.nodes)]
    assert len(np.unique(stands[:, 1])) == len(stands) == 9


def test_a_star_has_its_points_on_chains_worked_back_along() -> None:
    graph = laid(STAR).graph
    rest = relax(graph, start_of(graph))
    last = graph.courses[-1]
    assert last.own_chains == tuple((1 + 9 * point, 4) for point in range(5))
    # Five points alike: their tips are the corners of a regular pentagon about the centre.
    tips = rest.position[[last.first + 4 + 9 * point for point in range(5)]]
    spokes = tips - rest.position[0]
    turns = np.angle(np.roll(spokes, -1) / spokes)
    assert np.allclose(np.abs(turns), 2 * np.pi / 5, atol=0.02)
    assert np.allclose(np.abs(spokes), np.abs(spokes).mean(), rtol=0.01)
