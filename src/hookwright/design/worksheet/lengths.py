"""A length as a worksheet writes it: "4 in", "10 cm", "4 1/2 in", "-5,5 cm"."""

from __future__ import annotations

from fractions import Fraction

from hookwright.design.facts import Measure
from hookwright.regex import regex
from hookwright.source import Span

_MM = {
    "mm": Fraction(1),
    "cm": Fraction(10),
    "m": Fraction(1000),
    "in": Fraction(254, 10),
    "ft": Fraction(3048, 10),
    "yd": Fraction(9144, 10),
}
"""Source: International yard and pound agreement of 1959: an inch is 25.4 mm exactly."""

_UNITS = {
    "inch": "in", "inches": "in", "in.": "in", '"': "in", "″": "in", "metre": "m",
    "metres": "m", "meter": "m", "meters": "m", "foot": "ft", "feet": "ft", "yard": "yd",
    "yards": "yd", "yds": "yd", "centimetres": "cm", "centimeters": "cm", "cms": "cm",
}  # fmt: skip
_FRACTIONS = {
    "¼": Fraction(1, 4), "½": Fraction(1, 2), "¾": Fraction(3, 4), "⅛": Fraction(1, 8),
    "⅜": Fraction(3, 8), "⅝": Fraction(5, 8), "⅞": Fraction(7, 8), "⅓": Fraction(1, 3),
    "⅔": Fraction(2, 3),
}  # fmt: skip
_LENGTH = regex(
    r"\s*(?P<sign>[-−+])?\s*(?:(?P<number>\d{1,9}(?:[.,]\d{1,6})?)?\s*"
    r"(?:(?P<top>(?<!\d)\d{1,3})\s*/\s*(?P<bottom>[1-9]\d{0,2})|(?P<sign_of_part>[¼½¾⅛⅜⅝⅞⅓⅔]))?)"
    r'\s*(?P<unit>[a-z]{1,11}\.?|["″])?\s*'
)


def length_in(words: str, span: Span = Span(0, 0)) -> Measure | None:  # noqa: B008 - a value
    """The length that some words tell; None if they tell none, or no unit of length."""
    found = _LENGTH.fullmatch(words.lower())
    if found is None or not found["unit"]:
        return None
    unit = _UNITS.get(found["unit"], found["unit"].rstrip("."))
    if unit not in _MM or not (found["number"] or found["top"] or found["sign_of_part"]):
        return None
    number = Fraction((found["number"] or "0").replace(",", "."))
    if found["top"]:
        number += Fraction(int(found["top"]), int(found["bottom"]))
    number += _FRACTIONS.get(found["sign_of_part"] or "", Fraction(0))
    sign = -1 if found["sign"] in {"-", "−"} else 1
    return Measure((sign * number * _MM[unit],), unit, span)
