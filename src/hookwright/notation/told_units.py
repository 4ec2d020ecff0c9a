"""What do the counts of a text count that name no unit themselves?

"The numbers in brackets are blocks" is said once, and "[6]" behind a row then counts them.
"""

from __future__ import annotations

import re
from collections.abc import Collection, Iterable

from msgspec.structs import replace

from hookwright.notation.place_words import STITCH_NOUNS
from hookwright.notation.tree import Claim, Figure, PartText, RowText
from hookwright.notation.vocabulary import singular
from hookwright.regex import regex

_SQUARES = frozenset("block mesh square window pane".split())
_TOLD = regex(
    r"\b(?:numbers?|counts?|figures?)\s+"
    r"(?:in|at|of|after|behind)\s[^.;\n]{0,40}?\b(?:brackets|parentheses|rows?)\b[^.;\n]{0,20}?"
    r"\s(?:are|is|tells?|gives?|counts?)\s+"
    r"(?:(?:in|given in|how many|the|of|numbers?|counts?)\s+){0,4}"
    r"(?P<unit>[a-z]+)\b",
    re.IGNORECASE,
)
_SIGNS = ("bracket", "parenthes", "row")


def told_unit(text: str, own_words: Collection[str]) -> str:
    """What a text says that its counts are of; "" where it is stitches, or says nothing.

    Only squares, and what the text itself gives a name, are told so.
    """
    lowered = text.lower()
    if not any(sign in lowered for sign in _SIGNS):
        return ""
    words = (word for found in _TOLD.finditer(lowered) for word in singular(found["unit"]))
    return next((word for word in words if word in _SQUARES or word in own_words), "")


def with_told_unit(
    parts: Iterable[PartText], text: str, own_words: Collection[str]
) -> tuple[PartText, ...]:
    """The parts, where counts without a unit have the one that the text tells."""
    unit = told_unit(text, own_words)
    if not unit:
        return tuple(parts)
    return tuple(
        replace(part, rows=tuple(_counted(row, unit, text) for row in part.rows))
        for part in parts
    )


def _counted(row: RowText, unit: str, text: str) -> RowText:
    return replace(row, claims=tuple(_in_unit(claim, unit, text) for claim in row.claims))


def _in_unit(claim: Claim, unit: str, text: str) -> Claim:
    figures = tuple(
        replace(figure, unit=unit) if _names_none(figure, text) else figure
        for figure in claim.figures
    )
    return replace(claim, figures=figures)


def _names_none(figure: Figure, text: str) -> bool:
    """Whether a number stands alone: "[6]", "[6 after Row 9]", and not "[6 sts]"."""
    word = _WORD.match(text, figure.amount.span.end)
    return figure.unit == "st" and (word is None or word[1].lower() not in STITCH_NOUNS)


_WORD = regex(r"\s*([A-Za-z]+)")
