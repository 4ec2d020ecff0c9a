"""How much room words take on a terminal, and which of them may be sent there.

Letters of some scripts are two columns wide, marks over a letter none. What a terminal
would obey rather than show is left out: a pattern may come from anywhere.

Source: Unicode Standard Annex 11, East Asian Width.
"""

from __future__ import annotations

import textwrap
import unicodedata
from functools import lru_cache

_TAB = "    "
_NOT_WRITABLE = "\N{REPLACEMENT CHARACTER}"
_GAP = " "


def writable(text: str) -> str:
    """The text with a space for every gap, and nothing that moves or colours the screen."""
    if text.isascii() and text.isprintable():
        return text
    return "".join(map(_writable_letter, text))


def _writable_letter(letter: str) -> str:
    if letter == "\t":
        return _TAB
    if letter.isprintable():
        return letter
    category = unicodedata.category(letter)
    if letter.isspace() or category.startswith("Z"):
        return _GAP
    return "" if category == "Cf" else _NOT_WRITABLE


def in_a_line(text: str) -> str:
    """The words of a label, which a table's cells may have parted by tabs."""
    return " ".join(writable(text).split())


def columns_of(text: str) -> int:
    """How many columns a writable text takes."""
    if text.isascii():
        return len(text)
    return sum(map(_columns_of_letter, text))


def _columns_of_letter(letter: str) -> int:
    if unicodedata.category(letter) in {"Mn", "Me"}:
        return 0
    return 2 if unicodedata.east_asian_width(letter) in {"W", "F"} else 1


def beginning(text: str, columns: int) -> str:
    """As many letters from the beginning as fit."""
    taken = 0
    for at, letter in enumerate(text):
        taken += _columns_of_letter(letter)
        if taken > columns:
            return text[:at]
    return text


def end(text: str, columns: int) -> str:
    """As many letters from the end as fit."""
    return beginning(text[::-1], columns)[::-1]


@lru_cache(maxsize=4096)  # a table says the same over and over
def padded(text: str, columns: int, *, right: bool = False) -> str:
    """The text with spaces after it, or before it where it is set to the right."""
    if text.isascii():
        return text.rjust(columns) if right else text.ljust(columns)
    room = " " * (columns - columns_of(text))
    return room + text if right else text + room


def wrapped(sentence: str, columns: int, indent: str = "") -> list[str]:
    """A sentence as lines that fit."""
    return textwrap.wrap(
        writable(sentence),
        columns,
        initial_indent=indent,
        subsequent_indent=indent,
        break_on_hyphens=False,
    )
