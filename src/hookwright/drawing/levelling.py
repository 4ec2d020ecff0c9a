"""How is a piece turned, so that it lies on the page as on a table?

Rows run from side to side, the first at the foot. Rounds begin below: where they come to
corners, one side of the piece is level as well.
"""

from __future__ import annotations

import numpy as np

from hookwright.shape.columns import Truth
from hookwright.shape.corners import corners_of
from hookwright.shape.energy import Complex
from hookwright.shape.graph import FabricGraph, Laid
from hookwright.shape.measuring import way_of_most


def levelled(graph: FabricGraph, position: Complex, front: Truth) -> Complex:
    """The positions turned level, about the middle of the piece.

    Args:
        graph: The piece.
        position: (n,) complex, seen from either side, y up.
        front: (courses,) which courses were worked with that side to the maker.
    """
    rows = [course for course in graph.courses if not course.closed and course.number > 1]
    start = graph.courses[0]
    if rows:
        angle = -_along_rows(graph, position, front)
    elif start.number > 1 and not start.closed:
        angle = -_along(position, start)
    else:
        angle = _to_foot(graph, position)
    turned: Complex = position * np.exp(1j * angle)
    middle = (turned.real.min() + turned.real.max()) / 2
    turned -= complex(middle, turned.imag.min())
    return turned


def _along_rows(graph: FabricGraph, position: Complex, front: Truth) -> float:
    """The way from the end of a right-side row back to its beginning, as an angle."""
    ways = []
    for course, shown in zip(graph.courses, front, strict=True):
        if not course.closed and course.number > 1:
            last = course.first + course.number - 1
            way = complex(position[course.first] - position[last])
            ways.append(way if shown else -way)
    whole = way_of_most(ways)
    return float(np.angle(whole)) if abs(whole) > 0 else 0.0


def _along(position: Complex, chain: Laid) -> float:
    return float(np.angle(position[chain.first] - position[chain.first + chain.number - 1]))


def _to_foot(graph: FabricGraph, position: Complex) -> float:
    """By how much rounds are turned to begin below, a side level if they have any."""
    rounds = [course for course in graph.courses if course.row and course.number]
    if not rounds:
        return 0.0
    rim = position[rounds[-1].nodes]
    centre = position[graph.courses[0].nodes].mean()
    begin = position[rounds[0].first] - centre
    foot = -np.pi / 2 - float(np.angle(begin)) if abs(begin) > 0 else 0.0
    corners, at = corners_of(rim - centre)
    if not corners:
        return foot
    # Corners stand half a side away from the middle of the side below.
    each = 2 * np.pi / corners
    level = -np.pi / 2 + each / 2 - at
    level += each * round((foot - level) / each)
    return level + _nearest_level(rim * np.exp(1j * level))


def _nearest_level(rim: Complex) -> float:
    """By how little more it is turned to take up the smallest upright box: a side is level.

    Source: Freeman and Shapira, Determining the minimum-area encasing rectangle, 1975.
    """
    turns = np.radians(np.linspace(-_FINE, _FINE, 121))
    turned = rim[None, :] * np.exp(1j * turns)[:, None]
    area = np.ptp(turned.real, axis=1) * np.ptp(turned.imag, axis=1)
    return float(turns[int(np.argmin(area))])


_FINE = 3.0
"""Degrees to which the corners of a rim are told by its waves, at the least."""
