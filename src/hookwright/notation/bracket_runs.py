"""Which lists stand in several brackets, one behind the other: "S (M) [L] {XL}"?

They are read as the list in one bracket, "S (M, L, XL)", that they stand for.
"""

from __future__ import annotations

import re

from hookwright.regex import regex

_ENTRY = r"[^()\[\]{}\n]{1,60}"
_BRACKET = rf"(?:\({_ENTRY}\)|\[{_ENTRY}\]|\{{{_ENTRY}\}})"
_RUN = regex(rf"(?<=\S)[ \t]*{_BRACKET}(?:,?[ \t]*{_BRACKET})+")
_CURLY = regex(rf"(?<=\S)[ \t]*\{{({_ENTRY})\}}")
_BETWEEN = regex(r"[)\]}],?[ \t]*[(\[{]")


def in_one_bracket(text: str) -> str:
    """The text with brackets that follow each other written as one, in round brackets."""
    if "{" not in text and not _BETWEEN.search(text):
        return text
    return _CURLY.sub(r" (\1)", _RUN.sub(_joined, text))


def _joined(run: re.Match[str]) -> str:
    entries = _BETWEEN.sub(", ", run[0].strip()[1:-1])
    return f" ({entries})"
