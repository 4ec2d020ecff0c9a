"""Which words does a draft use, in its rows and beside them, and where first?

Words are known by their plain form, without capitals; "sl st" and "V-st" are one word each.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from msgspec import Struct

from hookwright.design.facts import Abbreviation
from hookwright.design.trade_words import elements, plain_form
from hookwright.editing.manuscript import Manuscript
from hookwright.notation.tree import RowText
from hookwright.notation.vocabulary import singular
from hookwright.regex import regex
from hookwright.source import Span

_WORD = regex(
    r"(?<![^\W\d_])sl[ .-]{0,2}sts?\b|[^\W\d_]+-sts?\b"
    r"|[^\W\d_]+(?:(?<=[CcRrTt])\d{1,2}tog[a-z]*)?",
    re.IGNORECASE,
)


class Use(Struct, frozen=True):
    """A word in use.

    Attributes:
        first: Where it stands first.
        times: How often it stands there.
    """

    first: Span
    times: int


def rows_of(manuscript: Manuscript) -> list[Span]:
    """Where the rows stand, in reading order."""
    return sorted(row.span for part in manuscript.pattern.parts for row in part.rows)


def rows_told_again(manuscript: Manuscript) -> list[Span]:
    """Where rows stand whose words are those of a row before them."""
    seen: set[int] = set()
    again: list[Span] = []
    for part in manuscript.pattern.parts:
        for row in part.rows:  # rows written alike share their instructions
            if row.body and id(row.body) in seen:
                again.append(row.span)
            seen.add(id(row.body))
    return again


def row_at(manuscript: Manuscript, at: int) -> tuple[RowText | None, str]:
    """The row that holds a place, and its part."""
    for part in manuscript.pattern.parts:
        for row in part.rows:
            if row.span.start <= at < row.span.end:
                return row, part.name
    return None, ""


def outside(text: str, taken: Iterable[Span]) -> Iterator[Span]:
    """What lies between some stretches of a text."""
    at = 0
    for span in sorted(taken):
        if span.start > at:
            yield Span(at, span.start)
        at = max(at, span.end)
    if at < len(text):
        yield Span(at, len(text))


def words_in(text: str, stretches: Iterable[Span]) -> set[str]:
    """The words in some stretches of a text."""
    written: set[str] = set()
    for span in stretches:
        written.update(_WORD.findall(text, span.start, span.end))
    return {_plain(word) for word in written}


def words_used(text: str, stretches: Iterable[Span]) -> dict[str, Use]:
    """The words in some stretches of a text, in the order they come first."""
    found: dict[str, list[int]] = {}
    for span in stretches:
        for word in _WORD.finditer(text, span.start, span.end):
            use = found.setdefault(word[0], [word.start(), word.end(), 0])
            use[2] += 1
    uses: dict[str, Use] = {}
    for written, (start, end, times) in found.items():
        plain = _plain(written)
        before = uses.get(plain)
        first = Span(start, end) if before is None else min(before.first, Span(start, end))
        uses[plain] = Use(first, times + (before.times if before else 0))
    return uses


def _plain(written: str) -> str:
    """The plain form of a word; "sl st" whatever its gap is: "sl. st", "sl-sts"."""
    slips = written[:2].lower() == "sl" and not written[2:3].isalpha() and written[2:]
    return "sl st" if slips else plain_form(written)


def with_parts(words: Iterable[str]) -> set[str]:
    """Words with their singulars, and with what they are put together from."""
    forms = {form for word in words for form in singular(word)}
    return forms | {part for form in forms for part in elements(form)}


def listed_forms(entries: Iterable[Abbreviation]) -> dict[str, Abbreviation]:
    """The entries of the list by the plain form of their word; the first one of each."""
    found: dict[str, Abbreviation] = {}
    for entry in entries:
        found.setdefault(plain_form(entry.word), entry)
    return found
