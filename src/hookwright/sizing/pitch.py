"""How much room does one stitch, repeat or row take up, and how sure is that?

From several swatches it is their mean, and the spread their standard deviation. One swatch
tells no spread: then it is what rounding its count makes. Stitches and rows are counted to
the nearest half, so a count is up to a quarter off, and less where finer parts are counted;
the ends of a repeat are found to half a stitch as well. The spread of a width is that of
all its stitches together, for whoever works loosely does so throughout.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import isqrt

from msgspec import Struct

_GRAIN = 10**6
_HALF = Fraction(1, 2)
_HANDS = Fraction(1, 10)
"""How far apart two swatches of one maker may be."""


class Counted(Struct, frozen=True):
    """How many of something took up a length, once.

    Attributes:
        number: How many.
        mm: The length.
        rounding: How far the number may be off, in parts of itself.
    """

    number: Fraction
    mm: Fraction
    rounding: Fraction

    @property
    def each_mm(self) -> Fraction:
        """What one of them takes."""
        return self.mm / self.number


class Pitch(Struct, frozen=True):
    """What one stitch, repeat or row takes up.

    Attributes:
        mm: Its length, the mean of what was measured.
        spread_mm: How far it may well be off.
        measured: How often it was measured; 0 for a guess.
        from_rounding: Whether the spread is only that of rounding.
    """

    mm: Fraction
    spread_mm: Fraction
    measured: int = 1
    from_rounding: bool = False

    def times(self, number: Fraction | int) -> Pitch:
        """So many side by side, which are all off the same way."""
        return Pitch(
            self.mm * number, self.spread_mm * number, self.measured, self.from_rounding
        )


def counted(number: Fraction, mm: Fraction, in_one: int = 1) -> Counted:
    """A count with what its rounding may make.

    Args:
        number: How many stitches, rows or repeats.
        mm: The length they take up.
        in_one: Stitches of a repeat, where repeats are counted.
    """
    off = min(_HALF, Fraction(1, number.denominator)) / 2 / max(1, in_one)
    return Counted(number, mm, off / number)


def pitch_of(counts: Sequence[Counted]) -> Pitch | None:
    """The mean and the spread; None where nothing was measured.

    The standard deviation is that of a sample, over n - 1. Where the swatches are more
    alike than their rounding lets anybody know, the spread is that of the rounding.
    """
    if not counts:
        return None
    number = len(counts)
    each = [count.each_mm for count in counts]
    mean = sum(each, Fraction(0)) / number
    rounding = mean * sum((count.rounding for count in counts), Fraction(0)) / number
    if number == 1:
        return Pitch(mean, rounding, 1, from_rounding=True)
    variance = sum(((one - mean) ** 2 for one in each), Fraction(0)) / (number - 1)
    deviation, rounded = root(variance), rounding / root(Fraction(number))
    return Pitch(mean, max(deviation, rounded), number, from_rounding=rounded > deviation)


def apart_beyond_counting(counts: Sequence[Counted]) -> Fraction:
    """How far apart the outermost counts are, in parts of their mean.

    0 where hands and rounding may make as much: swatches of one maker that are a tenth
    apart are common (common practice, no source).
    """
    pitch = pitch_of(counts)
    if pitch is None:
        return Fraction(0)
    low, high = (choose(counts, key=lambda count: count.each_mm) for choose in (min, max))
    apart = (high.each_mm - low.each_mm) / pitch.mm
    return apart if apart > _HANDS + low.rounding + high.rounding else Fraction(0)


def root(square: Fraction) -> Fraction:
    """A square root to the millionth below it."""
    return Fraction(isqrt(int(square * _GRAIN**2)), _GRAIN)
