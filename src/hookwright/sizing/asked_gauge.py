"""Which gauge does a maker have instead, as in "14 sts and 8 rows = 4 in"?"""

from __future__ import annotations

from fractions import Fraction

from hookwright.design.facts import Gauge, Measure
from hookwright.design.gauge import gauges_in
from hookwright.notation.tree import Pattern
from hookwright.regex import regex
from hookwright.sizing.lengths import LONGEST_MM, NoLength
from hookwright.source import Source

_LEAD = "Gauge: "
_NEGATIVE = regex(r"(?:^|(?<=[\s=,;(]))[-−][ \t]?\d")
_EXAMPLE = "Write it as 14 sts and 8 rows = 4 in, or as 1 repeat = 3 1/2 in, 4 rows = 2 in."
_MOST = 300
"""Characters of a gauge."""


def gauge_asked(words: str) -> tuple[Gauge, ...] | NoLength:
    """The gauges that some words tell, each with a number and a length above 0."""
    told = " ".join(words.split())
    if len(told) > _MOST:
        return NoLength("The gauge is longer than a gauge can be.", _EXAMPLE)
    if _NEGATIVE.search(told):
        return NoLength(f'A gauge of "{told}" is none: a number is below 0.', _EXAMPLE)
    found = gauges_in(Source(f"{_LEAD}{told}"), Pattern(()), ())
    if not found:
        return NoLength(f'"{told}" cannot be read as a gauge.', _EXAMPLE)
    if not all(map(_is_above_nothing, found)):
        return NoLength(
            f'A gauge of "{told}" is none: stitches, rows and lengths are more than 0.',
            _EXAMPLE,
        )
    if any(_is_no_fabric(gauge) for gauge in found):
        return NoLength(
            f'A gauge of "{told}" is none: a stitch would be too small or too large.',
            "Look at the numbers and the unit. " + _EXAMPLE,
        )
    return found


_LEAST_MM, _MOST_MM = Fraction(1, 2), 300
"""What a stitch or row may take: finer than lace thread or thicker than arms is a slip."""


def _is_no_fabric(gauge: Gauge) -> bool:
    """Whether a stitch, repeat or row is too small, or a stitch or row too large."""
    across = _each(gauge.stitches, gauge.width)
    up = _each(gauge.rows, gauge.height)
    too_large = (up or 0) > _MOST_MM or (gauge.of == "st" and (across or 0) > _MOST_MM)
    return too_large or any(mm is not None and mm < _LEAST_MM for mm in (across, up))


def _each(number: Fraction | None, measure: Measure | None) -> Fraction | None:
    mm = measure.mm[0] if measure is not None else None
    return mm / number if number and mm is not None else None


def _is_above_nothing(gauge: Gauge) -> bool:
    numbers = [n for n in (gauge.stitches, gauge.rows) if n is not None]
    lengths = [m.mm[0] for m in (gauge.width, gauge.height) if m is not None]
    return (
        bool(numbers)
        and all(number > 0 for number in numbers)
        and all(length is not None and 0 < length <= LONGEST_MM for length in lengths)
    )
