"""Stitches told by their numbers: "sc around, with an inc in the 2nd, 5th and 8th st"."""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import STITCH_NOUNS
from hookwright.notation.reader import Reader
from hookwright.notation.tree import Amount, Change, Evenly, Make, Unworked, Which

_MORE = ("increasing",)
_FEWER = ("decreasing",)
_PUTS = ("with", "working", "work", "making", "make", "placing", "put", "putting")
_FEWEST_NUMBERED = 2
_EACH_MARKED = Sayings(
    f"{into} {each} {marked}"
    for into in ("in", "into")
    for each in ("each", "every", "all", "the")
    for marked in (
        "marked st",
        "marked stitch",
        "marked sts",
        "marked stitches",
        "marked sc",
    )
)
"""Stitches that a marker tells apart, and nobody says how many."""


def read_numbered(reader: Reader) -> bool:
    """ "Sc around, with an inc in the 2nd, 5th and 8th st": so many more in the row.

    Of "2 sc in the 3rd, 6th and 9th st" each is one more as well.
    """
    cursor = reader.cursor
    start = cursor.at
    last = reader.last()
    target = last.target if isinstance(last, Make) else None
    whole = target is not None and target.which is Which.EACH and not target.amount
    if not whole or not isinstance(last, Make) or last.legs > 1:
        return False
    cursor.take_word("but", "and", "while")
    cursor.take_word(*_PUTS)
    by = _by_each(cursor, last)
    if by and cursor.take_any(_EACH_MARKED):
        return reader.add(Unworked(cursor.span_from(start), "marked"))
    number = _ordinals(cursor) if by and cursor.take_word("in", "into", "at", "on") else 0
    if number < _FEWEST_NUMBERED:
        cursor.at = start
        return False
    span = cursor.span_from(start)
    change = Change.MORE if by > 0 else Change.FEWER
    return reader.add(Evenly(Amount((number * abs(by),), span), change, span))


def _by_each(cursor: Cursor, plain: Make) -> int:
    """By how many one of "an inc", "2 sc", "increasing" changes the row; 0 for others."""
    if cursor.take_word(*_MORE):
        return 1
    if cursor.take_word(*_FEWER):
        return -1
    cursor.take_word("a", "an")
    amount = cursor.number()
    stitch = cursor.stitch()
    number = amount.at(0) if amount is not None else 1
    if stitch is None or number is None:
        return 0
    if stitch.family == "increase":
        return number
    if stitch.legs == _PAIR and number == 1:
        return -1
    one = stitch.id == plain.stitch and stitch.legs == 1
    return number - 1 if one else 0


def _ordinals(cursor: Cursor) -> int:
    """How many stitches "the 2nd, 5th, 8th and 11th st" are; 0 where they are no list."""
    number = 0
    cursor.take_word("the", "every")
    while cursor.take_kind(Kind.ORDINAL):
        number += 1
        cursor.take_word(*STITCH_NOUNS) or cursor.stitch()
        cursor.take_kind(Kind.COMMA) and cursor.take_word("and")
        cursor.take_word("and", "&")
        cursor.take_word("in")
        cursor.take_word("the")
    named = cursor.tokens[cursor.at - 1].kind is not Kind.COMMA
    return number if named else 0


_PAIR = 2
