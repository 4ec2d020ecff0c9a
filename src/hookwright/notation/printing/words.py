"""Stitches, numbers and lists as they are written in a careful pattern."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from functools import cache

from hookwright.notation.lexer import NUMBER_WORDS
from hookwright.notation.tree import Amount
from hookwright.notation.vocabulary import compound, standard_words
from hookwright.regex import regex

_POSTS = {"fp": "FP", "bp": "BP"}
# A crab st has no plain stitch in its name, so it is one in both terms.
_OTHERWISE = {"v-st": "V-st", "rsc": "crab st"}
_WITHOUT_PLURAL = frozenset({"plain", "slip", "together", "foundation"})
_NOUNS = ("st", "sp")
_VOWELS = frozenset("aeiou")
_TIMES = {1: "once", 2: "twice"}
# A number in a name stands within a word: "C4F".
_LOOSE_NUMBER = regex(r" (?=\d)|(?<=\d) ")
_SPELLED = {number: word for word, number in NUMBER_WORDS.items() if word != "hundred"}
_RANGE_FROM = 3  # "Rows 2 and 3", but "Rows 2-4"


def stitch_word(stitch: str) -> str:
    """A stitch as it is written: "fpdc" is FPdc, a word nobody knows is itself."""
    plain = stitch.removeprefix("?")
    post = _POSTS.get(plain[:2])
    made = compound(plain) if post else None
    if post and made and made.post:
        return post + plain[2:]
    return _OTHERWISE.get(plain) or _spelling(plain)


@cache
def _spelling(stitch: str) -> str:
    """A stitch by its own name, or by the first of its names if that is none of them."""
    spellings = [
        " ".join(words)
        for rows in standard_words().values()
        for words, word in rows
        if word.id == stitch
    ]
    known = stitch if not spellings or stitch in spellings else min(spellings, key=len)
    return _LOOSE_NUMBER.sub("", known)


def stitch_words(stitch: str, amount: Amount | None) -> str:
    """A stitch, in the plural where there are more of it and its name takes one."""
    word = stitch_word(stitch)
    return word if is_one(amount) or _has_no_plural(stitch) else plural(word)


def _has_no_plural(stitch: str) -> bool:
    return _family(stitch) in _WITHOUT_PLURAL or compound(stitch) is not None


def is_trade_stitch(stitch: str) -> bool:
    """Whether a name in the tree is that of a stitch everybody may use."""
    return bool(_family(stitch)) or compound(stitch) is not None


@cache
def _family(stitch: str) -> str:
    """How a stitch of the trade is worked; "" for another word."""
    rows = (word for words in standard_words().values() for _, word in words)
    return next((word.family for word in rows if word.id == stitch), "")


def plural(word: str) -> str:
    """More than one of something: "shells", "V-sts"; other abbreviations have no plural."""
    letter = len(word) == 1
    if letter or word.endswith("s") or not (word.endswith(_NOUNS) or set(word) & _VOWELS):
        return word
    return f"{word}es" if word.endswith(("ch", "sh", "x")) else f"{word}s"


def is_one(amount: Amount | None) -> bool:
    """Whether a noun behind an amount stands in the singular."""
    return amount is None or amount.values == (1,)


def amount_words(amount: Amount) -> str:
    """A number, or one a size: "58 (64, 70)"."""
    if amount.values[0] is None:
        return f"({', '.join('-' if v is None else str(v) for v in amount.values)})"
    return str(amount)


def times_words(amount: Amount) -> str:
    """ "once", "twice", "3 times", "11 (11, 13) times"."""
    if len(amount.values) == 1 and amount.values[0] in _TIMES:
        return _TIMES[amount.values[0]]
    return f"{amount_words(amount)} times"


def more_times_words(amount: Amount) -> str:
    """ "once more", "9 more times"."""
    if len(amount.values) == 1 and amount.values[0] in _TIMES:
        return f"{_TIMES[amount.values[0]]} more"
    return f"{amount_words(amount)} more times"


def spelled(number: int) -> str:
    """A number in letters if it is one word, for a place where figures stand before it."""
    return _SPELLED.get(number, str(number)) if number >= _RANGE_FROM else str(number)


def ordinal(number: int) -> str:
    """ "1st", "2nd", "3rd", "4th", "11th"."""
    if number % 100 in (11, 12, 13):
        return f"{number}th"
    return f"{number}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(number % 10, 'th') }"


def number_list(numbers: Sequence[int]) -> str:
    """ "7", "2 and 3", "2-5", "2, 4 and 6", "2-4 and 8"."""
    pieces = [_run(run) for run in runs(numbers)]
    flat = [word for words in pieces for word in words]
    return flat[0] if len(flat) == 1 else f"{', '.join(flat[:-1])} and {flat[-1]}"


def runs(numbers: Iterable[int]) -> list[list[int]]:
    """Numbers in stretches that count up by one."""
    runs: list[list[int]] = []
    for number in numbers:
        if runs and runs[-1][-1] + 1 == number:
            runs[-1].append(number)
        else:
            runs.append([number])
    return runs


def _run(run: Sequence[int]) -> list[str]:
    if len(run) < _RANGE_FROM:
        return [str(number) for number in run]
    return [f"{run[0]}-{run[-1]}"]


def sentence(text: str) -> str:
    """Some words with a capital where they begin with a letter."""
    return text[:1].upper() + text[1:]
