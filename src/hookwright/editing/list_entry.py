"""How would a further entry of a list of abbreviations be written, and where?

It is written as the entries beside it are, sign, gap and capitals, and where the list is in
the order of the alphabet it stands in that order.
"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from hookwright.design.facts import Abbreviation
from hookwright.design.trade_words import TradeWord, plain_form
from hookwright.finding import Edit
from hookwright.regex import regex
from hookwright.source import Source, Span

_HAS_WORDS = regex(r"[A-Za-z0-9]")
_LONGEST_GAP = 12


def new_entry(
    source: Source, listed: Sequence[Abbreviation], word: TradeWord, terms: str | None
) -> Edit | None:
    """An edit that puts a word into the list; None where its form cannot be told."""
    entries = _entries(listed)
    if len(entries) < 2:
        return None
    at = _place(entries, plain_form(word.word))
    near = entries[max(0, at - 1) : at + 2] + entries
    written = next(
        (text for entry in near if (text := _written(source, entry, word, terms))), None
    )
    beside = (entries[at], entries[at + 1]) if at + 1 < len(entries) else entries[-2:]
    gap = source.text[beside[0].span.end : beside[1].span.start]
    if written is None or len(gap) > _LONGEST_GAP or _HAS_WORDS.search(gap):
        return None
    end = entries[at].span.end
    return Edit(Span(end, end), f"{gap}{written}", safe=True)


def without_entries(
    source: Source, listed: Sequence[Abbreviation], gone: Sequence[Abbreviation]
) -> list[Edit | None]:
    """Edits that take some entries out of the list, none of which touch one another.

    An entry goes with the gap behind it, and those at the end with the gap before them.
    """
    entries = _entries(listed)
    spans = {entry.span for entry in gone}
    kept = [at for at, entry in enumerate(entries) if entry.span not in spans]
    if not kept:
        return [None] * len(gone)
    places = {entry.span: at for at, entry in enumerate(entries)}
    return [_taken_out(source, entries, places[entry.span], kept[-1]) for entry in gone]


def _taken_out(
    source: Source, entries: Sequence[Abbreviation], at: int, last_kept: int
) -> Edit | None:
    own = entries[at].span
    if at < last_kept:
        span = Span(own.start, entries[at + 1].span.start)
        gap = source.text[own.end : span.end]
    else:
        span = Span(entries[at - 1].span.end, own.end)
        gap = source.text[span.start : own.start]
    if len(gap) > _LONGEST_GAP or _HAS_WORDS.search(gap):
        return None
    return Edit(span, "", safe=True)


def _entries(listed: Sequence[Abbreviation]) -> list[Abbreviation]:
    """The entries, each once though it tells two spellings."""
    return list({entry.span: entry for entry in reversed(listed)}.values())[::-1]


def _place(entries: Sequence[Abbreviation], plain: str) -> int:
    """Behind which entry a word belongs."""
    words = [plain_form(entry.word) for entry in entries]
    if all(before <= after for before, after in pairwise(words)):
        before = [at for at, word in enumerate(words) if word < plain]
        return before[-1] if before else 0
    return len(entries) - 1


def _written(
    source: Source, entry: Abbreviation, word: TradeWord, terms: str | None
) -> str | None:
    """A word and its meaning in the form of another entry."""
    text, span = source.text, entry.span
    capital = entry.word[:1].isupper() and entry.word[1:].islower()
    new = word.word[:1].upper() + word.word[1:] if capital else word.word
    if not entry.meaning:
        return new
    start = text.find(entry.meaning, entry.word_span.end, span.end)
    if start < 0 or span.start != entry.word_span.start:
        return None
    between, behind = (
        text[entry.word_span.end : start],
        text[start + len(entry.meaning) : span.end],
    )
    if _HAS_WORDS.search(between) or _HAS_WORDS.search(behind) or "\n" in between:
        return None
    meaning = word.meaning_in(terms)
    if entry.meaning[:1].isupper():
        meaning = meaning[:1].upper() + meaning[1:]
    stop = "." if entry.meaning.endswith(".") else ""
    return f"{new}{between}{meaning}{stop}{behind}"
