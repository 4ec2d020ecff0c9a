"""Is one thing spelled in two ways: "sl st" here and "ss" there?

The spelling in the list of abbreviations is the right one, and without a list the one that
comes more often. A list that tells both knows what it does.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from hookwright.design.facts import Abbreviation
from hookwright.design.trade_words import TradeWord, trade_words
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.word_use import (
    Use,
    listed_forms,
    outside,
    row_at,
    rows_told_again,
    words_in,
    words_used,
)
from hookwright.finding import Edit, Finding, Related, Severity
from hookwright.source import Span

_MOST = 12
"""So many odd ones out are told one by one; of more, the first."""


def two_spellings(manuscript: Manuscript) -> Iterator[Finding]:
    """A finding for each word spelled otherwise than the rest."""
    text = manuscript.source.text
    entries = manuscript.design.abbreviations
    listed = listed_forms(entries)
    taken = [entry.span for entry in entries]
    elsewhere = list(outside(text, taken))
    once = outside(text, [*taken, *rows_told_again(manuscript)])
    known = words_in(text, once) | set(listed)
    groups = [group for group in _groups().values() if len(known & group.keys()) > 1]
    used = words_used(text, elsewhere) if groups else {}
    for spellings in groups:
        told = [plain for plain in spellings if plain in listed]
        found = {plain: used[plain] for plain in spellings if plain in used}
        if len(told) > 1 or len({*told, *found}) < 2 or not found:
            continue
        if told and told[0] not in found:
            yield from _listed_otherwise(manuscript, listed[told[0]], found)
        elif len(found) > 1:
            right = told[0] if told else max(found, key=lambda plain: found[plain].times)
            yield from _odd_ones(manuscript, right, found, elsewhere)


def _groups() -> Mapping[str, dict[str, TradeWord]]:
    groups: dict[str, dict[str, TradeWord]] = {}
    for plain, word in trade_words().items():
        if word.same:
            groups.setdefault(word.same, {})[plain] = word
    return groups


def _listed_otherwise(
    manuscript: Manuscript, entry: Abbreviation, found: Mapping[str, Use]
) -> Iterator[Finding]:
    """ "sl st" is listed and "ss" is used: the list is what is changed."""
    if len(found) > 1:
        return
    first = next(iter(found.values())).first
    written = manuscript.source.slice(first)
    written = written.lower() if entry.word.islower() else written
    yield Finding(
        "two-spellings",
        Severity.ADVICE,
        entry.word_span,
        f'"{entry.word}" is among the abbreviations, but the text writes "{written}".',
        f'List "{written}", or write "{entry.word}" throughout.',
        related=(Related(first, f'it is "{written}" here'),),
        edit=Edit(entry.word_span, written, safe=True),
    )


def _odd_ones(
    manuscript: Manuscript, right: str, found: Mapping[str, Use], elsewhere: Sequence[Span]
) -> Iterator[Finding]:
    text = manuscript.source.text
    usual = found[right]
    written = text[usual.first.start : usual.first.end]
    for plain, use in found.items():
        if plain == right:
            continue
        places = list(_places(text, text[use.first.start : use.first.end], elsewhere))
        for span in places if len(places) <= _MOST else places[:1]:
            safe = trade_words()[plain].kind == "stitch"
            yield _odd(manuscript, span, written, usual, safe=safe)


def _places(text: str, written: str, elsewhere: Sequence[Span]) -> Iterator[Span]:
    word = re.compile(rf"(?<![^\W_\d]){re.escape(written)}(?![^\W_])", re.IGNORECASE)
    for stretch in elsewhere:
        for found in word.finditer(text, stretch.start, stretch.end):
            yield Span(*found.span())


def _odd(
    manuscript: Manuscript, span: Span, written: str, usual: Use, *, safe: bool
) -> Finding:
    odd = manuscript.source.slice(span)
    new = written.lower() if written.istitle() else written
    new = new[:1].upper() + new[1:] if odd[:1].isupper() else new
    row, part = row_at(manuscript, span.start)
    label = row.label if row else None
    return Finding(
        "two-spellings",
        Severity.ADVICE,
        span,
        f'"{odd}" is spelled "{new}" elsewhere.',
        f'Write "{new}" here too.',
        related=(Related(usual.first, "it is spelled so here"),),
        edit=Edit(span, new, safe),
        row=label.text if label else None,
        part=part or None,
        numbers=(label.numbers[0], label.numbers[-1]) if label and label.numbers else None,
    )
