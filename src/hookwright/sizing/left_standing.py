"""Which numbers of the words beside the rows tell of the old size, and still stand?

"The 110 rows measure 54 in": nobody can be sure what such words mean at another size, so
they are left to the designer, who is told of them.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterator, Sequence

from hookwright.checking import Checked
from hookwright.design.facts import Holds
from hookwright.finding import Edit
from hookwright.notation.tree import Remark
from hookwright.regex import regex
from hookwright.source import Span

_COUNTED = regex(
    r"(?<![\d.,/])(?P<n>\d+)(?:\s|-)(?:(?:more|foundation|starting|beginning)\s)?"
    r"(?:rows?|rnds?|rounds?|sts?|stitch(?:es)?|chs?|chains?|repeats?|waves?|shells?|fans?|"
    r"sc|hdc|dc|tr|htr|dtr)\b",
    re.IGNORECASE,
)
_FIGURES = regex(r"(?<!row )(?<!rnd )(?<!rows )(?<!round )(?<![\d.,/])\d+(?![\d/]|[.,]\d)")
_FEWEST = 6
"""Smaller numbers stand everywhere: "for the next 2 rows"."""


def numbers_left(checked: Checked, edits: Sequence[Edit]) -> Iterator[Span]:
    """Numbers of rows, stitches and chains that are others now, and instruct nothing.

    They stand outside of the rows, or are said in passing in one: "(41 again!)".
    """
    text = checked.source.text
    old = {text[edit.span.start : edit.span.end] for edit in edits}
    elsewhere = sorted(_elsewhere(checked, edits))
    for found in _COUNTED.finditer(text):
        if found["n"] not in old or int(found["n"]) < _FEWEST:
            continue
        span = Span(found.start(), found.end())
        if not any(_touch(span, s) for s in elsewhere):
            yield span
    yield from _in_passing(checked, edits, old)


def _in_passing(
    checked: Checked, edits: Sequence[Edit], old: Collection[str]
) -> Iterator[Span]:
    """What is said in passing in a row with a number that is another now."""
    changed = [edit.span for edit in edits]
    for part in checked.reading.pattern.parts:
        for row in part.rows:
            for node in row.body:
                span = row.place(node.span)
                if not isinstance(node, Remark) or any(_touch(span, s) for s in changed):
                    continue
                numbers = _FIGURES.findall(checked.source.slice(span))
                if any(n in old and int(n) >= _FEWEST for n in numbers):
                    yield span


def _touch(one: Span, other: Span) -> bool:
    return one.start < other.end and other.start < one.end


def _elsewhere(checked: Checked, edits: Sequence[Edit]) -> Iterator[Span]:
    """Where such numbers mean something else, or have been changed."""
    for edit in edits:
        yield edit.span
    for part in checked.reading.pattern.parts:
        for row in part.rows:
            yield row.span
    for gauge in checked.design.gauges:
        yield gauge.span
    for section in checked.design.sections:
        if section.holds in {Holds.GAUGE, Holds.MATERIALS, Holds.ABBREVIATIONS}:
            yield section.body
