"""Which yarn does a maker tell of, as in "100 g = 240 m" or "3 balls of A"?"""

from __future__ import annotations

import re
from fractions import Fraction

from msgspec import Struct

from hookwright.regex import regex
from hookwright.sizing.lengths import NoLength

YARD_M = Fraction("0.9144")
"""By definition since 1959: the international yard is 0.9144 m."""
OUNCE_G = Fraction("28.349523125")
"""By definition: the international avoirdupois ounce is 28.349523125 g."""
_LENGTH = regex(
    r"(?P<n>\d{1,6}(?:[.,]\d{1,3})?)\s?(?P<unit>m|metres?|meters?|yds?|yards?)\b",
    re.IGNORECASE,
)
_WEIGHT = regex(
    r"(?P<n>\d{1,6}(?:[.,]\d{1,3})?)\s?(?P<unit>g|grams?|oz|ounces?|kg)\b", re.IGNORECASE
)
_AMOUNT = regex(
    r"(?P<n>\d{1,6}(?:[.,]\d{1,3})?)(?:\s?(?P<unit>balls?|skeins?|hanks?|cakes?|cones?|"
    r"m|metres?|meters?|yds?|yards?|kg|g|grams?|oz|ounces?|lbs?|pounds?)\b)?"
    r"(?:\s+(?:of|in)\s+(?P<of>[\w'’ ]+?))?\s*(?=$|[,;+]|\band\b)",
    re.IGNORECASE,
)


class Ball(Struct, frozen=True):
    """A ball of a yarn: its metres, and its grams where they are told."""

    metres: Fraction
    grams: Fraction | None = None


class InHand(Struct, frozen=True):
    """Some yarn that a maker has: so many balls, metres or grams, of a colour or of any."""

    number: Fraction
    unit: str
    of: str = ""


def ball_told(words: str) -> Ball | NoLength:
    """The ball that some words tell: "50 g = 124 m", "90 yd"."""
    length = _LENGTH.search(words)
    if length is None or not _number(length["n"]):
        return NoLength(
            f'"{words.strip()[:40]}" tells no length of yarn in a ball.',
            'Write what is on the band: "100 g = 240 m", or "90 yd".',
        )
    metres = _number(length["n"]) * (YARD_M if length["unit"][:1] in "yY" else 1)
    weight = _WEIGHT.search(words)
    grams = _number(weight["n"]) * _grams(weight["unit"]) if weight is not None else None
    return Ball(metres, grams or None)


def in_hand_told(words: str) -> tuple[InHand, ...] | NoLength:
    """The amounts that some words tell: "14 balls", "3 balls of A and 2 of B", "350 g"."""
    found: list[InHand] = []
    unit = "balls"
    for match in _AMOUNT.finditer(" ".join(words.split())):
        if match["unit"] is None and match["of"] is None:
            continue
        unit = match["unit"] or unit  # "3 balls of A and 2 of B"
        amount = _amount(_number(match["n"]), unit)
        found.append(InHand(*amount, (match["of"] or "").strip()))
    if not found or not any(one.number for one in found):
        return NoLength(
            f'"{words.strip()[:40]}" tells no amount of yarn.',
            'Write what there is: "14 balls", "3 balls of A, 2 balls of B", "350 g", "400 '
            'yd".',
        )
    return tuple(found)


def _amount(number: Fraction, unit: str) -> tuple[Fraction, str]:
    low = unit.lower()
    if low[:1] in {"m", "y"}:
        return number * (YARD_M if low[:1] == "y" else 1), "m"
    if low == "kg" or low[:1] in {"g", "o", "l", "p"}:
        return number * _grams(low), "g"
    return number, "balls"


def _grams(unit: str) -> Fraction:
    low = unit.lower()
    if low.startswith("o"):
        return OUNCE_G
    if low[:1] in {"l", "p"}:
        return 16 * OUNCE_G
    return Fraction(1000) if low == "kg" else Fraction(1)


def _number(words: str) -> Fraction:
    return Fraction(words.replace(",", "."))
