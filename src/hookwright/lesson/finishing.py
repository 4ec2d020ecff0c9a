"""What is done after the last row, with its cautions?"""

from __future__ import annotations

import re
from collections.abc import Iterator

from hookwright.checking import Checked
from hookwright.design.cautions import blocking_cautions
from hookwright.design.facts import Holds
from hookwright.lesson.facts import Move
from hookwright.lesson.words_of import said
from hookwright.regex import regex

_DONE = (
    ("weave", regex(r"\b(?:weav|work|sew)\w* in\b", re.IGNORECASE), "weaving in the ends"),
    (
        "sew",
        regex(r"\b(?:sew|whip ?stitch|seam)\w*\b(?! in\b)", re.IGNORECASE),
        "sewing up",
    ),
    ("stuff", regex(r"\bstuff(?:ed|ing)?\b", re.IGNORECASE), "stuffing"),
    (
        "block",
        regex(r"\b(?:block|pin|soak|steam|damp|wet)(?:s|ed|ing)?\b", re.IGNORECASE),
        "blocking",
    ),
)
_SENTENCE = regex(r"(?<=[.!?])\s+")
_FIGURES = regex(r"\d")


def finishing_moves(checked: Checked) -> tuple[Move, ...]:
    """The moves that the finishing asks for."""
    words = finishing_words(checked)
    return tuple(
        Move(key, name, "Close, and slowly.")
        for key, found, name in _DONE
        if found.search(words)
    )


def finishing_words(checked: Checked) -> str:
    """What the pattern says of the finishing."""
    section = checked.design.section(Holds.FINISHING)
    return checked.source.slice(section.body).strip() if section is not None else ""


def finishing_said(checked: Checked) -> tuple[str, ...]:
    """What is said of the finishing, in sentences, with the cautions that belong to it."""
    return tuple(_sentences(checked))


def _sentences(checked: Checked) -> Iterator[str]:
    words = finishing_words(checked)
    for sentence in _SENTENCE.split(words):
        if sentence.strip():
            yield said(checked, " ".join(sentence.split()))
    if any(move.key == "block" for move in finishing_moves(checked)):
        for one in blocking_cautions(checked.source.text):
            if not _FIGURES.search(one):
                yield one
