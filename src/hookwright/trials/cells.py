"""What does a cell tell: a length, an amount of yarn, hours, rows, in whatever unit?"""

from __future__ import annotations

import re
from fractions import Fraction

from hookwright.answers.yarn_told import in_hand_told
from hookwright.regex import regex
from hookwright.sizing.lengths import NoLength, length_told

Ball = tuple[Fraction | None, Fraction | None]
"""Metres and grams in a ball."""
_NUMBER = regex(r"\s*(?P<n>\d{1,6}(?:[.,]\d{1,3})?)\s*")
_HOURS = regex(
    r"(?:(?P<h>\d{1,4}(?:[.,]\d{1,2})?)\s*(?:h|hrs?|hours?)\b)?\s*"
    r"(?:(?P<m>\d{1,4})\s*(?:m|min|minutes?)\b)?",
    re.IGNORECASE,
)
_CLOCK = regex(r"(?P<h>\d{1,3}):(?P<m>[0-5]\d)")
_ROWS = regex(r"\d{1,4}")
_RANGE = regex(r"(\d{1,4})\s*[-–]\s*(\d{1,4})")
_GAUGE = regex(
    r"\s*(?P<n>\d{1,4}(?:[.,]\d{1,2})?)\s*(?:sts?|stitches|rows?|rnds?|rounds?|repeats?|reps?)?"
    r"\s*(?:(?:to|in|per|=|/|over)\s*(?P<length>\d[\w .\"/½¼¾]*(?:in|cm|mm|\")))?\s*",
    re.IGNORECASE,
)
_FOUR_INCHES_MM = 101.6
_TEN_CM_MM = 100.0
_MOST_ROWS = 400


def length_cell(words: str, unit: str) -> float | None:
    """A length in millimetres; None where none is told."""
    told = words if any(letter.isalpha() or letter == '"' for letter in words) else ""
    found = length_told(told or f"{words.strip().replace(',', '.')} {unit or '?'}")
    return None if isinstance(found, NoLength) else float(found)


def amount_cell(words: str, unit: str, ball: Ball) -> float | None:
    """An amount of yarn in metres; None where none is told, or the ball is not known."""
    plain = _NUMBER.fullmatch(words)
    told = f"{words.strip()} {unit}" if plain is not None and unit else words
    found = in_hand_told(told.replace(",", "."))
    if isinstance(found, NoLength):
        return None
    metres, grams = ball
    whole = 0.0
    for one in found:
        if one.unit == "m":
            whole += float(one.number)
        elif one.unit == "g" and metres and grams:
            whole += float(one.number * metres / grams)
        elif one.unit == "balls" and metres:
            whole += float(one.number * metres)
        else:
            return None
    return whole


def hours_cell(words: str, unit: str) -> float | None:
    """Hours; a bare number is hours, or minutes where the heading says so."""
    text = words.strip()
    plain = _NUMBER.fullmatch(text)
    if plain is not None:
        number = float(plain["n"].replace(",", "."))
        return number / 60 if unit.startswith("min") else number
    clock = _CLOCK.fullmatch(text)
    if clock is not None:
        return int(clock["h"]) + int(clock["m"]) / 60
    match = _HOURS.fullmatch(text)
    if match is None or not (match["h"] or match["m"]):
        return None
    return float((match["h"] or "0").replace(",", ".")) + int(match["m"] or 0) / 60


def rows_cell(words: str) -> tuple[int, ...]:
    """The numbers of rows, ranges written out: "12, 14-16 and 40"."""
    found: list[int] = []
    for first, last in _RANGE.findall(words):
        low, high = int(first), int(last)
        found += range(low, min(high, low + _MOST_ROWS) + 1)
    found += map(int, _ROWS.findall(_RANGE.sub(" ", words)))
    return tuple(sorted(set(found)))


def gauge_cell(words: str, *, inches: bool) -> float | None:
    """What one takes, in millimetres: "16", "16 sts in 4 in", "15.5 = 10 cm".

    A bare number is counted over 4 inches, or over 10 cm where the designer measures so.
    """
    match = _GAUGE.fullmatch(words)
    if match is None:
        return None
    number = float(match["n"].replace(",", "."))
    over = _FOUR_INCHES_MM if inches else _TEN_CM_MM
    if match["length"]:
        told = length_told(match["length"])
        if isinstance(told, NoLength):
            return None
        over = float(told)
    return over / number if number else None
