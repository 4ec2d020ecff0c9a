"""Where do the stitches of a piece lie that stands up, when its rounds are drawn flat?

Each round lies outside the one before. Its stitches stand as straight over their feet as
they can, and as evenly around as they can, whichever stitch the round begins with.
"""

from __future__ import annotations

import numpy as np

from hookwright.shape.columns import Real, Whole
from hookwright.shape.energy import Complex
from hookwright.shape.graph import FabricGraph, Laid

_EVEN = 0.6
"""How much an even spread around weighs beside standing straight."""


def rounds_flat(graph: FabricGraph) -> Complex:
    """(n,) complex, where each node lies, in widths of a stitch."""
    angle: Real = np.zeros(graph.size)
    radius: Real = np.zeros(graph.size)
    far = 0.0
    for course in graph.courses:
        if not course.number or (course.row == 0 and course.number == 1):
            continue
        if course.row == 0:
            far = course.number / (2 * np.pi)
        far += course.height or (0.5 if course.row else 0.0)
        radius[course.nodes] = far
        angle[course.nodes] = _around(graph, course, angle, radius)
    position: Complex = radius * np.exp(1j * angle)
    return position


def _around(graph: FabricGraph, course: Laid, angle: Real, radius: Real) -> Real:
    """The angles of a round, by least squares."""
    number = course.number
    each = course.direction * 2 * np.pi / number
    own: Real = (each * np.arange(number)).astype(float)
    top, base = _standing(graph, course, radius)
    if not len(top):
        return own
    # How far each foot is off an even spread; brought near each other before they are used.
    off = angle[base] - own[top]
    mean = np.angle(np.exp(1j * off).mean())
    off = mean + np.angle(np.exp(1j * (off - mean)))
    weight = np.bincount(top, minlength=number)
    pull = np.bincount(top, off, minlength=number)
    one = np.eye(number)
    even = 2 * one - np.roll(one, 1, 0) - np.roll(one, -1, 0)
    matrix = np.diag(weight) + _EVEN * number / _FEW * even
    result: Real = own + np.linalg.solve(matrix, pull).astype(float)
    return result


_FEW = 12.0
"""Rounds of more stitches are held more evenly, for what one of them is off is less."""


def _standing(graph: FabricGraph, course: Laid, radius: Real) -> tuple[Whole, Whole]:
    """The stitches of a round that stand on another, and what they stand on."""
    top, base = graph.leg[:, 0], graph.leg[:, 1]
    mine = (top >= course.first) & (top < course.first + course.number)
    mine &= radius[base] > 0
    return top[mine] - course.first, base[mine]
