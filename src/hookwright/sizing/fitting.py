"""Which number of repeats, rows or rounds comes nearest to a wanted length?

The nearest is the one whose length differs least; where two differ alike it is the smaller
one, for fabric stretches and never shrinks back. Both neighbours are told beside it.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil, floor

from msgspec import Struct


class Bracket(Struct, frozen=True):
    """Numbers about a wish.

    Attributes:
        below: The largest whose length is not above the wish; None where the least that
            can be made is larger.
        nearest: The one that differs least.
        above: The smallest whose length is not below the wish.
    """

    below: int | None
    nearest: int
    above: int

    @property
    def is_exact(self) -> bool:
        """Whether the wish is met to the stitch."""
        return self.below == self.above


def bracket(
    wanted: Fraction, each: Fraction, beside: Fraction = Fraction(0), least: int = 1
) -> Bracket:
    """The numbers k whose lengths `k * each + beside` lie about a wish.

    Args:
        wanted: The length.
        each: What one more adds, above 0.
        beside: What stands beside them all.
        least: The smallest number there can be.
    """
    exact = (wanted - beside) / each
    low, high = floor(exact), max(ceil(exact), least)
    if low < least:
        return Bracket(None, high, high)
    return Bracket(low, low if exact - low <= high - exact else high, high)


def is_too_small(wanted: Fraction, smallest: Fraction) -> bool:
    """Whether even the smallest that can be made is far from a wish: more than a tenth."""
    return wanted * 10 < smallest * 9
