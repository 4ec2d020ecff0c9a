"""Do the amounts of the colours come to the amount that is said to be needed in all?

They are added up only where every amount beside the total is that of a colour or yarn, in
the same unit: "85 g in all: 40 g of A and 45 g of B".
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from hookwright.design.facts import Holds
from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Severity
from hookwright.regex import regex
from hookwright.source import Span

_NUMBER = r"(?<![\d.,/½])\d{1,5}(?:[.,]\d{1,2})?"
_UNIT = (
    r"(?P<unit>g|gr|grams?|oz|ounces?|balls?|skeins?|hanks?|yds?|yards?|m|metres?|meters?)"
    r"\b"
)
_AMOUNT = regex(rf"(?P<n>{_NUMBER})\s?{_UNIT}", re.IGNORECASE)
_IN_ALL_BEHIND = regex(
    r"\s(?:of (?:yarn|cotton|wool) )?(?:in all|in total|all told|altogether|total)\b",
    re.IGNORECASE,
)
_IN_ALL_BEFORE = regex(
    r"\b(?:total(?: of|:| is)?|in all,?|altogether,?|in total,?)\s$", re.IGNORECASE
)
_ROUGHLY = regex(
    r"\b(?:about|approx\w*|around|roughly|nearly|almost|over|under|less than|more than|"
    r"at least|up to|max\w*|or|per|each|every|spare|extra|left ?overs?|scraps?|plus)\b|"
    r"[~/=+≈<>]|\d\s?[(\[]\s?\d",
    re.IGNORECASE,
)
_OF_COLOUR = regex(r"\b(?:[A-H]|MC\d?|CC\s?\d?|[A-Z][a-z]{2,})\b")
_OF_BEHIND = regex(r"\s(?:of|in)\s(?:[A-H]|MC\d?|CC\s?\d?|[A-Z][a-z]{2,}|[a-z]{3,12})\b")


def yarn_in_all(manuscript: Manuscript) -> Iterator[Finding]:
    """Totals in the lines of the materials that their amounts do not come to."""
    source, told = manuscript.source, set[int]()
    for section in manuscript.design.sections:
        if section.holds is not Holds.MATERIALS:
            continue
        whole = section.heading.to(section.body)
        first, last = source.line_of(whole.start), source.line_of(max(0, whole.end - 1))
        for number in range(first, last + 1):
            if number not in told:
                told.add(number)
                yield from _in_line(source.text, source.line_span(number))


def _in_line(text: str, line: Span) -> Iterator[Finding]:
    words = text[line.start : line.end]
    found = list(_AMOUNT.finditer(words))
    totals = [one for one in found if _is_total(words, one)]
    if len(totals) != 1 or len(found) < 3:
        return
    (total,) = totals
    unit = _unit(total)
    parts = [one for one in found if one is not total]
    at, end = min(one.start() for one in found), max(one.end() for one in found)
    alike = all(_unit(one) == unit for one in parts)
    if not alike or _ROUGHLY.search(words, max(0, at - 12), min(len(words), end + 12)):
        return
    if not _are_of_colours(words, parts):
        return
    added, said = sum(map(_value, parts)), _value(total)
    if added != said:
        amounts = [words[one.start() : one.end()] for one in parts]
        yield Finding(
            "materials",
            Severity.WARNING,
            Span(line.start + total.start(), line.start + total.end()),
            f"{', '.join(amounts[:-1])} and {amounts[-1]} are {_told(added)} {unit}, "
            f"not {_told(said)} {unit} in all.",
            "Correct the amount of a colour, or what they come to.",
        )


def _is_total(words: str, found: re.Match[str]) -> bool:
    before = words[max(0, found.start() - 16) : found.start()]
    behind = _IN_ALL_BEHIND.match(words, found.end()) is not None
    return behind or _IN_ALL_BEFORE.search(before) is not None


def _are_of_colours(words: str, parts: list[re.Match[str]]) -> bool:
    """Whether a colour stands right before each amount, or "of A" right behind each."""
    if all(_OF_BEHIND.match(words, one.end()) for one in parts):
        return True
    starts = [max(0, parts[0].start() - 24), *(one.end() for one in parts[:-1])]
    between = zip(starts, parts, strict=True)
    return all(
        one.start() - start <= 40 and _OF_COLOUR.search(words, start, one.start())
        for start, one in between
    )


_SHORT = {
    "y": "yd",
    "m": "m",
    "g": "g",
    "o": "oz",
    "b": "balls",
    "s": "skeins",
    "h": "hanks",
}


def _unit(found: re.Match[str]) -> str:
    return _SHORT[found["unit"][0].lower()]


def _value(found: re.Match[str]) -> Fraction:
    return Fraction(found["n"].replace(",", "."))


def _told(number: Fraction | int) -> str:
    return f"{float(number):g}"
