"""What shape does stuffing give to rounds that close: a ball, the body of a toy?

A surface of revolution that keeps its length from pole to pole and is pressed outwards.
Where a round is drawn out wider than its stitches are it pulls back; where it has more
stitches than room it gathers, which costs little; and the fabric does not like to bend:

    E = sum over rounds of k (r / w - 1)^2 / 2 A + b (change of slope)^2  -  p V

with r its radius, w that of its stitches lying in a circle, A = 2 pi w h its area, k = 1
drawn out and less gathered, V the volume. Of two discs alone whose gathers cost nothing
this is the balloon of two sheets of foil. Source: W. H. Paulsen, What is the shape of a
Mylar balloon?, American Mathematical Monthly 101, 1994; stiffnesses by own trials.
"""

from __future__ import annotations

import numpy as np
from msgspec import Struct
from scipy.optimize import minimize

from hookwright.shape.columns import Real

PRESSED = 0.05
"""By how much the widest round is drawn out, about, as a share."""
GATHERS = 0.15
"""How stiff a round is that gathers, beside one that is drawn out."""
BENDS = 0.02
_FLATTEST = 0.05
"""Of its height a round goes on at least so much down or up, to begin with."""


class Profile(Struct, frozen=True, eq=False):
    """A stuffed piece from the side, a figure for each of its rounds, first round above.

    Attributes:
        radius: (n,) how far from the axis it lies.
        depth: (n,) how far below the top.
        slope: (n,) 0 where it lies flat on top, a quarter turn where it goes straight down.
    """

    radius: Real
    depth: Real
    slope: Real


def stuffed(
    wide: Real,
    high: Real,
    *,
    pressed: float = PRESSED,
    gathers: float = GATHERS,
    bends: float = BENDS,
) -> Profile:
    """The shape of rounds that begin in a ring, when they are stuffed.

    Args:
        wide: (n,) the radius of each round by its stitches.
        high: (n,) how high its stitches are.
        pressed: How hard it is stuffed.
        gathers: How stiff a round is that has more stitches than room; 0 for not at all.
        bends: How stiff the fabric is from round to round.
    """
    energy = _Energy(wide, high, pressed / wide.max(), gathers, bends)
    found = minimize(
        energy.of, _unstuffed(wide, high), jac=True, method="L-BFGS-B",
        options={"maxiter": _MOST_STEPS},
    )  # fmt: skip
    slope: Real = np.asarray(found.x, dtype=float)
    return Profile(np.cumsum(high * np.cos(slope)), np.cumsum(high * np.sin(slope)), slope)


_MOST_STEPS = 2000


def _unstuffed(wide: Real, high: Real) -> Real:
    """The slopes of a piece whose every round lies in a circle of its stitches."""
    step = np.diff(wide, prepend=0.0)
    fall = np.sqrt(np.maximum(high**2 - step**2, (_FLATTEST * high) ** 2))
    slope: Real = np.arctan2(fall, step)
    return slope


class _Energy(Struct, frozen=True, eq=False):
    """What a shape costs, by the slopes of its rounds."""

    wide: Real
    high: Real
    pressure: float
    gathers: float
    bends: float

    def of(self, slope: Real) -> tuple[float, Real]:
        """The energy of a shape, and how it changes with each slope."""
        high, out, down = self.high, np.cos(slope), np.sin(slope)
        radius = np.cumsum(high * out)
        between = radius - high * out / 2
        drawn = (radius - self.wide) / self.wide
        stiff = np.where(drawn > 0, 1.0, self.gathers) * 2 * np.pi * self.wide * high
        turn = np.diff(slope, prepend=0.0)
        slices = self.pressure * np.pi * between**2 * high
        cost = (stiff * drawn**2 / 2).sum() + self.bends * (turn**2).sum()
        cost -= (slices * down).sum()
        by_between = -self.pressure * 2 * np.pi * between * high * down
        by_radius = stiff * drawn / self.wide + by_between
        change = -high * down * np.cumsum(by_radius[::-1])[::-1]
        change += by_between * high * down / 2 - slices * out
        change += 2 * self.bends * (turn - np.append(turn[1:], 0.0))
        return float(cost), change
