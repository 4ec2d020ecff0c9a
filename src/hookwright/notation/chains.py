"""What does a chain stand for, by what is said of it: "counts as dc", "not a stitch"?"""

from __future__ import annotations

from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.place_words import (
    CHAIN_NOUNS,
    GAP_NOUNS,
    IGNORED,
    SPACE_NOUNS,
    STITCH_NOUNS,
    UNUSED_WORDS,
)
from hookwright.notation.tree import Role
from hookwright.notation.vocabulary import Phrases, base_stitch

_NOT = frozenset(
    "not never n't don't doesn't isn't won't aren't uncounted no without cannot".split()
).union(IGNORED)
_COUNTS = frozenset(
    "counts count counted counting acts act acting stands stand standing "
    "equals equal is are serves serve considered replaces replace represents represent "
    "as makes make "
    "forms form for that's thats it's its".split()
)


class Meaning(Struct, frozen=True):
    """What a chain is said to be.

    Attributes:
        role: Whether it counts.
        stands: The stitch named; "st" for any.
        chains: Chains beyond that stitch.
        stitches: How many stitches it is said to count as.
        space: Whether a space beside it is named, of a length untold: "a dc and a gap".
    """

    role: Role
    stands: str = ""
    chains: int = 0
    stitches: int = 1
    space: bool = False


SAID_OF_ALL = frozenset("counts count is stands equals makes forms gives =".split())
_OF_ALL = frozenset(
    "beginning beg start always never each every throughout through".split()
)
_NEAR = 3


def is_told_of_all(words: list[str], *, founded: bool = False) -> bool:
    """ "Ch 3 at the beginning of a round is the first dc": of every row, not of this one.

    Behind nothing but a foundation, what a chain is said to be holds for all of them.
    """
    chained = not CHAIN_NOUNS.isdisjoint(words[:_NEAR])
    if chained and _is_of_each_start(words):
        return True
    if not chained or SAID_OF_ALL.isdisjoint(words[2:]):
        return False
    each = words[0] in ("each", "every") or not _OF_ALL.isdisjoint(words[2:])
    return founded or each


_START = frozenset("start starts starting beginning begin opening".split())
_OF_START = _START | frozenset(
    "at to in for the each every all of round rounds rnd rnds row rows with".split()
)


def _is_of_each_start(words: list[str]) -> bool:
    """ "Chain 1 at each start", "ch 2 to begin each round": a custom, and no chain."""
    said = {word for word in words[2:] if not word.isdecimal()}
    every = not said.isdisjoint(("each", "every", "all"))
    return every and not said.isdisjoint(_START) and said <= _OF_START


def says_what(tokens: list[Token]) -> bool:
    """Whether some words say that a chain counts, or not: "(dc, ch 1)" only names."""
    words = {token.text for token in tokens}
    return bool(words & (_COUNTS | _NOT)) or tokens[0].kind is Kind.EQUALS


def meaning_of(tokens: list[Token], own_words: Phrases) -> Meaning | None:
    """The meaning some words give a chain; None where they speak of something else."""
    meaning = _meaning_told(tokens, own_words)
    if meaning is None or meaning.role is not Role.COUNTS or meaning.chains:
        return meaning
    return replace(meaning, space=_names_space(tokens))


def _names_space(tokens: list[Token]) -> bool:
    """ "(A dc) and a gap", "(first tr) plus space": with no word on how long it is."""
    words = [token.text for token in tokens if token.text not in _ONE]
    return any(
        one in ("and", "plus", "+", ",") and other in SPACE_NOUNS | GAP_NOUNS
        for one, other in pairwise(words)
    )


_ONE = frozenset("a an one 1 the its".split())


def chains_beside(number: int, meaning: Meaning) -> int:
    """How many of so many chains are the space beside the stitch that they stand for."""
    stitch = base_stitch(meaning.stands) if meaning.space else None
    if stitch is None:
        return meaning.chains
    heights = (stitch.height, stitch.uk_height)
    return next((number - tall for tall in heights if 1 < tall < number), 0)


