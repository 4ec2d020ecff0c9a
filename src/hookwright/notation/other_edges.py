"""Places of an edge other than the last row's: row ends and the underside of a chain.

Both are named for a border: "the end of each row", "the unused loops of the foundation ch".
"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import CHAIN_NOUNS, STITCH_NOUNS
from hookwright.notation.target_nouns import TargetWords, take_modifiers
from hookwright.notation.tree import Amount, Target, Which
from hookwright.source import Span

_ENDS = Sayings((
    "the ends of", "the end of", "ends of", "end of", "the sides of", "the side of",
    "sides of", "side of", "the edge of", "edge of",
))  # fmt: skip
_OTHER_SIDE = Sayings(("the other side of", "other side of"))
_BENEATH = Sayings((
    "the underside of", "underside of", "the bottom of", "the bottom loops of",
    "bottom loops of", "the unused loops of", "unused loops of", "the unused loop of",
    "unused loop of", "the free loops of", "free loops of", "the free loop of",
    "free loop of", "the remaining loops of", "remaining loops of",
    "the remaining loop of", "the unworked loops of", "the unworked loop of",
))  # fmt: skip
_FOUNDATION_LATER = Sayings(
    f"{where} {what}"
    for where in ("of the", "of", "along the", "along", "on the")
    for what in (
        "foundation chain", "foundation ch", "foundation edge", "foundation",
        "starting chain", "starting ch",
        "base chain", "base ch", "base",
        "beginning chain", "beginning ch", "original chain",
        "underside", "bottom edge", "bottom", "lower edge", "base edge", "cast-on edge",
    )
)  # fmt: skip


_SIGNS = frozenset(
    "row rows base bases bottom foundation underside side sides loop loops".split()
)
"""Words of which one is in all that names such an edge, but for the beginning chain."""


def read_other_edge(cursor: Cursor, start: int, words: TargetWords) -> Target | None:
    """A place on another edge; None, with the position kept, where none is named."""
    if cursor.lacks(_SIGNS) and not words.beginning:
        return None
    at = cursor.at
    ends = _ends_of(cursor, start)
    if ends is not None:
        return ends
    cursor.at = words.end
    every_row = words.which is Which.EACH and cursor.take_word("row", "rows")
    if every_row and _along_side(cursor):
        return _target("row end", words, cursor.span_from(start))
    cursor.at = at
    based = _bases(cursor, start)
    if based is not None:
        return based
    cursor.at = at
    other_side = cursor.take_any(_OTHER_SIDE)
    beneath = other_side or cursor.take_any(_BENEATH)
    if beneath:
        words = TargetWords()
        take_modifiers(cursor, words)
    else:
        cursor.at = words.end
    if other_side and words.which is not Which.EACH:
        cursor.at = at
        return None
    founded = cursor.take_word("foundation") or (
        words.beginning and words.which is Which.EACH and words.ordinal is None
    )
    chained = (beneath or founded) and cursor.take_word(*CHAIN_NOUNS)
    if chained and cursor.token.kind not in (Kind.DASH, Kind.NUMBER):
        told = {token.text for token in cursor.tokens[at : cursor.at]}
        noun = "underside" if told.isdisjoint(_OPENINGS) else "ch"
        return _target(noun, words, cursor.span_from(start))
    cursor.at = at
    return None


_OPENINGS = frozenset("underarm armhole thumb gusset".split())
"""What a chain lies over that is left open: "the unused loop of each underarm ch"."""


def _ends_of(cursor: Cursor, start: int) -> Target | None:
    """ "The end of each dc row", "the side of each of next 9 blocks"."""
    at = cursor.at
    if not cursor.take_any(_ENDS):
        return None
    whose = TargetWords()
    take_modifiers(cursor, whose)
    block = _block_sides(cursor, whose, at, start)
    if block is not None:
        return block
    if cursor.stitch() is None:
        _piece(cursor)
    if not cursor.take_word("row", "rows"):
        return None
    _take_numbers(cursor, whose)
    return _target("row end", whose, cursor.span_from(start))


def _block_sides(cursor: Cursor, words: TargetWords, at: int, start: int) -> Target | None:
    """ "The side of each of next 9 blocks": edges that no row has left, by their number."""
    side = any(token.text in ("side", "sides") for token in cursor.tokens[at : cursor.at])
    if not side or words.which is not Which.EACH or words.amount is None:
        return None
    begun = cursor.at
    named = cursor.take_word(*_BLOCKS) or cursor.stitch()
    if not named or cursor.tokens[cursor.at - 1].text not in _BLOCKS:
        cursor.at = begun
        return None
    span = cursor.span_from(start)
    return Target(
        "st", Which.EACH, span, words.amount, of=Target("piece", Which.SAME, span)
    )


_BLOCKS = frozenset("block blocks tile tiles square squares box boxes pixel pixels".split())


def _take_numbers(cursor: Cursor, words: TargetWords) -> None:
    """ "(The end of row) 1", "(the ends of rows) 2-20": so many, by their numbers."""
    start = cursor.at
    first = last = cursor.number()
    if first is None or words.amount is not None:
        return
    if cursor.take_kind(Kind.DASH) or cursor.take_word("to", "through"):
        last = cursor.number()
    one, other = first.at(0), last.at(0) if last is not None else None
    if one is None or other is None or not one <= other:
        cursor.at = start
        return
    words.which = words.which or Which.NEXT
    words.amount = Amount((other - one + 1,), cursor.span_from(start))


def _piece(cursor: Cursor) -> None:
    """Takes whose rows they are: "(the end of each) cuff row"."""
    named = cursor.token.kind is Kind.WORD and cursor.peek().text in ("row", "rows")
    if named and not cursor.is_word("row", "rows"):
        cursor.step()


_BASES = Sayings(("the base of", "the bases of", "base of", "bases of", "bottom of"))
_OF_ROW_1 = Sayings((
    "of row 1", "of the first row", "of first row", "of the foundation row",
    "in row 1", "in the first row",
))  # fmt: skip
_WORN = frozenset("yoke body neck band skirt bodice piece".split())


def _bases(cursor: Cursor, start: int) -> Target | None:
    """ "The base of each of the 40 sts of Row 1": the chain that these stand in."""
    if not cursor.take_any(_BASES):
        return None
    words = TargetWords()
    take_modifiers(cursor, words)
    if cursor.stitch() is None and not cursor.take_word(*STITCH_NOUNS):
        return None
    if words.which is not Which.EACH or not cursor.take_any(_OF_ROW_1):
        return None
    at = cursor.at
    cursor.take_word("of")
    cursor.take_word("the")
    if not cursor.take_word(*_WORN):
        cursor.at = at
    return _target("underside", words, cursor.span_from(start))


_WAYS = ("along", "down", "up", "on", "of")
_WHICH = frozenset(
    "the this that each a first second other next left right long short side".split()
)


def _along_side(cursor: Cursor) -> bool:
    """ "(In each row) along the long edge": where the rows end."""
    at = cursor.at
    if cursor.take_word(*_WAYS):
        while cursor.token.text in _WHICH and cursor.peek().text in {*_WHICH, "edge"}:
            cursor.step()
        if cursor.take_word("edge", "edges", "side", "sides"):
            return True
    cursor.at = at
    return False


def along_foundation(cursor: Cursor, ordinal: int | None = None) -> bool:
    """Takes the words that move chains to the underside: "ch of the foundation".

    "3rd ch of starting ch" is the top of the chain that the round began with.
    """
    begun = (ordinal or 0) > 1 and cursor.peek().text in ("starting", "beginning", "the")
    if begun and cursor.attempt(_starting_chain):
        return False
    taken = cursor.take_any(_FOUNDATION_LATER)
    if taken:
        cursor.take_any(_FOUNDATION_LATER)
        cursor.take_word("chain", "ch")
    return taken


def _starting_chain(cursor: Cursor) -> bool | None:
    return cursor.take_any(_BEGUN_WITH) or None


_BEGUN_WITH = Sayings(
    tuple(
        f"of {the}{which} {chain}"
        for the in ("", "the ")
        for which in ("starting", "beginning")
        for chain in ("ch", "chain")
    )
)


def _target(noun: str, words: TargetWords, span: Span) -> Target:
    which = words.which or (Which.NTH if words.ordinal else Which.EACH)
    return Target(noun, which, span, words.amount, ordinal=words.ordinal)
