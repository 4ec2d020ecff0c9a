"""A piece lies level in its picture, however it came to rest."""

from __future__ import annotations

import numpy as np
import pytest

from hookwright.checking import check
from hookwright.drawing.levelling import levelled
from hookwright.shape.energy import Complex
from hookwright.shape.graph import FabricGraph
from hookwright.shape.laying import heights_in, pieces_laid
from hookwright.shape.relaxing import relax
from hookwright.shape.starts import start_of
from hookwright.source import Source

SQUARE = (
    "US terms. The ch 3 counts as a dc.\n\nCh 4; join with sl st in first ch to form a ring.\n"
    "Rnd 1 (RS): Ch 3, 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times; join with sl st in "
    "top of beg ch-3. (12 dc, 4 ch-2 sps)\n"
)
ROWS = (
    "US terms. The ch 1 at the start of a row does not count as a stitch.\n\nCh 9.\n"
    "Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (8 sc)\n"
    "Row 2: Ch 1, sc in each st across. Turn. (8 sc)\n"
)


def laid(text: str) -> FabricGraph:
    checked = check(Source(text))
    outcomes = checked.worked.sizes[0].outcomes
    return next(pieces_laid(outcomes, heights_in(checked.worked, 0))).graph


def level(graph: FabricGraph, position: Complex) -> Complex:
    """As its first row is seen when it is worked."""
    return levelled(graph, position, np.array([c.direction > 0 for c in graph.courses]))


@pytest.mark.parametrize("angle", [0.0, 0.4, 2.0, -3.0])
@pytest.mark.parametrize("text", [SQUARE, ROWS])
def test_any_turn_is_taken_back(text: str, angle: float) -> None:
    graph = laid(text)
    position = relax(graph, start_of(graph)).position
    whole = level(graph, position)
    turned = level(graph, position * np.exp(1j * angle) + 5 - 3j)
    assert np.abs(turned - whole).max() < 0.05


def test_rows_run_level_and_a_square_stands_on_its_side() -> None:
    graph = laid(ROWS)
    placed = level(graph, start_of(graph) * np.exp(0.7j))
    assert np.ptp(placed[graph.row == 1].imag) < 1e-6
    graph = laid(SQUARE)
    placed = level(graph, relax(graph, start_of(graph)).position)
    wide, high = np.ptp(placed.real), np.ptp(placed.imag)
    diagonal = np.ptp((placed * np.exp(1j * np.pi / 4)).real)
    assert wide == pytest.approx(high, rel=0.05)
    assert diagonal > 1.1 * wide
