"""How does a piece look that stands up: a hat, a tube, a ball, seen from the side?

Its rounds are circles as wide as their stitches make them, as high above each other as
these allow. It is looked at from a little above, and only what faces the eye is drawn.
"""

from __future__ import annotations

import numpy as np

from hookwright.shape.columns import Real, Truth
from hookwright.shape.energy import Complex
from hookwright.shape.graph import FabricGraph
from hookwright.shape.starts import on_circles

_TILT = np.radians(22)
"""How far above the eye is."""
_FLATTEST = 0.05
"""Of its stitches' height a round goes on at least so much down or up."""


def seen_from_the_side(graph: FabricGraph) -> tuple[Complex, Truth]:
    """Where the nodes of a piece in rounds are seen, and (n,) which of them are.

    Its first rounds lie on top. Figures are in widths of a stitch.
    """
    angle = np.angle(on_circles(graph))
    radius, depth, slope = _profile(graph)
    way = np.exp(1j * angle)
    across, towards = radius * way.real, -radius * way.imag
    up = -depth * np.cos(_TILT) - towards * np.sin(_TILT)
    # Of the outward normal, what points to the eye.
    outward, upward = np.sin(slope), np.cos(slope)
    facing = -way.imag * outward * np.cos(_TILT) + upward * np.sin(_TILT)
    return across + 1j * up, facing > 0


def _profile(graph: FabricGraph) -> tuple[Real, Real, Real]:
    """(n,) how far each node lies from the middle and below the top, and how steep it is.

    The slope is 0 where a round lies flat on top of the piece, a quarter turn where it goes
    straight down, and more where it draws in again.
    """
    radius, depth, slope = np.zeros((3, graph.size))
    rounds = [course for course in graph.courses if course.number and course.row]
    wide = np.array([course.number / (2 * np.pi) for course in rounds])
    high = np.array([course.height for course in rounds])
    first = graph.courses[0]
    begins = 0.0 if first.number == 1 else first.number / (2 * np.pi)
    step = np.diff(wide, prepend=begins)
    fall = np.sqrt(np.maximum(high**2 - step**2, (_FLATTEST * high) ** 2))
    steep = _eased(np.arctan2(fall, step))
    down = np.cumsum(high * np.sin(steep))
    for number, course in enumerate(rounds):
        radius[course.nodes], depth[course.nodes] = wide[number], down[number]
        slope[course.nodes] = steep[number]
    if first.number > 1:
        radius[first.nodes], slope[first.nodes] = begins, np.pi / 2
    return radius, depth, slope


_EASED = (0.06, 0.24, 0.40, 0.24, 0.06)
"""Fabric bends over some rounds, not at one."""


def _eased(steep: Real) -> Real:
    padded = np.concatenate([steep[:1], steep[:1], steep, steep[-1:], steep[-1:]])
    return np.convolve(padded, _EASED, mode="valid")
