"""Lace of chains is as large as its chains and the heights of its stitches make it."""

from __future__ import annotations

import numpy as np
import pytest

from hookwright.checking import check
from hookwright.shape.energy import Complex
from hookwright.shape.feet import CHAIN_TO_CHAIN, CHAIN_TO_STITCH
from hookwright.shape.graph import FabricGraph
from hookwright.shape.laying import heights_in, pieces_laid
from hookwright.shape.relaxing import relax
from hookwright.shape.starts import start_of
from hookwright.source import Source

HEAD = """US terms. Ch 3 counts as a dc. Ch 1 does not count as a stitch.

Ch 6; join with sl st in first ch to form a ring.
Rnd 1: Ch 3, {dc} dc in ring; join with sl st in top of beg ch-3. ({dcs} dc)
Rnd 2: Ch 1, sc in first st, ch {n}, sk next st, *sc in next st, ch {n}, sk next st; rep from \
* around; join with sl st in first sc. ({each} sc, {each} ch-{n} sps)
"""
LOOPS = """Rnd {rnd}: Sl st to center of first ch-{n} sp, ch 1, sc in same sp, ch {n}, *sc in next \
ch-{n} sp, ch {n}; rep from * around; join with sl st in first sc. ({each} sc, {each} ch-{n} \
sps)
"""
SCALLOPS = """Rnd 3: (Sc, hdc, 5 dc, hdc, sc) in each ch-{n} sp around; join with sl st in first \
sc. ({each} scallops)
"""
SC, DC = 0.95, 1.9


def laid(each: int, chains: int, rounds: str) -> tuple[FabricGraph, Complex]:
    """A piece at rest about the middle of its ring."""
    text = HEAD.format(dc=2 * each - 1, dcs=2 * each, n=chains, each=each) + rounds
    checked = check(Source(text))
    outcomes = checked.worked.sizes[0].outcomes
    (piece,) = pieces_laid(outcomes, heights_in(checked.worked, 0))
    assert not piece.reason
    rest = relax(piece.graph, start_of(piece.graph))
    return piece.graph, rest.position - rest.position[0]


def radius(graph: FabricGraph, position: Complex, row: int) -> float:
    """How far from the middle the stitches of a round lie, its chains left out."""
    nodes = graph.courses[row].nodes
    return float(np.abs(position[nodes[~graph.is_chain[nodes]]]).mean())


@pytest.mark.parametrize(("each", "chains", "rounds"), [(12, 5, 2), (12, 7, 4), (16, 9, 5)])
def test_a_net_of_chains_reaches_as_far_as_they_do(
    each: int, chains: int, rounds: int
) -> None:
    """Source: the law of cosines in the triangle of the middle, a stitch and a loop's middle.

    A loop drawn tight goes straight from a stitch to its own middle, half way to the next
    stitch; the stitch into it stands upright on that. It holds while loops are longer than
    the way between their stitches.
    """
    further = "".join(
        LOOPS.format(rnd=r + 3, n=chains, each=each) for r in range(rounds - 1)
    )
    graph, position = laid(each, chains, further)
    half = ((chains - 1) * CHAIN_TO_CHAIN + 2 * CHAIN_TO_STITCH) / 2
    turn = np.pi / each
    expected = radius(graph, position, 2)
    for row in range(3, rounds + 2):
        tight = half**2 - (expected * np.sin(turn)) ** 2
        assert tight > 0
        expected = expected * np.cos(turn) + np.sqrt(tight) + SC
        assert radius(graph, position, row) == pytest.approx(expected, rel=0.04)


def test_loops_that_are_filled_stand_outwards() -> None:
    """They hold their stitches side by side, and so reach a dc beyond the top of the loop."""
    graph, position = laid(12, 7, SCALLOPS.format(n=7, each=12))
    loops, scallops = (np.abs(position[course.nodes]) for course in graph.courses[2:4])
    assert scallops.max() == pytest.approx(loops.max() + DC, rel=0.03)
    assert scallops.min() > radius(graph, position, 2)
    # Of nine stitches in a loop of seven chains the dc in the middle stands upon its middle.
    outermost = int(np.argmax(scallops)) % 9
    assert outermost == 4
