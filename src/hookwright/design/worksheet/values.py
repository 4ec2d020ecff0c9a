"""Is a value of a worksheet of the kind that its key takes, and what is wrong if not?"""

from __future__ import annotations

import datetime as dt
from collections.abc import Callable, Sequence
from difflib import get_close_matches
from typing import TypeGuard

from hookwright.design.worksheet.colour_names import is_colour
from hookwright.design.worksheet.keys import Key, Kind
from hookwright.design.worksheet.lengths import length_in
from hookwright.regex import regex

_NUMBER_IN_WORDS = regex(r"\s*(\d{1,9}(?:[.,]\d{1,6})?)\b")
_DAY = regex(r"\d{4}-\d{2}-\d{2}")
_LONGEST_SHOWN = 40
_LARGEST = 999_999_999
"""Of more than nine digits is nothing that is crocheted or paid for."""


def wrong_with(key: Key, value: object) -> tuple[str, str] | None:
    """What is wrong with a value, and what to do; None if nothing is.

    Words in quotes without anything in them are a key that is not filled in yet.
    """
    if value == "":
        return None
    if key.kind is Kind.CHOICE:
        return _wrong_choice(key, value)
    if not _IS[key.kind](value):
        return _wrong_kind(key, value)
    return _out_of_range(key, value)


def _wrong_choice(key: Key, value: object) -> tuple[str, str] | None:
    if value in key.of:
        return None
    words = listed([f'"{word}"' for word in key.of], "or")
    likely = likeliest(value, key.of) if isinstance(value, str) else ""
    why = f'Write {key.name} = "{likely}".' if likely else f"Write {words}."
    return f'"{key.name}" is to be {words}, not {shown(value)}.', why


def _wrong_kind(key: Key, value: object) -> tuple[str, str]:
    message = f'"{key.name}" is to be {key.kind}, not {shown(value)}.'
    return message, f"Write it as here: {key.name} = {_better(key, value)}."


def _better(key: Key, value: object) -> str:
    """The value as it should be written, where that can be told, else an example."""
    words = value if isinstance(value, str) else ""
    if key.kind in {Kind.NUMBER, Kind.WHOLE} and (n := _NUMBER_IN_WORDS.match(words)):
        found = n[1].replace(",", ".")
        if key.kind is Kind.NUMBER or found.isdigit():
            return found
    if key.kind is Kind.LENGTH and _is_number(value):
        return f'"{value} in" or "{value} cm"'
    if key.kind is Kind.TEXT and _is_number(value):
        return f'"{value}"'
    return key.example


def _out_of_range(key: Key, value: object) -> tuple[str, str] | None:
    for number in _numbers(key, value):
        low = key.least is not None and number < key.least
        high = key.most is not None and number > key.most
        if low or high:
            why = "Look at the number." if key.kind is Kind.LENGTH else _range(key)
            return f'"{key.name}" cannot be {shown(value)}.', why
    return None


def _numbers(key: Key, value: object) -> list[float]:
    """The numbers of a value, lengths in millimetres."""
    if key.kind is Kind.LENGTH and isinstance(value, str):
        length = length_in(value)
        return [float(mm) for mm in length.mm if mm is not None] if length else []
    values = value if isinstance(value, list) else [value]
    return [float(one) for one in values if _is_number(one)]


def _range(key: Key) -> str:
    if key.most is None:
        return f"It is {key.least} or more."
    return f"It is {key.least} to {key.most}."


def _is_number(value: object) -> TypeGuard[float]:
    if isinstance(value, bool) or not isinstance(value, (int, float)):
        return False
    return -_LARGEST <= value <= _LARGEST


def _is_whole(value: object) -> bool:
    return isinstance(value, int) and _is_number(value)


def _is_text(value: object) -> bool:
    return isinstance(value, str)


def _are_texts(value: object) -> bool:
    return isinstance(value, list) and all(map(_is_text, value))


def _are_pairs(value: object) -> bool:
    return isinstance(value, list) and all(
        _are_texts(pair) and len(pair) == 2 for pair in value
    )


def _are_wholes(value: object) -> bool:
    return _is_whole(value) or (
        isinstance(value, list) and bool(value) and all(map(_is_whole, value))
    )


def _is_day(value: object) -> bool:
    """Whether it is a day, in quotes or as TOML writes a day."""
    if isinstance(value, dt.date) and not isinstance(value, dt.datetime):
        return True
    if not isinstance(value, str) or not _DAY.fullmatch(value.strip()):
        return False
    year, month, day = map(int, value.strip().split("-"))
    try:
        dt.date(year, month, day)
    except ValueError:
        return False
    return True


_IS: dict[Kind, Callable[[object], bool]] = {
    Kind.TEXT: _is_text,
    Kind.NUMBER: _is_number,
    Kind.WHOLE: _is_whole,
    Kind.LENGTH: lambda value: isinstance(value, str) and length_in(value) is not None,
    Kind.HEX: lambda value: isinstance(value, str) and is_colour(value),
    Kind.YES_NO: lambda value: isinstance(value, bool),
    Kind.TEXTS: _are_texts,
    Kind.PAIRS: _are_pairs,
    Kind.WHOLES: _are_wholes,
    Kind.DAY: _is_day,
}


def shown(value: object) -> str:
    """A value as a worksheet writes it, shortened if it is long."""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, (list, dict)):
        return "a list" if isinstance(value, list) else "a table"
    if isinstance(value, int) and abs(value) > _LARGEST:
        return "a number as large as that"
    words = f'"{value}"' if isinstance(value, str) else str(value)
    if len(words) > _LONGEST_SHOWN:
        return words[: _LONGEST_SHOWN - 4].rstrip() + " ..." + words[-1:]
    return words


def likeliest(word: str, known: Sequence[str]) -> str:
    """The known word that was most likely meant; "" where none is near."""
    by_lower = {name.lower(): name for name in known}
    asked = word.strip().lower().replace("-", "_").replace(" ", "_")
    if asked in by_lower:
        return by_lower[asked]
    found = get_close_matches(asked, by_lower, 1, 0.7)
    return by_lower[found[0]] if found else ""


def listed(words: Sequence[str], last: str = "and") -> str:
    """Words as a sentence lists them: "a, b and c"."""
    if len(words) < 2:
        return "".join(words)
    return f"{', '.join(words[:-1])} {last} {words[-1]}"