def _meaning_told(tokens: list[Token], own_words: Phrases) -> Meaning | None:
    words = {token.text for token in tokens}
    if tokens[0].kind is Kind.NUMBER and not words & (_COUNTS | _NOT):
        return _as_sum(tokens, own_words)
    if not words & (_COUNTS | _NOT) and words & {"ch", "chain", "chs", "chains"}:
        summed = _as_sum(tokens, own_words)
        if summed is not None and summed.chains:
            return summed
    stitch, number, chains = _named(tokens, own_words)
    if words & _NOT:
        about = words & {"count", "counts", "counted", "stitch", "st", "sts", "stitches"}
        return Meaning(Role.COUNTS_NOT) if about or words & IGNORED else None
    if not stitch:
        return None
    if words & _COUNTS or tokens[0].kind is Kind.EQUALS:
        return Meaning(Role.COUNTS, stitch, chains, number)
    if words & {"in", "into", "around", "hook"}:
        return None  # "ch 1, [sc in 1st ch] twice" is work
    short = len(tokens) <= 8 and (words & {"first", "1st"} or tokens[0].text in ("a", "an"))
    return Meaning(Role.COUNTS, stitch, chains, number) if short else None


def _as_sum(tokens: list[Token], own_words: Phrases) -> Meaning | None:
    """ "5 ch (1 tr and 2 ch)", "ch 3 (1 dc)", "ch 5 (dc + ch 2)": a stitch, and chains."""
    cursor = Cursor([*tokens, Token(Kind.END, "", 0, 0, 0)], own_words=own_words)
    one = not cursor.is_kind(Kind.NUMBER) or cursor.step().value == 1
    cursor.take_word("a", "one", "the")
    cursor.take_word("first", "1st")
    stitch = cursor.stitch()
    if stitch is None or not one:
        return None
    chains = 0
    joined = cursor.take_word("and", "plus") or cursor.take_kind(Kind.COMMA, Kind.PLUS)
    if joined:
        cursor.take_word("a")
        said = cursor.take_word("ch", "chain")
        cursor.take_kind(Kind.DASH)
        chains = cursor.step().value if cursor.token.kind is Kind.NUMBER else 0
        if not chains or not (said or cursor.take_word("ch", "chs", "chain", "chains")):
            return None
        cursor.take_word(*SPACE_NOUNS)
    return Meaning(Role.COUNTS, stitch.id, chains) if cursor.done() else None


def _named(tokens: list[Token], own_words: Phrases) -> tuple[str, int, int]:
    """The stitch named, how many of it, and the chains named with it."""
    cursor = Cursor([*tokens, Token(Kind.END, "", 0, 0, 0)], own_words=own_words)
    stitch, number, chains, last = "", 1, 0, 0
    while not cursor.done():
        token = cursor.token
        if token.kind is Kind.NUMBER:
            last = token.value
            cursor.step()
            cursor.take_kind(Kind.DASH)
            if cursor.take_word("ch", "chain", "chs", "chains"):
                passed = cursor.is_word(*UNUSED_WORDS)  # "a 3ch tr and 1ch missed"
                chains = last if stitch and not passed else chains
                last = 0
            continue
        if token.text in ("ch", "chain"):
            if stitch and _joins(cursor):  # "counts as dc and ch"
                chains = 1
            cursor.step()
            cursor.take_kind(Kind.DASH)
            if cursor.token.kind is Kind.NUMBER and stitch:
                chains = cursor.token.value
            elif cursor.token.kind is Kind.NUMBER:
                cursor.step()
            continue
        found = _stitch_or_noun(cursor)
        if found and not stitch:
            stitch, number = found, last or 1
        last = 0
    return stitch, max(1, min(number, 9)), chains


def _joins(cursor: Cursor) -> bool:
    """Whether the word before says that what comes is had besides."""
    at = cursor.at - 1
    while at > 0 and cursor.tokens[at].text in ("a", "an", "one"):
        at -= 1
    before = cursor.tokens[at]
    return before.text in ("and", "plus") or before.kind in (Kind.PLUS, Kind.COMMA)


def _stitch_or_noun(cursor: Cursor) -> str:
    stitch = cursor.stitch()
    if stitch is not None:
        return stitch.id
    token = cursor.step()
    return "st" if token.text in STITCH_NOUNS else ""
