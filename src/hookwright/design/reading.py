"""Does a text say anything of the design beside its rows, and what?

What stands beside the rows is gathered by `gathered.py`, which bare rows do not need.
"""

from __future__ import annotations

from hookwright.design.facts import Design, Holds
from hookwright.design.sections import sections_of
from hookwright.design.title import title_of
from hookwright.notation.tree import Pattern
from hookwright.regex import regex
from hookwright.source import Source

_SIGNS = (
    "gauge", "tension", "cm", "inch", "″", "mm", "abbrev", "glossary", "level",
    "difficult", "beginner", "easy", "intermediate", "advanced", "skill", "ball", "skein",
    "yarn", "wool", "cotton", "colour", "color", "material", "finished", "measure", "size",
    "stripe", "in all", "total", "altogether", "notes", "chart", "stitches used",
)  # fmt: skip
"""Of these words, in small letters, one stands where something is said of the design..."""
_INCHES = regex(r'\d ?(?:in\b|")')
_MARK = regex(r"[=:–—-] ?[a-z]")
_LETTER = regex(r"\b(?:[a-h]|mc|cc)\d? ?$")
"""... or a length in inches, or a colour behind its letter and a mark."""
_OF_ROWS = frozenset((Holds.TERMS, Holds.INSTRUCTIONS))
"""Sections that say nothing of the design themselves."""


def read_design(source: Source, pattern: Pattern) -> Design:
    """What the text says of the design beside its rows. Never fails."""
    sections = sections_of(source, pattern)
    words = source.text.lower()
    told = any(found.holds not in _OF_ROWS for found in sections) or any(
        sign in words for sign in _SIGNS
    )
    if not told and not _is_marked(words):
        return Design(title_of(source, pattern, sections), sections)
    from hookwright.design.gathered import gathered  # noqa: PLC0415 - bare rows need none

    return gathered(source, pattern, sections)


def _is_marked(words: str) -> bool:
    """Whether some words tell a length in inches, or a colour behind its letter."""
    marks = (mark.start() for mark in _MARK.finditer(words))
    return _INCHES.search(words) is not None or any(
        _LETTER.search(words, max(0, at - _LONGEST_LETTER), at) for at in marks
    )


_LONGEST_LETTER = 4  # characters of "mc1 "
