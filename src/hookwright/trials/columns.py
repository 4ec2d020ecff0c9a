"""Which column of a file holds what, in whatever order and words?"""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec import Struct

from hookwright.regex import regex

_ROWS = r"(?:rows?|rounds?|rnds?)"
_OVER = r"(?:gauge|tension|4 ?in|10 ?cm)"


def _found(pattern: str) -> re.Pattern[str]:
    return regex(pattern, re.IGNORECASE)


_MEANS = (
    ("dropped", _found(r"\b(?:dropp?ed|left off|withdrew|finished\?)")),
    ("unclear", _found(rf"\b(?:unclear|confus\w*|question|hard)\b|{_ROWS} (?:that|not)\b")),
    ("hours", _found(r"\b(?:hours?|hrs?|time)\b")),
    ("row_gauge", _found(rf"\b{_ROWS}\b.*\b{_OVER}|(?:gauge|tension).*\b{_ROWS}\b")),
    (
        "stitch_gauge",
        _found(rf"\b(?:gauge|tension|repeats?|st(?:itche)?s?\b.*\b{_OVER})\b"),
    ),
    ("width", _found(r"\b(?:width|wide|around|chest|circumference)\b")),
    ("height", _found(r"\b(?:height|length|long|high|deep|depth)\b")),
    ("used", _found(r"\b(?:yarn|used|amount)\b")),
    ("size", _found(r"\bsize\b")),
    ("skill", _found(r"\b(?:skill|level|experience)\b")),
    ("tester", _found(r"\b(?:tester|name|who|maker)\b")),
    (
        "other",
        _found(
            r"\b(?:notes?|comments?|hook|substitut\w*|date|state|blocked|email|photo)\b"
        ),
    ),
)
_UNIT = _found(
    r"[(\[,/ ](?P<unit>cm|mm|in(?:ch(?:es)?)?|g|grams?|oz|m|metres?|meters?|yds?|yards?|"
    r"balls?|skeins?|min(?:utes)?)[)\]]?\s*$"
)
_COLOUR = regex(
    r"\b(?:of|colou?r|yarn|used|in)\s+"
    r"(?P<name>[A-Z](?![a-z])|[A-Z][a-z]+(?: [A-Z][a-z]+)*)"
)


class Column(Struct, frozen=True):
    """A column.

    Attributes:
        heading: Its heading.
        means: What it holds; "" for one that is not known.
        unit: The unit that its heading tells; "" for none.
        colour: The colour whose yarn it tells; "" for all.
    """

    heading: str
    means: str
    unit: str = ""
    colour: str = ""


def columns_of(headings: Sequence[str]) -> tuple[Column, ...]:
    """What the columns of a file hold, by their headings."""
    return tuple(map(_column, headings))


def _column(heading: str) -> Column:
    words = " ".join(heading.replace("_", " ").split())
    unit = _UNIT.search(f" {words}")
    means = next((name for name, found in _MEANS if found.search(words)), "")
    colour = _COLOUR.search(words) if means == "used" else None
    return Column(
        words,
        means,
        unit["unit"].lower() if unit is not None else "",
        colour["name"] if colour is not None else "",
    )
