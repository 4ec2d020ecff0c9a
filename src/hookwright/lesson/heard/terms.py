"""Which words of the trade are in what was heard?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.lesson.heard.facts import Word
from hookwright.lesson.heard.sounds import likeness, sound
from hookwright.lesson.words_of import said

_FUNCTION = frozenset(
    "a an the and in into of do does to for with is it its this that you we i on at your "
    "my our one two three four five six seven eight nine ten so now then all each "
    "next".split()
)
"""Words that no stitch begins or ends with, however alike they sound."""
_MISHEARD_END = frozenset({"a"})
_CROCHET = " crochet"
_STANDARD = ("sl st", "sc", "hdc", "dc", "tr", "dtr")
_STANDARD_UK = ("sl st", "dc", "htr", "tr", "dtr")
_POSTS = ("FP", "BP")
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
    """A word of the trade: what it stands for, and how it sounds.

    Attributes:
        what: The stitch, "chain" or "skip".
        words: The words it is said with.
        key: How they sound in one.
        keys: How each of them sounds.
        is_short: Whether a part is left out, as in "two half doubles".
        is_letters: Whether it is an abbreviation, which has to be heard as it is written.
    """

    what: str
    words: str
    key: str
    keys: tuple[str, ...]
    is_short: bool = False
    is_letters: bool = False

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
    standard = _STANDARD_UK if checked.terms == "UK" else _STANDARD
    names |= dict.fromkeys(standard)
    names |= dict.fromkeys(f"{post}{name}" for post in _POSTS for name in standard[1:])
    told = [(name, said(checked, name).lower()) for name in names]
    told += [(name, name) for name in _ACTIONS]
    found = {words: _term(name, words) for name, words in told if sound(words)}
    for name, words in told:
        if name.isalnum() and name.lower() != words:
            letters = Term(_what(name), name.lower(), name, (name,), is_letters=True)
            found.setdefault(name.lower(), letters)
    for words, name in _shortened(told).items():
        found.setdefault(words, _term(name, words, is_short=True))
    return tuple(sorted(found.values(), key=lambda term: -len(term.key)))


def _term(name: str, words: str, *, is_short: bool = False) -> Term:
    key = sound(words.replace(" ", ""))
    return Term(_what(name), words, key, tuple(map(sound, words.split())), is_short)


def _shortened(told: Sequence[tuple[str, str]]) -> dict[str, str]:
    """ "Half double" and "front post", where only one stitch is called so."""
    found: dict[str, set[str]] = {}
    for name, words in told:
        if words.endswith(_CROCHET):
            short = words.removesuffix(_CROCHET)
            found.setdefault(short, set()).add(name)
            post = short.partition(" post ")
            if post[1]:
                found.setdefault(f"{post[0]} post", set()).add(name)
    return {words: name for words, (name, *others) in found.items() if not others}


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


def terms_written(words: Sequence[Word], terms: Sequence[Term]) -> tuple[Found, ...]:
    """The terms in words that are no recogniser's: just as they are spelled."""
    spelled = {tuple(term.words.split()): term for term in terms}
    longest = max(map(len, spelled), default=0)
    texts = [word.text for word in words]
    found: list[Found] = []
    at = 0
    while at < len(texts):
        windows = (texts[at : at + length] for length in range(longest, 0, -1))
        named = (spelled.get(tuple(_singular(one))) for one in windows if one)
        term = next((term for term in named if term is not None), None)
        if term is not None:
            found.append(Found(term, at, term.number, 100.0))
        at += term.number if term is not None else 1
    return tuple(found)


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
    if term.is_letters:
        return 100.0 if list(window) == [term.words] else 0.0
    if _FUNCTION & {window[0], window[-1]} and not (
        window[-1] in _MISHEARD_END and window[0] not in _FUNCTION
    ):
        return 0.0
    key = sound("".join(_singular(window)))
    if not key or abs(len(key) - len(term.key)) > max(2, len(term.key) // 3):
        return 0.0
    whole = likeness(key, term.key)
    if len(window) == term.number:
        pairs = zip(map(sound, _singular(window)), term.keys, strict=True)
        if any(likeness(one, other) < _least_of_word(other) for one, other in pairs):
            return 0.0
        return whole if whole >= _least(term) else 0.0
    shorter = len(window) < term.number
    least = max(_least(term), _LEAST_SHORTENED if shorter else _LEAST_OTHERWISE)
    return whole if whole >= least else 0.0


def _singular(window: Sequence[str]) -> Sequence[str]:
    """ "Three double crochets" are of double crochet."""
    last = window[-1]
    plural = len(last) > _SHORT_WORD and last[-1] == "s" and last[-2] != "s"
    return [*window[:-1], last[:-1]] if plural else window


def _least(term: Term) -> float:
    if term.is_short and term.number == 1:
        return _LEAST_OTHERWISE
    return _LEAST if len(term.key) > _SHORT else _LEAST_SHORT


def _least_of_word(key: str) -> float:
    return _LEAST if len(key) <= _SHORT_WORD else _LEAST_OF_WORD
