"""Which lists stand in several brackets, one behind the other: "S (M) [L] {XL}"?

They are read as the list in one bracket, "S (M, L, XL)", that they stand for; so are those
between bars, "Child | Adult" and "70 | 84".
"""

from __future__ import annotations

import re

from hookwright.regex import regex

_ENTRY = r"[^()\[\]{}\n]{1,60}"
_BRACKET = rf"(?:\({_ENTRY}\)|\[{_ENTRY}\]|\{{{_ENTRY}\}})"
_RUN = regex(rf"(?<=\S)[ \t]*{_BRACKET}(?:,?[ \t]*{_BRACKET})+")
_BARRED_NUMBERS = regex(r"(?<![\d|])(?<!\| )(\d+)((?: \| \d+)+)(?! ?\|)")
_BARRED_NAMES = regex(r"(?i)(\W*sizes?\b[ \t:*_]*)([^|\n]{1,40}?)((?: \| [^|\n]{1,40})+)")
_CURLY = regex(rf"(?<=\S)[ \t]*\{{({_ENTRY})\}}")
_BETWEEN = regex(r"[)\]}],?[ \t]*[(\[{]")


def in_one_bracket(text: str) -> str:
    """The text with brackets that follow each other written as one, in round brackets."""
    if " | " in text:
        text = _BARRED_NUMBERS.sub(_unbarred, text)
        names = _BARRED_NAMES.fullmatch(text)
        text = f"{names[1]}{_as_list(names[2], names[3])}" if names else text
    if "{" not in text and not _BETWEEN.search(text):
        return text
    return _CURLY.sub(r" (\1)", _RUN.sub(_joined, text))


def _joined(run: re.Match[str]) -> str:
    entries = _BETWEEN.sub(", ", run[0].strip()[1:-1])
    return f" ({entries})"


def _unbarred(found: re.Match[str]) -> str:
    return _as_list(found[1], found[2])


def _as_list(first: str, others: str) -> str:
    """ "70" and " | 84 | 90" as "70 (84, 90)"."""
    return f"{first.strip()} ({', '.join(one.strip() for one in others.split('|')[1:])})"
