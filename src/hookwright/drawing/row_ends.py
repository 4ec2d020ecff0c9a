"""Which stitches stand on the ends of rows, and how far out are they drawn?

Where rows begin, chart symbols of their turning chains stand beside the fabric. What is
worked along these ends later is drawn beyond them.
"""

from __future__ import annotations

import numpy as np

from hookwright.shape.columns import Truth, Whole
from hookwright.shape.energy import Complex
from hookwright.shape.graph import FabricGraph

OUT = 0.92
"""How far beyond the ends of rows an edging begins, in widths of a stitch."""


def under(graph: FabricGraph) -> Whole:
    """(n,) a node that each stands on, for a chain that of the stitch before; else -1."""
    found = np.full(graph.size, -1)
    found[graph.leg[::-1, 0]] = graph.leg[::-1, 1]
    for course in graph.courses:
        own = found[course.nodes]
        known = np.maximum.accumulate(np.where(own >= 0, np.arange(len(own)), 0))
        found[course.nodes] = own[known] if len(own) else own
    return found


def on_row_ends(graph: FabricGraph) -> Truth:
    """(n,) which stitches stand on the end of a row: their neighbours stand a row on."""
    found = np.zeros(graph.size, dtype=bool)
    stands = np.zeros(graph.size, dtype=bool)
    stands[graph.leg[:, 0]] = True
    below = under(graph)
    ends = _ends(graph)
    for course in graph.courses:
        own = course.nodes[stands[course.nodes]]
        if len(own) < 2 or course.own_chains:
            continue
        row = graph.row[below[own]]
        beside = (np.abs(np.roll(row, 1) - row) == 1) | (
            np.abs(np.roll(row, -1) - row) == 1
        )
        found[own] = beside & ends[below[own]]
    return found


def _ends(graph: FabricGraph) -> Truth:
    """(n,) the first and last stitch of every row."""
    found = np.zeros(graph.size, dtype=bool)
    for course in graph.courses:
        if not course.closed and course.number > 1:
            found[course.first] = found[course.first + course.number - 1] = True
    return found


def moved_out(graph: FabricGraph, position: Complex, sides: Truth) -> Complex:
    """The positions, with what is worked along the ends of rows drawn beyond these."""
    if not sides.any():
        return position
    below = under(graph)
    out: Complex = np.zeros(graph.size, dtype=complex)
    moved = np.zeros(graph.size, dtype=bool)
    for course in graph.courses:
        nodes = course.nodes
        own = sides[nodes]
        on_moved = moved[np.maximum(below[nodes], 0)]
        if not own.any() and not on_moved.any():
            continue
        out[nodes] = np.where(own, OUT * _outwards(graph, position, below[nodes]), 0)
        out[nodes] += np.where(on_moved, out[below[nodes]], 0)
        chains = graph.is_chain[nodes]
        if course.closed and chains.any() and not chains.all():
            known, at = np.flatnonzero(~chains), np.arange(len(nodes))
            out[nodes] = np.interp(at, known, out[nodes][known], period=len(nodes))
        moved[nodes] = True
    return position + out


def _outwards(graph: FabricGraph, position: Complex, base: Whole) -> Complex:
    """The way out at the end of a row, of length 1."""
    row = np.maximum(graph.row[base], 0)
    first = np.array([course.first for course in graph.courses])[row]
    inside = np.where(base == first, base + 1, base - 1)
    way = position[base] - position[np.clip(inside, 0, graph.size - 1)]
    found: Complex = way / np.maximum(np.abs(way), 1e-9)
    return found
