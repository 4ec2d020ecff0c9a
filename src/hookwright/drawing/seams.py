"""How are rounds opened where they begin, to make room for a number and a beginning chain?

On paper the end of a round stands as close to its beginning as any two stitches, and there
is no room to say which round it is. So the few stitches on either side of the seam are
drawn a little closer together; all others stay where they lie.
"""

from __future__ import annotations

import numpy as np

from hookwright.shape.columns import Real
from hookwright.shape.energy import Complex
from hookwright.shape.graph import FabricGraph

_MOST_MOVED = 7
_FEWEST = 4
"""Rounds of fewer stitches are left as they are."""


def opened(graph: FabricGraph, position: Complex, gap: float) -> Complex:
    """The positions with a gap at the seam of each round, in widths of a stitch."""
    found = position.copy()
    for course in graph.courses:
        if course.own_chains:
            continue  # points stand apart as they are
        if course.closed and course.row and course.number >= _FEWEST:
            found[course.nodes] = _round_opened(position[course.nodes], gap)
    return found


def _round_opened(rim: Complex, gap: float) -> Complex:
    number = len(rim)
    moved = min(number // 2, _MOST_MOVED)
    share: Real = np.zeros(number)
    steps = np.arange(moved)
    share[:moved] = 1 - steps / moved
    share[number - moved :] -= (1 - steps / moved)[::-1]
    around = np.append(rim, rim[0])
    along = np.append(0.0, np.cumsum(np.abs(np.diff(around))))
    # No stitch comes closer to the next than to two thirds of its own width.
    most = min(gap / 2, moved * float(along[-1]) / number / 3)
    wanted = (along[:-1] + most * share) % along[-1]
    result: Complex = np.interp(wanted, along, around)
    return result
