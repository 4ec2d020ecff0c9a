"""How does the pattern at hand spell a stitch, a skip, a row?

An edging is written as the rows beside it are: "sk" or "skip" or "miss", "Rnd" or "Round",
a stitch as the rows of the pattern write it, in the terms of the pattern.
"""

from __future__ import annotations

import re

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.notation.nested import makes_in
from hookwright.notation.printing.terms import plain_words, stitch_names
from hookwright.notation.vocabulary import standard_words
from hookwright.regex import regex
from hookwright.sizing.edging.row_words import Words

_SKIPS = regex(r"\b(sk|skip|miss)\b", re.IGNORECASE)
_ROUNDS = regex(r"\b(Rnd|Round|R)s? ?\d", re.IGNORECASE)
_JOINS = regex(r"\b(sl st|ss|slip stitch|slst)\b", re.IGNORECASE)


class Spelling(Struct, frozen=True):
    """The words an edging is written in.

    Attributes:
        words: Stitches and skips.
        slip: A slip stitch.
        round_label: "Rnd" or "Round".
        row_label: "Row".
        terms: "US" or "UK".
        tells_sides: Whether the labels tell RS and WS.
    """

    words: Words
    slip: str
    round_label: str
    row_label: str
    terms: str
    tells_sides: bool

    def stitch(self, us_name: str) -> str:
        """A stitch as the pattern writes it."""
        return self.words.stitch(us_name)


def spelling_of(checked: Checked) -> Spelling:
    """The words of a pattern."""
    pattern, text = checked.reading.pattern, checked.source.text
    terms = checked.worked.terms
    rows = [row for part in pattern.parts for row in part.rows]
    told = " ".join(checked.source.slice(row.span) for row in rows)
    own = _own_spellings(checked)
    skip = _SKIPS.search(told)
    rnd = _ROUNDS.search(text)
    joins = _JOINS.search(told)

    def stitch(us_name: str) -> str:
        named = stitch_names("UK").get(us_name, us_name) if terms == "UK" else us_name
        return own.get(named, named)

    return Spelling(
        Words(stitch, skip[1].lower() if skip else plain_words(terms)["sk"]),
        joins[1].lower() if joins else "sl st",
        "Round" if rnd and rnd[1].lower() == "round" else "Rnd",
        "Row",
        terms,
        any(row.label is not None and row.label.side for row in rows),
    )


def _own_spellings(checked: Checked) -> dict[str, str]:
    """Each stitch of the rows as it is spelled where it is first worked.

    Only where the rows write the word otherwise than usual: in full, or in capitals.
    """
    found: dict[str, str] = {}
    known = _spellings()
    for part in checked.reading.pattern.parts:
        for row in part.rows:
            for make in makes_in(row.body):
                if make.stitch in found or make.legs > 1 or make.post:
                    continue
                said = checked.source.slice(row.place(make.span))
                for spelled in known.get(make.stitch, ()):
                    at = re.search(rf"\b{re.escape(spelled)}\b", said, re.IGNORECASE)
                    if at:
                        word = at[0]
                        found[make.stitch] = word if word.isupper() else word.lower()
                        break
    return found


def _spellings() -> dict[str, list[str]]:
    """Each stitch with its spellings, the longest first."""
    found: dict[str, list[str]] = {}
    for rows in standard_words().values():
        for words, word in rows:
            found.setdefault(word.id, []).append(" ".join(words))
    for spellings in found.values():
        spellings.sort(key=len, reverse=True)
    return found
