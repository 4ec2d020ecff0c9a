"""How many corners has the rim of a piece worked in rounds?"""

from __future__ import annotations

import numpy as np

from hookwright.shape.energy import Complex

_MOST_CORNERS = 8
_CORNERED = 0.03
"""Share of the radius by which a rim comes and goes for its corners to be seen."""


def corners_of(rim: Complex) -> tuple[int, float]:
    """How many corners a rim has, 0 for none, and the angle of one of them.

    The distance from the centre is held against waves of 3 to 8 around; a wave that is
    itself one of a lower number of corners is not taken for more of them.

    Args:
        rim: (n,) where its stitches lie about the centre.
    """
    angle, far = np.angle(rim), np.abs(rim)
    order = np.argsort(angle)
    around = np.linspace(-np.pi, np.pi, 720, endpoint=False)
    distance = np.interp(around, angle[order], far[order], period=2 * np.pi)
    best, corners, at = _CORNERED, 0, 0.0
    for number in range(3, _MOST_CORNERS + 1):
        wave = 2 * np.mean(distance * np.exp(1j * number * around)) / distance.mean()
        if abs(wave) > best:
            best, corners, at = 1.3 * abs(wave), number, float(np.angle(wave)) / number
    return corners, at
