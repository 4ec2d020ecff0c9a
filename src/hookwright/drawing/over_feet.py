"""Where along its row does each stitch stand, over its feet and clear of its neighbours?

A row is drawn as far out as it has room: stitches stand over what they are worked into as
nearly as they can, as evenly as they can, and none nearer to the next than its symbol is
broad. Figures are in widths of a stitch.
"""

from __future__ import annotations

import numpy as np
from msgspec import Struct
from scipy.linalg import solveh_banded
from scipy.optimize import isotonic_regression

from hookwright.shape.columns import Real, Truth, Whole
from hookwright.shape.graph import FabricGraph, Laid

STITCH, CHAIN, IN_ARC = 0.72, 0.5, 0.34
"""How near the next stitch, or chain, may stand; and a chain of several, in an arc."""
_ARC = 3
"""So many chains may rise in an arc."""
_EVEN = 0.6
_FEW = 12.0
"""Rows of more stitches are held more evenly, for what one of them is off is less."""


class Standing(Struct, frozen=True, eq=False):
    """What the stitches of a row stand on.

    Attributes:
        own: (k,) the number of each stitch in its row, once for each of its feet.
        base: (k,) the node of that foot.
    """

    own: Whole
    base: Whole


def standing(graph: FabricGraph, course: Laid) -> Standing:
    """The feet of a row; an end stitch that is only drawn out has none."""
    top, base = graph.leg[:, 0], graph.leg[:, 1]
    mine = (top >= course.first) & (top < course.first + course.number)
    mine &= (graph.leg_into >= 0) & (graph.row[base] < course.row)
    return Standing(top[mine] - course.first, base[mine])


def goes_about_chain(graph: FabricGraph) -> bool:
    """Whether its first round goes along both sides of a chain, not round a ring of it."""
    start = graph.courses[0]
    first = next((course for course in graph.courses if course.row and course.number), None)
    if first is None or start.closed or start.number < 2:
        return False
    often = np.bincount(standing(graph, first).base, minlength=start.number)
    return bool(np.median(often[start.nodes]) > 1)


def least_gaps(graph: FabricGraph, course: Laid) -> Real:
    """(number,) how far each node stands at the least from the next, or the first."""
    chain = graph.is_chain[course.nodes]
    gaps: Real = np.where(chain | np.roll(chain, -1), CHAIN, STITCH)
    for first, last in _arcs(chain):
        gaps[max(first - 1, 0) : last + 1] = IN_ARC
    return gaps


def _arcs(chain: Truth) -> list[tuple[int, int]]:
    """The first and last of chains that follow one another, of as many as may rise."""
    edges = np.flatnonzero(np.diff(np.concatenate([[0], chain.astype(int), [0]])))
    runs = zip(edges[::2].tolist(), (edges[1::2] - 1).tolist(), strict=True)
    return [(first, last) for first, last in runs if last - first + 1 >= _ARC]


def risen(graph: FabricGraph, course: Laid, along: Real) -> Real:
    """(number,) how far each node rises over its row: chains that are drawn together do.

    Args:
        graph: The piece.
        course: The row.
        along: (number,) where its nodes stand along it.
    """
    found = np.zeros(course.number)
    for first, last in _arcs(graph.is_chain[course.nodes]):
        many = last - first + 1
        each = float(along[last] - along[first]) / (many - 1)
        long, chord = CHAIN * (many + 1), abs(each) * (many + 1)
        high = np.sqrt(max(0.0, long**2 - chord**2)) / 2
        found[first : last + 1] = high * np.sin(np.pi * np.arange(1, many + 1) / (many + 1))
    return found


def fanned(feet: Standing, wanted: Real, gap: float) -> Real:
    """(k,) where feet want their stitches, several in one place beside one another."""
    found = wanted.copy()
    order = np.argsort(feet.base, kind="stable")
    groups = np.split(order, np.flatnonzero(np.diff(feet.base[order])) + 1)
    for group in groups:
        if len(group) > 1:
            rank = np.argsort(np.argsort(feet.own[group]))
            found[group] += gap * (rank - (len(group) - 1) / 2)
    return found


def along_row(number: int, feet: Standing, wanted: Real, step: float) -> Real:
    """(number,) where the stitches of an open row stand, by least squares, in order.

    Args:
        number: How many there are.
        feet: What they stand on.
        wanted: (k,) where each foot wants its stitch, in working order.
        step: How far apart they stand that nothing tells.
    """
    weight = np.bincount(feet.own, minlength=number).astype(float)
    pull = np.bincount(feet.own, wanted, minlength=number)
    if number == 1 and weight.any():
        only: Real = pull / weight
        return only
    if not weight.any():
        return step * np.arange(float(number))
    even = np.full(max(number - 1, 0), _EVEN * max(number, 1) / _FEW)
    even = np.minimum(even, 3.0)
    diagonal = weight.copy()
    diagonal[:-1] += even
    diagonal[1:] += even
    pull[:-1] -= even * step
    pull[1:] += even * step
    banded = np.vstack([np.append(0.0, -even), diagonal])
    found: Real = solveh_banded(banded, pull)
    return found


def kept_apart(at: Real, gap: Real) -> Real:
    """Places along a row in order, each at least so far from the next.

    Of all such it is the nearest to the ones given. Source: isotonic regression by pooling
    adjacent violators (Barlow, Bartholomew, Bremner and Brunk, 1972).

    Args:
        at: (n,) the places.
        gap: (n,) how far each is to stand from the next.
    """
    least = np.append(0.0, np.cumsum(gap[:-1]))
    found: Real = isotonic_regression(at - least).x + least
    return found
