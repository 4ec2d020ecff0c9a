"""Which colours do the headings of parts put to use: "Ears (make 2, in Soot)"?"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from hookwright.editing.manuscript import Manuscript
from hookwright.regex import regex
from hookwright.source import Span

_IN = regex(
    r"(?:^|[(,;:–—-]|\w)[ \t]{0,3}\b(?:in|with|using|work(?:ed)? in)[ \t]"
    r"(?P<name>[A-Z][a-z]{3,})(?=[ \t]*(?:[),;:.*_]|$))"
)


_ALONE = regex(
    r"[(\[,][ \t]?(?P<name>[A-Z][a-z]{3,}|MC|CC\d?|[A-H])[ \t]?(?=[)\],])(?![^()]*\()"
)
""" "Feelers (make 2, Damson)": a name that is all there is between the marks."""


def colours_alone_in_headings(
    manuscript: Manuscript, listed: Sequence[str]
) -> Iterator[tuple[str, Span]]:
    """Names alone in the brackets of headings, where others hold listed colours."""
    source = manuscript.source
    found = [
        (one["name"], Span(*one.span("name")))
        for line in _headings(manuscript)
        for one in _ALONE.finditer(source.text, line.start, line.end)
    ]
    others = [one for one in found if one[0] not in listed]
    if len(others) == 1 and len(found) > _FEWEST:
        yield from others


_FEWEST = 2
"""Headings with a colour beside the one in question."""


def colours_in_headings(
    manuscript: Manuscript, listed: Sequence[str]
) -> Iterator[tuple[str, Span]]:
    """Every name that a heading tells a part to be worked in, with its place.

    One that is listed may stand there alone: "Ears (Soot)".
    """
    source = manuscript.source
    known = regex(rf"\b(?P<name>{'|'.join(map(re.escape, listed))})\b") if listed else None
    for line in _headings(manuscript):
        words = source.slice(line)
        told = list(_IN.finditer(words))
        names = {found["name"] for found in told}
        alone = known.finditer(words) if known is not None else ()
        told += [found for found in alone if found["name"] not in names]
        for found in told:
            at = line.start + found.start("name")
            yield found["name"], Span(at, at + len(found["name"]))


def _headings(manuscript: Manuscript) -> Iterator[Span]:
    """The lines that parts begin with, where no row stands on them, nor the list."""
    source = manuscript.source
    lists = {source.line_of(colour.span.start) for colour in manuscript.design.colours}
    for part in manuscript.pattern.parts:
        first = min((row.span.start for row in part.rows), default=part.span.end)
        number = source.line_of(part.span.start)
        line, name = source.line_span(number), part.name.split()
        if (
            number not in lists
            and name
            and line.end <= first
            and name[0] in source.slice(line)
        ):
            yield line
