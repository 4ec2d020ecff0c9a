"""What does a draft say beside its rows? The same text, with the rows left blank.

Places in it are places in the draft, so that what is found there can be circled.
"""

from __future__ import annotations

from hookwright.editing.manuscript import Manuscript
from hookwright.regex import regex

_WORD = regex(r"[^\W\d_]+")


def beside_rows(manuscript: Manuscript) -> str:
    """The text of the draft with every character of a row but line ends as a space."""
    text = manuscript.source.text
    pieces, at = [], 0
    rows = (row.span for part in manuscript.pattern.parts for row in part.rows)
    for span in sorted(rows):
        start = max(at, span.start)
        if span.end <= start:
            continue
        lines = text[start : span.end].split("\n")
        pieces += [text[at:start], "\n".join(" " * len(line) for line in lines)]
        at = span.end
    return "".join((*pieces, text[at:]))


def words_of(text: str) -> frozenset[str]:
    """The words of a text in small letters."""
    return frozenset(word.lower() for word in _WORD.findall(text))
