"""Which entries of the list of abbreviations does the draft never use?

A word is used wherever it stands: in a row, a note, the making of a special stitch or the
meaning of another entry, in the plural, in capitals or within a longer word ("dc" in
"dc2tog"). Two spellings on one line, "RS/WS", are used if either is.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from hookwright.design.facts import Abbreviation
from hookwright.design.trade_words import abbreviates, plain_form, trade_word
from hookwright.editing.list_entry import without_entries
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.word_use import outside, with_parts, words_in
from hookwright.finding import Edit, Finding, Severity
from hookwright.source import Span

_WHOLE_WORD = 4
"""A word of so many letters may be bent: "turn" is used in "turning"."""


def unused_abbreviations(manuscript: Manuscript) -> Iterator[Finding]:
    """A finding for each entry whose word stands nowhere else."""
    listed = manuscript.design.abbreviations
    if not listed or not any(row.label for p in manuscript.pattern.parts for row in p.rows):
        return
    text = manuscript.source.text
    elsewhere = list(outside(text, [entry.word_span for entry in listed]))
    used = with_parts(words_in(text, elsewhere))
    groups = {word.same for form in used if (word := trade_word(form)) and word.same}
    by_line: dict[Span, list[Abbreviation]] = {}
    for entry in listed:
        by_line.setdefault(entry.span, []).append(entry)
    unused = [
        entries[0]
        for entries in by_line.values()
        if all(_is_short(entry) for entry in entries)
        and not any(_is_used(entry, used, groups, text, elsewhere) for entry in entries)
    ]
    edits = without_entries(manuscript.source, listed, unused)
    yield from map(_finding, unused, edits)


def _is_short(entry: Abbreviation) -> bool:
    """Whether an entry is of an abbreviation, and not of a stitch by its whole name."""
    plain = plain_form(entry.word)
    return trade_word(plain) is not None or abbreviates(plain, entry.meaning)


def _is_used(
    entry: Abbreviation,
    used: set[str],
    groups: set[str],
    text: str,
    elsewhere: Sequence[Span],
) -> bool:
    plain = plain_form(entry.word)
    if plain in used or with_parts([plain]) & used:
        return True
    word = trade_word(plain)
    if word is not None and word.same in groups:
        return True
    if plain.isalpha() and len(plain) >= _WHOLE_WORD:
        return any(form.startswith(plain) for form in used)
    if plain.isalpha() and not re.search(r"[./]", entry.word):
        return False
    pieces = re.findall(r"[^\W\d_]+|\d+", entry.word if plain.isalpha() else plain)
    phrase = re.compile(r"[\W\d]*".join(map(re.escape, pieces)), re.IGNORECASE)
    return any(phrase.search(text, span.start, span.end) for span in elsewhere)


def _finding(entry: Abbreviation, edit: Edit | None) -> Finding:
    return Finding(
        "unused-abbreviation",
        Severity.ADVICE,
        entry.word_span,
        f'"{entry.word}" is among the abbreviations, but it is used nowhere.',
        "Take it out of the list, if no row is meant to use it.",
        edit=edit,
    )
