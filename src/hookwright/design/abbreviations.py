"""Which abbreviations does a draft list, and what does it say that they stand for?

A list stands under a heading of its own, or behind one on its line: "Abbreviations: ch =
chain, dc = double crochet". What cannot be read as an entry is passed over, and fewer than
two entries are no list.
"""

from __future__ import annotations

import re
from bisect import bisect_left, bisect_right
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice
from typing import NamedTuple

from hookwright.design.facts import Abbreviation, Holds, SectionFound
from hookwright.design.list_entries import entries_in, is_abbreviation
from hookwright.notation.tree import Pattern
from hookwright.regex import regex
from hookwright.source import Source

_KEYWORD = regex(
    r"\b(?:abbreviations?|abbrev|stitch(?:es)?(?: and [a-z]+| & [a-z]+)? used|"
    r"(?:stitches|techniques) (?:and|&) terms|terms used|terminology used|glossary|"
    r"stitches|stitch list)\b",
    re.IGNORECASE,
)
_ALONE = frozenset({"glossary", "stitches", "stitch list"})
"""Words that head a list only where they have the line to themselves."""
_BEFORE = regex(r"[\s#*_>•|-]*(?:[A-Za-z,'’&]+[\s*_]+){0,5}[*_(]*")
_BEHIND = regex(
    r"(?P<more>[^\n:;=.|\t]{0,50}?)"
    r"(?:(?P<mark>:|\.?[ ]?[–—]+|\.(?=[ *_]))"
    r"|(?P<end>(?:[ ]*[|\t][^|\t\n:=]{0,30})?[ \t.*_#|]*$))"
)
_MOST_HEADS = 40
"""How many words are looked at that may head a list."""
_MOST_LINES = 300
_LONGEST_LEAD = 80
_FEWEST = 2


class _Line(NamedTuple):
    """A stretch of the text that may hold entries, and whether a gap stands before it."""

    start: int
    end: int
    gap: bool


def abbreviations_of(
    source: Source, pattern: Pattern, sections: Iterable[SectionFound]
) -> tuple[Abbreviation, ...]:
    """The entries of all lists, in reading order."""
    if _KEYWORD.search(source.text) is None:
        return ()
    stops = _stops(source, pattern, sections)
    doubtful = _doubtful(pattern)
    found: list[Abbreviation] = []
    behind = 0
    for head in islice(_KEYWORD.finditer(source.text), _MOST_HEADS):
        begins = _begins(source, head) if head.start() >= behind else None
        if begins is None:
            continue
        stop = stops[bisect_right(stops, head.start())]
        entries = list(_in_list(source, begins, stop, doubtful))
        if len(entries) >= _FEWEST:
            found += entries
            behind = entries[-1].span.end
    return tuple(found)


def _stops(
    source: Source, pattern: Pattern, sections: Iterable[SectionFound]
) -> Sequence[int]:
    """Where a list ends at the latest: at rows with numbers and at other headings."""
    ends = {
        row.span.start
        for part in pattern.parts
        for row in part.rows
        if row.label is not None and row.label.numbers
    }
    ends |= {s.heading.start for s in sections if s.holds is not Holds.ABBREVIATIONS}
    return sorted({*ends, len(source.text), len(source.text) + 1})


def _doubtful(pattern: Pattern) -> Sequence[int]:
    """Where lines begin that were read as no entry, and may be one: "Decrease (dec)"."""
    rows = {row.span.start for part in pattern.parts for row in part.rows}
    return sorted(rows | {part.span.start for part in pattern.parts})


def _begins(source: Source, head: re.Match[str]) -> int | None:
    """Where a list begins that these words head; None where they head none."""
    line = source.line_span(source.line_of(head.start()))
    if head.start() - line.start > _LONGEST_LEAD:
        return None
    if _BEFORE.fullmatch(source.text, line.start, head.start()) is None:
        return None
    behind = _BEHIND.match(source.text, head.end(), line.end)
    if behind is None:
        return None
    alone = behind["end"] is not None or not source.text[behind.end() : line.end].strip(
        " *_"
    )
    if head[0].lower() in _ALONE:
        led = source.text[line.start : head.start()].strip(" #*_")
        if led or not alone or behind["more"].strip(" *_#()"):
            return None
    return line.end if alone else behind.end()


def _in_list(
    source: Source, start: int, stop: int, doubtful: Sequence[int]
) -> Iterator[Abbreviation]:
    """The entries from here on, to the gap behind which there is none.

    A line that was read as a row, "Shell - 5 dc in one st", is one where another follows.
    """
    any_yet = False
    waiting: list[Abbreviation] | None = None  # read as a row, and maybe among entries
    for line in _lines(source, start, stop):
        entries = entries_in(source.text, line.start, line.end)
        sure = all(is_abbreviation(entry.word, entry.meaning) for entry in entries)
        doubts = bisect_left(doubtful, line.start) < bisect_left(doubtful, line.end)
        if doubts and not sure:
            if waiting is not None:
                return
            waiting = entries
            continue
        if waiting is not None:
            if not (entries and sure):
                return
            yield from waiting
            waiting = None
        yield from entries
        if any_yet and line.gap and not entries:
            return
        any_yet = any_yet or bool(entries)


def _lines(source: Source, start: int, stop: int) -> Iterator[_Line]:
    """The lines of a list, each with those that only go on with it."""
    text = source.text
    at, gap = start, False
    begun: _Line | None = None
    for _ in range(_MOST_LINES):
        end = text.find("\n", at)
        end = stop if end < 0 or end > stop else end
        words = text[at:end].strip()
        if not words:
            gap = at > start
        elif begun is not None and not gap and _goes_on(text, begun, at, end):
            begun = _Line(begun.start, end, begun.gap)
        else:
            if begun is not None:
                yield begun
            begun, gap = _Line(at, end, gap), False
        if end >= stop:
            break
        at = end + 1
    if begun is not None:
        yield begun


def _goes_on(text: str, begun: _Line, at: int, end: int) -> bool:
    """Whether a line goes on with the entry that the line before it breaks off."""
    last = text[begun.start : begun.end].rstrip()[-1:]
    if last in ",;=/–—":
        return True
    first = text[at:end].lstrip()[:1]
    return first.islower() and not entries_in(text, at, end)
