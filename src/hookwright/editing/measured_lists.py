"""Has every list beside the rows one number a size, and do sizes grow?

Lists stand among the measurements, in the gauge and in the materials. Some measurements
stay or fall from one size to the next; a chest that falls is a slip.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from hookwright.design.facts import Holds, Measure
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.same_length import disagrees
from hookwright.editing.size_lists import LIST_OF_NUMBERS, grows_with_size
from hookwright.editing.told_lengths import in_unit, what_is_told
from hookwright.finding import Finding, Severity
from hookwright.regex import regex
from hookwright.source import Span


def measured_lists(manuscript: Manuscript) -> Iterator[Finding]:
    """Lists with a number too few or too many, or that do not grow, each at its place."""
    sizes = len(manuscript.pattern.sizes)
    if sizes > 1:
        yield from _in_measures(manuscript, sizes)
        yield from _in_materials(manuscript, sizes)
        yield from _falling(manuscript)


def _in_measures(manuscript: Manuscript, sizes: int) -> Iterator[Finding]:
    """Lists among the measurements and in the gauge, each unit by itself."""
    design = manuscript.design
    measures = [finished.measure for finished in design.finished]
    measures += [m for gauge in design.gauges for m in (gauge.width, gauge.height) if m]
    told: set[Span] = set()
    for measure in measures:
        for own in (measure, measure.also):
            if own is None or len(own.mm) in (1, sizes) or own.span in told:
                continue
            told.add(own.span)
            yield _too_few_or_many(manuscript, own.span, len(own.mm), sizes)


_IN_BRACKETS = regex(r"[(\[{]([^()\[\]{}]+)")
_NUMBER = regex(r"[ \t]*(?:\d{1,5}(?:\.\d{1,2}|[¼½¾]|[ \t]\d/\d)?|[-–—])[ \t]*")


def _in_materials(manuscript: Manuscript, sizes: int) -> Iterator[Finding]:
    """Lists of balls, metres or hooks: "3 (4, 4, 5) balls", "5 (6, 6, 7) [8, 9] skeins"."""
    source = manuscript.source
    done = 0
    for section in manuscript.design.sections:
        if section.holds is not Holds.MATERIALS:
            continue
        for found in LIST_OF_NUMBERS.finditer(
            source.text, max(done, section.body.start), section.body.end
        ):
            numbers, end = _numbers_in(found)
            if numbers not in (0, sizes):
                span = Span(found.start(), end)
                yield _too_few_or_many(manuscript, span, numbers, sizes)
        done = max(done, section.body.end)


def _numbers_in(found: re.Match[str]) -> tuple[int, int]:
    """How many numbers a list has, and where it ends; none where it is no list.

    A bracket behind it that holds words is none of its own: "3 (4, 5) (50 g each)".
    """
    numbers, end = 1, found.start("rest")
    for bracket in _IN_BRACKETS.finditer(found["rest"]):
        own = re.split(r"[,:;/]", bracket[1])
        if not all(map(_NUMBER.fullmatch, own)):
            break
        numbers += len(own)
        end = found.start("rest") + bracket.end() + 1
    return (numbers, end) if numbers > _FEWEST else (0, end)


_FEWEST = 2
"""What may be no list: one number in brackets behind another is a hook or a weight."""


def _too_few_or_many(
    manuscript: Manuscript, span: Span, numbers: int, sizes: int
) -> Finding:
    words = " ".join(manuscript.source.slice(span).split())
    return Finding(
        "size-list",
        Severity.ERROR,
        span,
        f"{words} has {numbers} numbers for {sizes} sizes.",
        "Give one number a size, with a dash for a size that has none.",
    )


def _falling(manuscript: Manuscript) -> Iterator[Finding]:
    """Widths and girths that fall from one size to the next, and rise elsewhere."""
    names = manuscript.pattern.sizes
    for finished in manuscript.design.finished:
        falls = _fall(finished.measure, len(names)) if grows_with_size(finished) else None
        if falls is None:
            continue
        at, before, after = falls
        unit, what = finished.measure.unit, what_is_told(finished)
        yield Finding(
            "size-list",
            Severity.WARNING,
            finished.measure.span,
            f"The {what} falls from {in_unit(before, unit)} in size {names[at - 1]} to "
            f"{in_unit(after, unit)} in size {names[at]}.",
            "Look at the order of the numbers.",
            sizes=(names[at],),
        )


def _fall(measure: Measure, sizes: int) -> tuple[int, Fraction, Fraction] | None:
    """The size at which a list falls that rises elsewhere, with both lengths."""
    if len(measure.mm) != sizes or any(disagrees(measure, at) for at in range(sizes)):
        return None
    known = [value for value in measure.mm if value is not None]
    if len(known) != sizes:
        return None
    steps = list(pairwise(known))
    falling = [at for at, (a, b) in enumerate(steps) if b < a]
    if len(falling) != 1 or not any(b > a for a, b in steps):
        return None
    return falling[0] + 1, *steps[falling[0]]
