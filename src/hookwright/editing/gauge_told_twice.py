"""Is a gauge told twice, with other numbers the second time?

A gauge for the same stitch is one gauge, wherever it stands. Another hook, a swatch before
washing, a rib or a motif have one of their own, and so has a line that names them.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

from hookwright.design.facts import Gauge, Measure, State
from hookwright.design.gauge_counts import stitch_named
from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Related, Severity
from hookwright.regex import regex

_OF_ITS_OWN = regex(
    r"\b(?:hooks?|strands?|before (?:wash|block|you block)|unwashed|unblocked|rib\w*|"
    r"cuffs?|hems?|bands?|brims?|sizes?|loosely|tightly|mine|my|or)\b",
    re.IGNORECASE,
)
_SLACK = Fraction(1, 33)
"""So far two numbers may differ that are one gauge in two units, rounded each."""


def gauge_told_twice(manuscript: Manuscript) -> Iterator[Finding]:
    """The second of two gauges for one stitch that contradict each other."""
    for first, second in combinations(manuscript.design.gauges, 2):
        if not _are_one(manuscript, first, second):
            continue
        for one, other, what in (
            (_per(first.stitches, first.width), _per(second.stitches, second.width), "sts"),
            (_per(first.rows, first.height), _per(second.rows, second.height), "rows"),
        ):
            if one and other and abs(one - other) > _SLACK * max(one, other):
                yield _told(manuscript, first, second, what)
                return


def _are_one(manuscript: Manuscript, first: Gauge, second: Gauge) -> bool:
    """Whether two gauges are of the same stitch, and nothing sets them apart."""
    if {first.of, second.of} != {"st"} or first.part != second.part:
        return False
    if first.loose or second.loose or not (first.stitch and second.stitch):
        return False
    one, other = stitch_named(first.stitch), stitch_named(second.stitch)
    if one != other or (not one and first.stitch != second.stitch):
        return False
    states = {first.state, second.state} - {State.UNSAID}
    lines = {_line(manuscript, first), _line(manuscript, second)}
    return (
        len(states) < 2
        and first.hook_mm == second.hook_mm
        and len(lines) == 2
        and not any(map(_OF_ITS_OWN.search, lines))
    )


def _line(manuscript: Manuscript, gauge: Gauge) -> str:
    source = manuscript.source
    return source.slice(source.line_span(source.line_of(gauge.span.start)))


def _per(number: Fraction | None, length: Measure | None) -> Fraction | None:
    """How many a millimetre; None where that is not told, or told for each size."""
    if number is None or length is None or length.ranged or len(length.mm) != 1:
        return None
    return number / length.mm[0] if length.mm[0] else None


def _told(manuscript: Manuscript, first: Gauge, second: Gauge, what: str) -> Finding:
    words = [" ".join(manuscript.source.slice(g.span).split()) for g in (first, second)]
    return Finding(
        "measure",
        Severity.ERROR,
        second.span,
        f'The gauge is "{words[0]}" above and "{words[1]}" here: the {what} differ.',
        "Give the gauge once, or say what sets the two apart.",
        related=(Related(first.span, "the gauge is told first here"),),
    )
