"""How does a wave draw its chain in, and how wide is it at the gauge of the flat stitch?

In a ripple of n stitches a repeat, each column leans towards the peak by one stitch a row.
With stitches of width w and height h that stand square to their row, the row climbs at an
angle t with tan t = w / h; a repeat is n w cos t wide and a row takes up w / sin t. Along
the row a repeat measures n w, and so does the chain it is worked into: it is 1 / cos t
times as long as the finished width.

Source: geometry of the leaning columns. The shares agree with published advice: for single
crochet, chain about half as long again (crochetcabana.com, ripples and chevrons).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from fractions import Fraction

from msgspec import Struct

from hookwright.working.fabric import Stitch
from hookwright.working.made_of import bends
from hookwright.working.outcome import Outcome
from hookwright.working.sequence import Line, unrolled

_MOST_STITCHES = 400
"""Stitches of a row that are looked at: several repeats of any wave."""
_STEEPEST = Fraction(999, 1000)
"""The sine of twice the angle, above which swatch and repeat belong to no wave."""
_GRAIN = 10**6


class Slope(Struct, frozen=True):
    """A wave as it lies.

    Attributes:
        degrees: How steeply its rows climb.
        stitch_mm: How wide a stitch is along the row.
        chain: How often the finished width the chain measures: 1.16 for a usual dc wave.
        depth_mm: From peak to valley.
    """

    degrees: float
    stitch_mm: Fraction
    chain: Fraction
    depth_mm: Fraction


def slope_of(repeat_mm: Fraction, row_mm: Fraction, stitches: int) -> Slope | None:
    """The slope of a wave whose repeat and rows were measured; None if they fit no wave.

    Of the two angles that fit, the one at which a stitch is not wider than it is high.

    Args:
        repeat_mm: The width of a repeat, from peak to peak.
        row_mm: The height that a row adds.
        stitches: Stitches of a repeat.
    """
    twice = 2 * repeat_mm / (stitches * row_mm) if stitches and row_mm else Fraction(2)
    if twice > 1:
        return None
    angle = math.asin(float(min(twice, _STEEPEST))) / 2
    return _slope(angle, float(row_mm) * math.sin(angle), stitches)


def slope_of_flat(stitch_mm: Fraction, row_mm: Fraction, stitches: int) -> Slope:
    """The slope of a wave in a stitch whose flat gauge is known."""
    return _slope(math.atan2(float(stitch_mm), float(row_mm)), float(stitch_mm), stitches)


def repeat_at(slope: Slope, stitches: int) -> tuple[Fraction, Fraction]:
    """Width of a repeat and height that a row adds, in millimetres."""
    angle = math.radians(slope.degrees)
    wide = float(slope.stitch_mm) * stitches * math.cos(angle)
    return _exact(wide), _exact(float(slope.stitch_mm) / math.sin(angle))


def _slope(angle: float, stitch_mm: float, stitches: int) -> Slope:
    return Slope(
        math.degrees(angle),
        _exact(stitch_mm),
        _exact(1 / math.cos(angle)),
        _exact(stitches * stitch_mm * math.sin(angle) / 2),
    )


def _exact(number: float) -> Fraction:
    return Fraction(round(number * _GRAIN), _GRAIN)


def is_wave(rows: Sequence[Outcome]) -> bool:
    """Whether most rows climb and fall: stitches added on peaks and taken in valleys.

    A shell beside skipped stitches adds and takes as well; in a wave plain slopes lie
    between, so that at least half of the stitches stand each on one of their own.
    """
    worked = [row.worked.row.line for row in rows if row.worked is not None]
    known: dict[Line[Stitch], bool] = {}
    for line in worked:
        if line not in known and len(known) < _MOST_ROWS:
            known[line] = _climbs(line)
    return bool(worked) and sum(known.get(line, False) for line in worked) * 2 > len(worked)


_MOST_ROWS = 50


def _climbs(line: Line[Stitch]) -> bool:
    stitches = list(unrolled(line, _MOST_STITCHES))
    made = [sum(head.counts for head in stitch.heads) for stitch in stitches]
    more = sum(m > s.passes for m, s in zip(made, stitches, strict=True))
    fewer = sum(m < s.passes for m, s in zip(made, stitches, strict=True))
    plain = sum(not bends(s) and m > 0 for m, s in zip(made, stitches, strict=True))
    return bool(more and fewer) and plain * 2 >= sum(made) and _has_slopes(stitches)


def _has_slopes(stitches: Sequence[Stitch]) -> bool:
    """Whether plain stitches lie side by side: one at a time are no slope."""
    longest = run = 0
    for stitch in stitches:
        plain = stitch.passes == 1 and not bends(stitch) and bool(stitch.heads)
        run = run + 1 if plain else 0
        longest = max(longest, run)
    return longest >= _SHORTEST_SLOPE


_SHORTEST_SLOPE = 2
