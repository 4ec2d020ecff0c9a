"""The list of abbreviations for a text: those it uses, and no others."""

from __future__ import annotations

import re

from hookwright.design.trade_words import plain_form, trade_word

_WORD = re.compile(r"\bsl st\b|[A-Za-z]+(?:\d+tog)?", re.IGNORECASE)
_SEVERAL = {"st": ("st(s)", "stitch(es)"), "sp": ("sp(s)", "space(s)")}
"""How words are listed that a text has in the plural as well."""


def word_list(text: str, terms: str) -> list[str]:
    """The entries, "ch = chain", in the order of the alphabet."""
    words = (trade_word(plain_form(found)) for found in _WORD.findall(text))
    known = {word.word: word for word in words if word and word.kind != "measure"}
    entries = {
        name: _SEVERAL.get(name, (name, word.meaning_in(terms)))
        for name, word in known.items()
    }
    return [f"{short} = {long}" for short, long in sorted(entries.values(), key=_order)]


def _order(entry: tuple[str, str]) -> str:
    return entry[0].lower()
