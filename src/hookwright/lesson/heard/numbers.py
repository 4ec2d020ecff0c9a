"""Which number is a word, and is that certain?"""

from __future__ import annotations

_UNITS = (
    "zero one two three four five six seven eight nine ten eleven twelve thirteen fourteen "
    "fifteen sixteen seventeen eighteen nineteen"
).split()
_TENS = {
    "twenty": 20, "thirty": 30, "forty": 40, "fifty": 50, "sixty": 60, "seventy": 70,
    "eighty": 80, "ninety": 90,
}  # fmt: skip
_WORDS = {word: number for number, word in enumerate(_UNITS)} | _TENS
_SOUND_ALIKE = {
    "won": 1, "to": 2, "too": 2, "tree": 3, "free": 3, "for": 4, "fore": 4, "fife": 5,
    "sex": 6, "sicks": 6, "ate": 8, "tin": 10,
}  # fmt: skip
"""Words that a recogniser writes for numbers; they are words of their own as well."""


def number_at(words: list[str], at: int) -> tuple[int, int] | None:
    """A number that begins at a word, and how many words it has; None for no number.

    "Forty two" and "one hundred and eighty one" are numbers of several words.
    """
    if at >= len(words):
        return None
    if words[at].isdigit():
        return (int(words[at]), 1) if len(words[at]) < 7 else None
    value = _below_hundred(words, at)
    if value is None:
        return None
    number, length = value
    if at + length < len(words) and words[at + length] == "hundred":
        rest_at = at + length + 1
        length += 1
        number *= 100
        if rest_at < len(words) and words[rest_at] == "and":
            rest_at += 1
        rest = _below_hundred(words, rest_at)
        if rest is not None:
            return number + rest[0], rest_at + rest[1] - at
    return number, length


def _below_hundred(words: list[str], at: int) -> tuple[int, int] | None:
    if at >= len(words) or words[at] not in _WORDS:
        return None
    number = _WORDS[words[at]]
    following = words[at + 1] if at + 1 < len(words) else ""
    if number in _TENS.values() and 0 < _WORDS.get(following, 0) < 10:
        return number + _WORDS[following], 2
    return number, 1


def sounds_like(word: str) -> int | None:
    """The number that a word may have been misheard for."""
    return _SOUND_ALIKE.get(word)
