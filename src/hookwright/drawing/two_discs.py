"""How is a ball drawn flat, that grows and then closes again?

Ring outside ring, the stitches of its closing rounds would be drawn out over the whole rim.
So it is cut at its widest and laid as two discs: the one grows from the centre outwards,
the other is worked from its rim inwards, seen from the same side. Common practice, no
source.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hookwright.shape.columns import Real
from hookwright.shape.energy import Complex
from hookwright.shape.graph import FabricGraph, Laid

_CLOSED = 0.5
"""Of its widest round: a last round of no more stitches closes a piece."""
_GAP = 4.0
"""Between the discs, in widths of a stitch."""


def closes_from(graph: FabricGraph) -> int:
    """The number of the first course on the second disc; 0 where none closes a piece.

    Where several rounds are as wide as the widest, it is cut amid them.
    """
    rounds = [course for course in graph.courses if course.row and course.number]
    if graph.courses[0].number != 1 or not all(course.closed for course in graph.courses):
        return 0
    counts = [course.number for course in rounds]
    widest = max(counts, default=0)
    if not counts or counts[-1] > _CLOSED * widest or counts[0] == widest:
        return 0
    at = [number for number, count in enumerate(counts) if count == widest]
    middle = at[len(at) // 2]
    return graph.courses.index(rounds[middle]) + 1 if middle + 1 < len(rounds) else 0


def second_disc(
    graph: FabricGraph, position: Complex, closing: int
) -> tuple[Complex, Complex]:
    """The positions with the closing rounds on a disc of their own, beside the first.

    Args:
        graph: The piece.
        position: (n,) complex, its rounds one outside the other.
        closing: The number of the first course on the second disc.

    Returns:
        (n,) complex, and the same with the round before lying on the second disc as well.
    """
    centre = complex(position[graph.courses[0].nodes].mean())
    shown, again = position.copy(), position.copy()
    radius = _radii(graph.courses[closing - 1 :])
    rim = float(np.abs(position[graph.courses[closing - 1].nodes] - centre).max())
    other = centre + rim + _GAP + float(radius.max())
    for course, far in zip(graph.courses[closing - 1 :], radius.tolist(), strict=True):
        way = position[course.nodes] - centre
        again[course.nodes] = other + far * way / np.maximum(np.abs(way), 1e-9)
    own = np.concatenate([course.nodes for course in graph.courses[closing:]])
    shown[own] = again[own]
    return shown, again


def _radii(courses: Sequence[Laid]) -> Real:
    """How far out each round lies, the last one as near its centre as it is small."""
    tall = np.array([course.height or 0.5 for course in courses])
    inner = courses[-1].number / (2 * np.pi)
    found: Real = inner + np.append(tall[1:][::-1].cumsum()[::-1], 0.0)
    return found
