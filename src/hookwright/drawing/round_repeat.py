"""How often does a piece in rounds repeat on its way round?

By its text a round says how often its repeat is worked, and of a granny square once less,
for the first corner is told apart. So both are tried: what repeats lies over itself when it
is turned by one repeat.
"""

from __future__ import annotations

import numpy as np
from scipy.spatial import cKDTree

from hookwright.drawing.lying import Lying
from hookwright.shape.columns import Truth
from hookwright.shape.row_repeat import longest_repeat

_FEWEST = 3
_APART = 0.3
"""Widths by which stitches may lie apart that are one when the piece is turned."""
_ALL = 0.9
"""The share of the stitches, and of the rounds, that have to."""


def repeats_round(piece: Lying) -> int:
    """How many repeats a piece in rounds is of; 0 where it is of none."""
    told: set[int] = set()
    for outcome in piece.outcomes:
        found = longest_repeat(outcome)
        if found is not None:
            told |= {found[2], found[2] + 1}
    lies = {
        number: _lies_over_itself(piece, number)
        for number in told
        if number >= _FEWEST and _fills_rounds(piece, number)
    }
    best = max(lies, key=lambda number: lies[number], default=0)
    return best if best and lies[best] >= _ALL else 0


def _fills_rounds(piece: Lying, number: int) -> bool:
    """Whether nearly all rounds, the last among them, are of so many equal parts."""
    counts = [course.number for course in piece.graph.courses if course.row]
    fit = [count % number == 0 for count in counts]
    return fit[-1] and sum(fit) >= _ALL * len(fit)


def _lies_over_itself(piece: Lying, number: int) -> float:
    """The share of its stitches that lie on others when it is turned by one repeat."""
    graph = piece.graph
    at = piece.position - piece.position[graph.courses[0].nodes].mean()
    outer = at[graph.row > graph.courses[-1].row // 2]
    outer = outer if len(outer) else at
    turned = outer * np.exp(2j * np.pi / number)
    tree = cKDTree(np.column_stack([outer.real, outer.imag]))
    apart, _ = tree.query(np.column_stack([turned.real, turned.imag]))
    return float(np.mean(np.asarray(apart) < _APART))


def first_repeat(piece: Lying, number: int) -> Truth:
    """(n,) the first repeat of each round, the stitch after it, and the round's last one.

    By its last stitch, or the slip stitch on it, a round is seen to be joined.
    """
    keep = np.zeros(piece.graph.size, dtype=bool)
    for course in piece.graph.courses:
        if course.number <= 1:
            keep[course.nodes] = True
            continue
        each = min(course.number, -(-course.number // number) + 1)
        keep[course.first : course.first + each] = True
        keep[course.first + course.number - 1] = True
    return keep
