"""How thick is the yarn beside a stitch, and in which yarn is each stitch worked?"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hookwright.checking import Checked
from hookwright.colour.row_colours import row_colours
from hookwright.shape.columns import Whole
from hookwright.shape.graph import FabricGraph
from hookwright.shape.laying import Piece

WRAPS_PER_INCH = (33, 21, 16, 13, 10, 7.5, 5.5, 4)
"""How often yarns of the weight classes 0 to 7 go round a ruler, side by side to the inch.
Source: common practice, no source; tables of the trade differ by a fifth."""
_INCH_MM = 25.4
_LOFT = 1.12
"""Yarn that is not drawn round a ruler is so much thicker. Source: own judgement, for
single crochet to look as firm as it is."""
_THINNEST, _THICKEST = 0.30, 0.45
_OF_SC, _OF_DC = 0.40, 0.36
"""Widths of a stitch, where nothing tells the yarn: rows of single crochet are firmer."""


def diameter_of(checked: Checked, stitch_mm: float | None, graph: FabricGraph) -> float:
    """The diameter of the yarn, in widths of a stitch.

    Args:
        checked: The pattern.
        stitch_mm: How wide its stitches are; None where nothing tells it.
        graph: The piece.
    """
    noted = checked.design.noted.yarns if checked.design.noted is not None else ()
    weights = [
        yarn.weight for yarn in (*noted, *checked.design.yarns) if yarn.weight is not None
    ]
    if stitch_mm and weights:
        own = _LOFT * _INCH_MM / WRAPS_PER_INCH[min(weights[0], 7)] / stitch_mm
        return float(np.clip(own, _THINNEST, _THICKEST))
    heights = [course.height for course in graph.courses if course.row and course.height]
    tall = float(np.clip(np.mean(heights) - 0.95, 0, 0.95)) if heights else 0.0
    return _OF_SC + (_OF_DC - _OF_SC) * tall / 0.95


def yarns_in(checked: Checked, size: int, piece: Piece) -> tuple[tuple[str, ...], Whole]:
    """The yarns of a piece by name, and (n,) the number of the yarn of each node.

    A row that changes yarn on the way has each stitch in its own, any other row the colour
    that is told for it; "" stands for the yarn that nothing names.
    """
    graph = piece.graph
    outcomes = checked.worked.sizes[size].outcomes
    by_row = zip(outcomes, row_colours(checked, size), strict=True)
    told = {id(outcome): colour for outcome, colour in by_row}
    names: dict[str, int] = {}
    number = np.full(graph.size, -1)
    rows = (course for course in graph.courses if course.row)
    for course, outcome in zip(rows, piece.outcomes, strict=False):
        own = graph.yarn[course.nodes]
        several = np.unique(own)
        if len(several) < 2:
            colour = told.get(id(outcome), "")
            number[course.nodes] = names.setdefault(colour, len(names))
            continue
        for yarn in several:
            name = graph.yarns[yarn] if yarn >= 0 else ""
            number[course.nodes[own == yarn]] = names.setdefault(name, len(names))
    first = _first(number, graph)
    number[number < 0] = first if first >= 0 else names.setdefault("", len(names))
    return tuple(names), number


def _first(number: Whole, graph: FabricGraph) -> int:
    """The yarn of the first stitch, which the foundation is of as well."""
    known: Sequence[int] = number[(number >= 0) & (graph.row > 0)].tolist()
    return known[0] if known else -1
