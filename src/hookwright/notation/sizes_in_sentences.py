"""Which sizes are told in passing: "written for Toddler (Child, Adult)", "as XS/S/M/L"?

Only where the text lists as many numbers: "60 (66, 72)", "60/66/72".
"""

from __future__ import annotations

import re
from collections.abc import Sequence

from hookwright.notation.collected import Collected
from hookwright.notation.number_lists import has_lists, lengths_of_lists, sizes_by_lists
from hookwright.notation.size_words import NUMBERS, WORD_NAME
from hookwright.regex import regex

_LETTERS = r"\d*X*[SML](?:/\d*X*[SML])?(?![\w/])"
_AGES = r"(?:months?|mths?|mos|years?|yrs?)\b"
_ANY_NAME = rf"(?:{_LETTERS}|(?i:{WORD_NAME})|{NUMBERS}(?: ?{_AGES})?)"
_NAMED_IN_SENTENCE = regex(
    rf"(?<![\w(\[])(?P<first>{_ANY_NAME})\s*"
    rf"[(\[](?P<rest>{_ANY_NAME}(?:\s*[,:;/]\s*{_ANY_NAME})*)[)\]]"
)


def sizes_in_sentence(draft: Collected, texts: Sequence[str]) -> tuple[str, ...]:
    """ "A quick hat, written for Toddler (Child, Adult)." where numbers are listed so."""
    lengths: set[int] = set()
    slashes = "/" in draft.source.text and _SLASHED_NUMBERS.search(draft.source.text)
    if not (has_lists(draft) or slashes):
        return ()
    for text in texts:
        if len(text) > _LONGEST_SENTENCE:
            continue
        slashed = _slashed(draft, text) or _in_pairs(draft, text) or _worded(draft, text)
        if slashed:
            return slashed
        if _BRACKETS.isdisjoint(text):
            continue
        for found in _NAMED_IN_SENTENCE.finditer(text):
            names = (found["first"], *re.split(r"\s*[,:;]\s*", found["rest"]))
            named = any(name[0].isalpha() or not name[-1].isdecimal() for name in names)
            lengths = lengths or lengths_of_lists(draft)
            if named and len(names) in lengths and len(set(names)) == len(names):
                return names
    return ()


_AGED = regex(
    r"(?<![\w-])(?P<first>\d+(?:-\d+)?) ?"
    r"[(\[](?P<rest>\d+(?:-\d+)?(?:[,;:/] ?\d+(?:-\d+)?)*)"
    r"[)\]] ?-?(?P<age>months?|mths?|years?|yrs?)\b",
    re.IGNORECASE,
)
_NEAR_TITLE = 4
"""Lines among which a draft says in passing whom it is for."""


def aged_in_passing(draft: Collected, texts: Sequence[str]) -> tuple[str, ...]:
    """ "Bootees, 3 (6, 9) months": ages in passing, as many as the lists have numbers."""
    for line in [text for text in texts if text][:_NEAR_TITLE]:
        found = _AGED.search(line)
        if found is None:
            continue
        numbers = (found["first"], *re.split(r"[,;:/] ?", found["rest"]))
        if len(set(numbers)) == len(numbers) == len(sizes_by_lists(draft)):
            return tuple(f"{number} {found['age'].lower()}" for number in numbers)
    return ()


def _in_pairs(draft: Collected, text: str) -> tuple[str, ...]:
    """ "Sizes: S/M and L/XL, the larger one is given in parentheses"."""
    found = _PAIRS.search(text) if "/" in text else None
    names = tuple(_PAIR.findall(found[0])) if found is not None else ()
    return names if len(names) in lengths_of_lists(draft) else ()


def _worded(draft: Collected, text: str) -> tuple[str, ...]:
    """ "Fingerless gloves, teen/woman": two sizes, where numbers are listed so."""
    found = _WORDS.search(text) if "/" in text else None
    names = tuple(re.split(r" ?/ ?", found[0])) if found is not None else ()
    listed = len(names) in lengths_of_lists(draft) or len(names) in _slashed_lengths(draft)
    return names if listed else ()


_WORDS = regex(rf"(?<![\w/])(?i:{WORD_NAME})(?: ?/ ?(?i:{WORD_NAME}))+(?![\w/])")
_LETTER = r"\d*X*[SML]"
_PAIR = regex(rf"{_LETTER}/{_LETTER}(?![\w/])")
_PAIRS = regex(
    rf"(?<![\w/]){_LETTER}/{_LETTER}"
    rf"(?:(?:\s*[,;(\[]\s*|\s+(?:and|or|&)\s+){_LETTER}/{_LETTER})+"
    r"(?![\w/])"
)
_SLASHED_NAMES = regex(rf"(?<![\w/]){_LETTER}(?: ?/ ?{_LETTER}){{2,}}(?![\w/])")
_SLASHED_NUMBERS = regex(r"(?<![\d/])\d+(?: ?/ ?\d+){2,}(?![\d/])")


def _slashed_lengths(draft: Collected) -> set[int]:
    """How many numbers there are in lists told with slashes: "120 / 136 / 152"."""
    lists = _SLASHED_NUMBERS.findall(draft.source.text)
    return {one.count("/") + 1 for one in lists}


def _slashed(draft: Collected, text: str) -> tuple[str, ...]:
    """ "Numbers are given as XS/S/M/L", where "140/152/164/180" are."""
    found = _SLASHED_NAMES.search(text) if "/" in text else None
    if found is None:
        return ()
    names = tuple(re.split(r" ?/ ?", found[0]))
    return names if len(names) in _slashed_lengths(draft) else ()


_LONGEST_SENTENCE = 400
_BRACKETS = frozenset("([")
