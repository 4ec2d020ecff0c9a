"""Is one length told in two units the same in both?

1 inch is 25.4 mm, but makers write 4 in for 10 cm and 60 in for 150 cm: such rounding,
2 1/2 cm to the inch, is no fault (common practice, no source). What it cannot explain is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from hookwright.design.facts import Design, Measure
from hookwright.design.lengths import Told, lengths_in, unit_system
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.told_lengths import grain_mm, in_unit, sizes_named, what_is_told
from hookwright.finding import Finding, Related, Severity
from hookwright.regex import regex
from hookwright.source import Source, Span

_ROUNDED = Fraction(4, 100)
"""How far apart they may be; 2 1/2 cm to the inch are 1.6 % off."""
_MARKED = regex(
    r"[\d)\]½¼¾][ \t]?-?[ \t]?(?:cm|centimet|mm|m\b|met(?:er|re))", re.IGNORECASE
)
_IMPERIAL = regex(
    r"(?:(?<![a-z])in(?:s|ch|ches)?\b|[\"”″]|(?<![a-z])f(?:ee)?t\b|"
    r"(?<![a-z])y(?:ar)?ds?\b)",
    re.IGNORECASE,
)
_LONGEST = 4_000
"""Characters of a line that is looked through."""


def disagrees(measure: Measure, size: int) -> bool:
    """Whether a length and the same in other units are not one length in a size."""
    other = measure.also
    if other is None or measure.ranged or other.ranged:
        return False
    a, b = measure.at(size), other.at(size)
    if not a or not b:
        return False
    apart = abs(a - b)
    rounded = max(_may_be_rounded(a, measure.unit), _may_be_rounded(b, other.unit))
    return apart > rounded and apart > _ROUNDED * max(a, b)


def _may_be_rounded(mm: Fraction, unit: str) -> Fraction:
    """By how much a length may have been rounded: a whole cm, little over half an inch."""
    part = Fraction(6, 10) if unit_system(unit) == "imperial" else Fraction(1)
    return grain_mm(mm, unit) * part


def told_twice(manuscript: Manuscript) -> Iterator[Finding]:
    """Lengths anywhere in the text whose two units contradict each other."""
    source, names = manuscript.source, manuscript.pattern.sizes
    called = {f.measure.span: f"the {what_is_told(f)}" for f in manuscript.design.finished}
    for told in _in_two_units(source, manuscript.design):
        for measure in told.measures:
            wrong = [at for at in range(len(measure.mm)) if disagrees(measure, at)]
            if wrong:
                several = len(measure.mm) > 1 and len(names) == len(measure.mm)
                sizes = tuple(names[at] for at in wrong) if several else ()
                what = called.get(measure.span, "a length")
                yield _finding(measure, wrong[0], sizes, what)


def _in_two_units(source: Source, design: Design) -> Iterator[Told]:
    known: dict[int, Measure] = {
        f.measure.span.start: f.measure for f in design.finished if f.measure.also
    }
    done: set[int] = set()
    done_until = 0
    for found in _MARKED.finditer(source.text):
        if found.start() < done_until:
            continue
        whole = source.line_span(source.line_of(found.start()))
        line = Span(whole.start, min(whole.end, whole.start + _LONGEST))
        done_until = max(whole.end, found.end())
        if _IMPERIAL.search(source.text, line.start, line.end) is None:
            continue
        for told in lengths_in(source.text, line.start, line.end):
            measures = tuple(known.get(m.span.start, m) for m in told.measures)
            if any(m.also for m in measures) and told.span.start not in done:
                done.add(told.span.start)
                yield Told(measures, told.span)


def _finding(measure: Measure, size: int, sizes: tuple[str, ...], what: str) -> Finding:
    other = measure.also
    assert other is not None
    a, b = measure.at(size), other.at(size)
    assert a is not None
    assert b is not None
    given = f"in {sizes_named(sizes[:1])} {what}" if sizes else what
    given = f"{given[0].upper()}{given[1:]}"
    own, its = in_unit(a, measure.unit), in_unit(b, other.unit)
    right = in_unit(a, other.unit)
    return Finding(
        "measure",
        Severity.ERROR,
        other.span,
        f"{given} is given as {own} and as {its}, but {own} is {right}.",
        f"Correct one of them: {its} is {in_unit(b, measure.unit)}.",
        related=(Related(measure.span, "the same length"),),
        sizes=sizes,
    )
