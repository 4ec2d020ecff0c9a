"""Decreases told by which stitches they draw together: "crochet the 7th and 8th together".

Those before them are worked plain. "Every 4th and 5th st" is so all along, "the 7th and 8th
sc, 3 times" three times; "double every 3rd st" is the increase that is told in this way.
"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import EACH_WORDS, NEXT_WORDS, STITCH_NOUNS, across
from hookwright.notation.reader import Reader
from hookwright.notation.targets import read_target
from hookwright.notation.tree import (
    Amount,
    Make,
    Often,
    Repeat,
    Times,
)
from hookwright.notation.unnamed import UNNAMED

_WORK = ("work", "crochet", "draw", "take", "join", "working", "crocheting", "make")
_TOGETHER = ("together", "tog")
TOGETHER_SIGNS = frozenset((*_TOGETHER, "double", "doubling"))
"""Words of which one stands in whatever is read here."""
_ENDS = (
    Kind.COMMA, Kind.SEMICOLON, Kind.STOP, Kind.CLOSE, Kind.STAR, Kind.END, Kind.LINE,
    Kind.OPEN, Kind.EQUALS, Kind.DASH,
)  # fmt: skip


def read_nth_together(reader: Reader) -> bool:
    """Two stitches told by their numbers and drawn together, or one that is doubled."""
    cursor = reader.cursor
    start = cursor.at
    if _double(reader, start):
        return True
    cursor.take_word("then", "and")
    cursor.take_word(*_WORK)
    stitch = cursor.stitch()
    first = cursor.take_word(*_TOGETHER)
    every = cursor.take_word(*EACH_WORDS)
    the = cursor.take_word("the") or every
    number = _two_in_order(cursor) if the else 0
    if number:
        cursor.take_word(*STITCH_NOUNS) or cursor.stitch()
    if not number or not (first or cursor.take_word(*_TOGETHER)):
        cursor.at = start
        return False
    if every:
        across(cursor)
    span = cursor.span_from(start)
    plain = stitch.id if stitch is not None else UNNAMED
    name = f"{plain}2tog" if stitch is not None else "dec"
    before = Amount((number - 1,), span)
    body = (
        Make(plain, span, before),
        Make(name, span, legs=2),
    )
    if every:
        return reader.add(Repeat(body, Times(Often.ACROSS, span), span))
    reader.add(body[0])
    return reader.add(body[1])


def _two_in_order(cursor: Cursor) -> int:
    """The 7 of "7th and 8th"; 0 where no two such follow one another."""
    first = cursor.step().value if cursor.is_kind(Kind.ORDINAL) else 0
    cursor.take_word(*STITCH_NOUNS)
    joined = first > 1 and cursor.take_word("and", "with")
    cursor.take_word("the", *NEXT_WORDS)
    second = cursor.step().value if joined and cursor.is_kind(Kind.ORDINAL) else 0
    return first if second == first + 1 else 0


def _double(reader: Reader, start: int) -> bool:
    """ "Double every 2nd stitch": two in it, and those between plain."""
    cursor = reader.cursor
    own = "double" in cursor.own_words
    told = not own and cursor.take_word("double", "doubling")
    place = cursor.is_word(*EACH_WORDS) if told else False
    target = read_target(cursor) if place else None
    if target is None or target.noun in ("sp", "gap", "corner"):
        cursor.at = start
        return False
    across(cursor)
    if not cursor.is_kind(*_ENDS):
        cursor.at = start
        return False
    return reader.add(Make("inc", cursor.span_from(start), None, target))
