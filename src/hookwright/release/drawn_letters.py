"""Which letters can our fonts draw, and what stands for one they cannot?

A PDF for everybody may not hold a letter that no font draws. Such a letter is put in words,
"[black star]", never left out; marks that are not seen become spaces. Which letters there
are stands in `data/letters-drawn.txt`: ranges of code points that Literata has.
"""

from __future__ import annotations

import re
import unicodedata
from functools import cache
from pathlib import Path

from hookwright.regex import regex

_DRAWN = Path(__file__).with_name("data") / "letters-drawn.txt"
_ESCAPE = regex(r"\\(?:u(?P<code>[0-9a-fA-F]{4})|.)")
_UNSEEN = frozenset({"Cc", "Cf", "Cs", "Co", "Cn"})
_KEPT = frozenset("\u00ad\u200b\u200c\u200d\u2060")
"""Marks that are not seen and that the typesetter knows itself."""


def in_drawn_letters(data: str) -> str:
    """A JSON text with every letter that cannot be drawn put in words."""
    data = _ESCAPE.sub(_unescaped, data)
    return _others().sub(lambda found: _in_words(found[0]), data)


def undrawn(data: str) -> tuple[str, ...]:
    """The letters of a text that cannot be drawn, each once."""
    return tuple(dict.fromkeys(
        letter for letter in _others().findall(data)
        if unicodedata.category(letter) not in _UNSEEN
    ))  # fmt: skip


def _unescaped(found: re.Match[str]) -> str:
    """A control that JSON tells by its number becomes a space."""
    return " " if found["code"] and int(found["code"], 16) < ord(" ") else found[0]


def _in_words(letter: str) -> str:
    if unicodedata.category(letter) in _UNSEEN:
        return " "
    return f"[{unicodedata.name(letter, 'a letter').lower()}]"


@cache
def _others() -> re.Pattern[str]:
    """Every letter that cannot be drawn."""
    ranges = []
    for line in _DRAWN.read_text("ascii").split():
        first, _, last = line.partition("-")
        ranges.append(f"\\U{int(first, 16):08x}-\\U{int(last or first, 16):08x}")
    return re.compile(f"[^\\x00-\\x7e{''.join(ranges)}{''.join(_KEPT)}]")
