"""How does a stuffed piece look from the side: a ball, the body of a toy?

Its rounds are circles, as wide and as high above each other as stuffing presses them. It is
looked at from a little above, and only what faces the eye is drawn.
"""

from __future__ import annotations

import numpy as np

from hookwright.shape.columns import Real, Truth
from hookwright.shape.energy import Complex
from hookwright.shape.graph import FabricGraph
from hookwright.shape.starts import on_circles
from hookwright.shape.stuffing import stuffed

_TILT = np.radians(22)
"""How far above the eye is."""
_CLOSED = 0.5


def is_stuffed(graph: FabricGraph) -> bool:
    """Whether a piece begins in a ring and draws in again to half its width or less."""
    rounds = [course.number for course in graph.courses if course.row and course.number]
    begun = graph.courses[0].number == 1
    return begun and len(rounds) > 3 and rounds[-1] <= _CLOSED * max(rounds)


def seen_from_the_side(graph: FabricGraph) -> tuple[Complex, Truth]:
    """Where the nodes of a piece in rounds are seen, and (n,) which of them are.

    Its first rounds lie on top. Figures are in widths of a stitch.
    """
    way = np.exp(1j * np.angle(on_circles(graph)))
    radius, depth, slope = _profile(graph)
    towards = -radius * way.imag
    up = -depth * np.cos(_TILT) - towards * np.sin(_TILT)
    # Of the outward normal, what points to the eye.
    facing = -way.imag * np.sin(slope) * np.cos(_TILT) + np.cos(slope) * np.sin(_TILT)
    return radius * way.real + 1j * up, facing > 0


def _profile(graph: FabricGraph) -> tuple[Real, Real, Real]:
    """(n,) how far each node lies from the middle and below the top, and how steep it is.

    The slope is 0 where a round lies flat on top of the piece, a quarter turn where it goes
    straight down, and more where it draws in again.
    """
    radius, depth, slope = np.zeros((3, graph.size))
    rounds = [course for course in graph.courses if course.number and course.row]
    wide = np.array([course.number / (2 * np.pi) for course in rounds])
    found = stuffed(wide, np.array([course.height for course in rounds]))
    for number, course in enumerate(rounds):
        own = course.nodes
        radius[own], depth[own] = found.radius[number], found.depth[number]
        slope[own] = found.slope[number]
    return radius, depth, slope
