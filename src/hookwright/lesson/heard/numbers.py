"""Which number is a word, and is that certain?"""

from __future__ import annotations

from collections.abc import Sequence

_UNITS = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen "
    "fifteen sixteen seventeen eighteen nineteen"
).split()
_TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70,
    "eighty": 80, "ninety": 90,
}  # fmt: skip
_WORDS = {word: number for number, word in enumerate(_UNITS)} | _TENS
_ORDINALS = {
    word: number
    for number, word in enumerate(
        (
            "first second third fourth fifth sixth seventh eighth ninth tenth eleventh "
            "twelfth thirteenth fourteenth fifteenth sixteenth seventeenth eighteenth "
            "nineteenth twentieth"
        ).split(),
        start=1,
    )
}
_ENDS = ("st", "nd", "rd", "th")
_SOUND_ALIKE = {
    "won": 1, "to": 2, "too": 2, "tree": 3, "free": 3, "for": 4, "fore": 4, "fife": 5,
    "sex": 6, "sicks": 6, "ate": 8, "tin": 10,
}  # fmt: skip
"""Words that a recogniser writes for numbers; they are words of their own as well."""


def number_at(words: Sequence[str], at: int) -> tuple[int, int] | None:
    """A number that begins at a word, and how many words it has; None for no number.

    "Forty two" and "one hundred and eighty one" are numbers of several words, and so is
    "one eighty one".
    """
    if at >= len(words):
        return None
    if words[at].isdigit():
        return (int(words[at]), 1) if len(words[at]) < 7 else None
    if words[at] == "hundred":
        return _hundreds(words, at, 1, 0)
    value = _below_hundred(words, at)
    if value is None:
        return None
    number, length = value
    if words[at + length : at + length + 1] == ["hundred"]:
        return _hundreds(words, at, number, length)
    if 0 < number < 10 and words[at + 1 : at + 2] != [] and words[at + 1] in _TENS:
        rest = _below_hundred(words, at + 1)
        if rest is not None:
            return number * 100 + rest[0], 1 + rest[1]
    return number, length


def number_from(words: Sequence[str], at: int) -> tuple[int, int] | None:
    """The same, but None inside a longer number: no 2 begins in "forty two"."""
    for back in (1, 2, 3, 4):
        longer = number_at(words, at - back) if at >= back else None
        if longer is not None and longer[1] > back:
            return None
    return number_at(words, at)


def _hundreds(words: Sequence[str], at: int, number: int, length: int) -> tuple[int, int]:
    """So many hundreds, with what stands behind them."""
    rest_at = at + length + 1
    if words[rest_at : rest_at + 1] == ["and"]:
        rest_at += 1
    rest = _below_hundred(words, rest_at)
    if rest is None:
        return number * 100, length + 1
    return number * 100 + rest[0], rest_at + rest[1] - at


def _below_hundred(words: Sequence[str], at: int) -> tuple[int, int] | None:
    if at >= len(words) or words[at] not in _WORDS:
        return None
    number = _WORDS[words[at]]
    following = words[at + 1] if at + 1 < len(words) else ""
    if number in _TENS.values() and 0 < _WORDS.get(following, 0) < 10:
        return number + _WORDS[following], 2
    return number, 1


def ordinal(word: str) -> int | None:
    """The number of "third" and of "3rd"."""
    if word[-2:] in _ENDS and word[:-2].isdigit() and len(word) < 7:
        return int(word[:-2])
    return _ORDINALS.get(word)


def sounds_like(word: str) -> int | None:
    """The number that a word may have been misheard for."""
    return _SOUND_ALIKE.get(word)


def is_counted_aloud(words: Sequence[str], at: int) -> bool:
    """Whether a number is one of three or more that are counted: "one, two, three"."""
    numbers = [word for word in words[max(0, at - 6) : at + 7] if word != ","]
    place = sum(1 for word in words[max(0, at - 6) : at] if word != ",")
    values = [_single(word) for word in numbers]
    value = values[place]
    if value is None:
        return False
    run = 1
    for step in (-1, 1):
        near, expected = place + step, value + step
        while 0 <= near < len(values) and values[near] == expected:
            run, near, expected = run + 1, near + step, expected + step
    return run >= 3


def _single(word: str) -> int | None:
    if word.isdigit():
        return int(word[:6])
    return _WORDS.get(word)
