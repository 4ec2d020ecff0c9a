"""Motifs of groups in spaces: the granny square."""

from __future__ import annotations

import numpy as np
import pytest

from hookwright.checking import check
from hookwright.shape.laying import heights_in, pieces_laid
from hookwright.shape.relaxing import relax
from hookwright.shape.starts import start_of
from hookwright.source import Source

ROUNDS = 8
FIRST = """US terms. Ch 3 counts as a dc.

Ch 4; join with sl st in first ch to form a ring.
Rnd 1 (RS): Ch 3, 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times; join with sl st in top of \
beg ch-3. (12 dc, 4 ch-2 sps)
"""
ROUND = """Rnd {n}: Sl st in next 2 dc, sl st in next ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same \
sp, ch 1, {side}*(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1, {side}rep from * 2 more times; join \
with sl st in top of beg ch-3. ({dc} dc, 4 ch-2 sps, {ch} ch-1 sps)
"""


def granny() -> str:
    rounds = []
    for n in range(2, ROUNDS + 1):
        side = f"(3 dc in next ch-1 sp, ch 1) {n - 2} times, " if n > 2 else ""
        side = side.replace(" 1 times", " once")
        rounds.append(ROUND.format(n=n, side=side, dc=12 * n, ch=4 * (n - 1)))
    return FIRST + "".join(rounds)


def test_a_granny_square_stands_upright_and_has_its_corners() -> None:
    # Own trial: groups lean by 0.0 degrees in the mean, to a tenth; from the middle a corner
    # is 1.34 times as far as the middle of a side (a square of straight sides: 1.41).
    checked = check(Source(granny()))
    assert not checked.has_errors(), [f.message for f in checked.findings]
    outcomes = checked.worked.sizes[0].outcomes
    (piece,) = pieces_laid(outcomes, heights_in(checked.worked, 0))
    graph = piece.graph
    rest = relax(graph, start_of(graph))
    assert not rest.flipped[graph.corner_solid].any()
    at = rest.position - rest.position[0]
    own = graph.leg[(graph.leg_into >= 0) & (graph.row[graph.leg[:, 0]] > 1)]
    stem, out = at[own[:, 0]] - at[own[:, 1]], at[own].mean(axis=1)
    # Groups fan to both sides of the way out: over the whole round that evens out.
    lean = np.degrees(np.angle(stem * np.conj(out)).mean())
    assert lean == pytest.approx(0, abs=0.1)
    far = np.abs(at[graph.courses[-1].nodes])
    assert far.max() / far.min() == pytest.approx(1.34, rel=0.05)
