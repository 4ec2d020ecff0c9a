"""Which gauge does a maker have instead, as in "14 sts and 8 rows = 4 in"?"""

from __future__ import annotations

from hookwright.design.facts import Gauge
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
    return found


def _is_above_nothing(gauge: Gauge) -> bool:
    numbers = [n for n in (gauge.stitches, gauge.rows) if n is not None]
    lengths = [m.mm[0] for m in (gauge.width, gauge.height) if m is not None]
    return (
        bool(numbers)
        and all(number > 0 for number in numbers)
        and all(length is not None and 0 < length <= LONGEST_MM for length in lengths)
    )
