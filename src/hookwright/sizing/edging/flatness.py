"""Does an edging lie flat, ruffle or pull in?

Its first row has N stitches of width w along an edge of length L; the excess is
e = N w / L - 1. Up to 0.08 friction and blocking take it up, up to 0.17 blocking does.

Source: the limits enclose what makers' pages call flat and what they see ruffle: dc at 10
to 12 stitches a round (e -0.17 to 0), sc begun with 8 (e +0.33).
"""

from __future__ import annotations

import math
from fractions import Fraction

from hookwright.sizing.edging.facts import Flatness, Verdict

LIES_FLAT = Fraction(8, 100)
"""The part of its length that an edge may be off, and lie flat."""
_SLIGHT = Fraction(17, 100)
_FEWEST_CORNERS = 3


def flatness(stitches: Fraction | int, length: Fraction, how: str) -> Flatness:
    """How a row lies.

    Args:
        stitches: Its stitches, or those of one repeat, wave or row.
        length: The edge it lies on, in widths of its stitch.
        how: How the numbers came about, in a sentence.
    """
    excess = Fraction(stitches) / length - 1
    return Flatness(excess, verdict_of(excess), how)


def verdict_of(excess: Fraction) -> Verdict:
    """What comes of an excess."""
    size = abs(round(excess, 4))
    if size <= LIES_FLAT:
        return Verdict.FLAT
    if size <= _SLIGHT:
        return Verdict.SLIGHT
    return Verdict.RUFFLES if excess > 0 else Verdict.PULLS_IN


def flat_increase(corners: int, height: Fraction) -> Fraction:
    """The stitches a round has to add to lie flat, for rows of a height in widths.

    With C corners 2 C tan(pi / C) heights, for a circle 2 pi. Source: plane geometry, the
    perimeter of a regular polygon by its inner radius, that of a circle by its radius.
    """
    turn = (
        2 * corners * math.tan(math.pi / corners)
        if corners >= _FEWEST_CORNERS
        else 2 * math.pi
    )
    return Fraction(turn).limit_denominator(10**6) * height


def percent(excess: Fraction) -> str:
    """An excess as it is told: "+6 %", "-14 %", "0 %"."""
    number = round(excess * 100)
    return f"{number:+d} %" if number else "0 %"
