"""What is the design called? The first line, if it is one that may be a title."""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.design.facts import SectionFound
from hookwright.notation.tree import Pattern
from hookwright.source import Source

_LONGEST = 80
_BEGINS = frozenset("_(\"'“")
_ENDS = frozenset("_)\"'”!?.")
"""Marks that a title may begin and end with; letters and figures always may."""


def title_of(source: Source, pattern: Pattern, sections: tuple[SectionFound, ...]) -> str:
    """The title of a draft; "" where its first line is a sentence, a section or a row."""
    text = source.text
    first = len(text) - len(text.lstrip())
    end = text.find("\n", first)
    line = text[first : end if end >= 0 else len(text)].strip()
    begins = [section.heading.start for section in sections]
    begins += [row.span.start for part in pattern.parts for row in part.rows]
    if any(first <= start <= first + len(line) for start in begins):
        return ""
    sentence = line.endswith((".", ",", ";", "?")) or "=" in line
    marked = line.startswith("#")
    if not line or len(line) > _LONGEST or (sentence and not marked):
        return ""
    last = len(line) - next(_kept(line[::-1], _ENDS), len(line))
    return line[next(_kept(line, _BEGINS), last) : last]


def _kept(line: str, marks: frozenset[str]) -> Iterator[int]:
    """The places of a line where a letter, a figure or one of some marks stands."""
    return (at for at, sign in enumerate(line) if sign.isalnum() or sign in marks)
