"""Which words of the trade are in what was heard?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.lesson.heard.facts import Word
from hookwright.lesson.heard.sounds import likeness, sound
from hookwright.lesson.words_of import said

_STANDARD = ("sl st", "sc", "hdc", "dc", "tr", "dtr")
_STANDARD_UK = ("sl st", "dc", "htr", "tr", "dtr")
_ACTIONS = ("chain", "skip", "miss")
_LEAST = 80.0
_LEAST_SHORT = 86.0
_LEAST_OTHERWISE = 88.0
_LEAST_SHORTENED = 92.0
_LEAST_OF_WORD = 60.0
_SHORT_WORD = 3
_SHORT = 5
"""Keys of so few letters are easily taken for others, so they have to be more alike."""


class Term(Struct, frozen=True):
    """A word of the trade: what it stands for, and how it sounds."""

    what: str
    words: str
    key: str
    keys: tuple[str, ...]

    @property
    def number(self) -> int:
        """How many words it has."""
        return len(self.keys)


class Found(Struct, frozen=True):
    """A term where it was heard: the first word of it, and how many words."""

    term: Term
    at: int
    length: int
    sure: float


def terms_of(checked: Checked) -> tuple[Term, ...]:
    """The stitches of a pattern and those of the trade, the longest first."""
    names = dict.fromkeys(_stitches(checked))
    names |= dict.fromkeys(_STANDARD_UK if checked.terms == "UK" else _STANDARD)
    told = [(name, said(checked, name).lower()) for name in names]
    told += [(name, name) for name in _ACTIONS]
    found = {
        words: Term(
            _what(name),
            words,
            sound(words.replace(" ", "")),
            tuple(map(sound, words.split())),
        )
        for name, words in told
        if sound(words)
    }
    return tuple(sorted(found.values(), key=lambda term: -len(term.key)))


def _what(name: str) -> str:
    return "skip" if name == "miss" else name


def _stitches(checked: Checked) -> Iterator[str]:
    """Names of stitches, without those drawn together: these have a number in them."""
    for working in checked.worked.sizes[:1]:
        for outcome in working.outcomes:
            if outcome.worked is None:
                continue
            for kind in outcome.worked.row.kinds():
                if kind.isascii() and kind[-3:] != "tog":
                    yield kind
    for definition in checked.reading.pattern.definitions:
        yield from (name for name in definition.names if name[-3:] != "tog")


def terms_heard(words: Sequence[Word], terms: Sequence[Term]) -> tuple[Found, ...]:
    """The terms in what was heard, the likeliest ones first taken, none over another."""
    found: list[Found] = []
    for at in range(len(words)):
        for term in terms:
            best = _best(words, at, term)
            if best is not None:
                found.append(best)
    found.sort(key=lambda one: (-len(one.term.key) * one.sure**2, one.at))
    taken: set[int] = set()
    kept: list[Found] = []
    for one in found:
        places = set(range(one.at, one.at + one.length))
        if not places & taken:
            taken |= places
            kept.append(one)
    return tuple(sorted(kept, key=lambda one: one.at))


def _best(words: Sequence[Word], at: int, term: Term) -> Found | None:
    """The likeliest number of words, from one fewer than the term has to one more."""
    best: Found | None = None
    for length in range(max(1, term.number - 1), term.number + 2):
        window = [word.text for word in words[at : at + length]]
        if len(window) < length or not all(map(str.isalpha, window)):
            continue
        sure = _sure(window, term)
        if sure and (best is None or sure > best.sure):
            best = Found(term, at, length, sure)
    return best


def _sure(window: Sequence[str], term: Term) -> float:
    """How surely some words are a term; 0 where they are not taken for it.

    Word by word where there are as many, and then each of them has to be alike; else all of
    them in one, which has to be more alike.
    """
    key = sound("".join(window))
    if not key or abs(len(key) - len(term.key)) > max(2, len(term.key) // 3):
        return 0.0
    whole = likeness(key, term.key)
    if len(window) == term.number:
        pairs = zip(map(sound, window), term.keys, strict=True)
        if any(likeness(one, other) < _least_of_word(other) for one, other in pairs):
            return 0.0
        return whole if whole >= _least(term) else 0.0
    shorter = len(window) < term.number
    least = max(_least(term), _LEAST_SHORTENED if shorter else _LEAST_OTHERWISE)
    return whole if whole >= least else 0.0


def _least(term: Term) -> float:
    return _LEAST if len(term.key) > _SHORT else _LEAST_SHORT


def _least_of_word(key: str) -> float:
    return _LEAST if len(key) <= _SHORT_WORD else _LEAST_OF_WORD
