"""How many stitches go into how many rows: "3 sc over every 2 rows", "(48 sc)" in all?"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.label_words import ROUND_NAMES, ROW_NAMES
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import STITCH_NOUNS, across
from hookwright.notation.reader import Reader
from hookwright.notation.times import read_times
from hookwright.notation.tree import Amount, Change, Evenly, Unworked

_LEADS = ("work", "working", "placing", "place", "making", "make", "at", "about", "that")
_OVER = ("over", "per", "for", "in", "into", "to", "across", "along", "from")
_EVERY = ("every", "each", "the")
_OTHER = Sayings(("every other", "every second", "every third", "every 2nd", "every 3rd"))


def read_rate(reader: Reader) -> bool:
    """A rate along row ends: what it comes to is told by the count, or by nothing.

    The count may stand right behind it: "3 sc for every 2 rows (48 sc)".
    """
    cursor = reader.cursor
    start = cursor.at
    while cursor.take_word(*_LEADS):
        pass
    told = not reader.depth and cursor.number() is not None and _stitches(cursor)
    if not told or not (_over_rows(cursor) or _along_each(cursor)):
        cursor.at = start
        return False
    across(cursor)
    cursor.take_any(_TO_CORNER)
    in_all = _in_all(cursor)
    if in_all is None:
        return reader.add(Unworked(cursor.span_from(start), "rate"))
    amount, stitch = in_all
    span = cursor.span_from(start)
    return reader.add(Evenly(amount, Change.TOTAL, span, stitch, along="side"))


_TO_CORNER = Sayings(("to the next corner", "to next corner", "to the corner", "to corner"))


def _in_all(cursor: Cursor) -> tuple[Amount, str] | None:
    """The "(48 sc)" behind a rate: what it comes to along the one side."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    if cursor.take_kind(Kind.OPEN):
        cursor.take_kind(Kind.EQUALS)
        amount, stitch = cursor.number(), cursor.stitch()
        ends = cursor.take_kind(Kind.CLOSE) and not cursor.attempt(read_times)
        if amount and stitch and ends:
            return amount, stitch.id
    cursor.at = at
    return None


def _over_rows(cursor: Cursor) -> bool:
    at = cursor.at
    if cursor.take_word(*_OVER) and _several_rows(cursor):
        return True
    cursor.at = at
    return False


def _along_each(cursor: Cursor) -> bool:
    """ "3 sc along the edge of each block": pieces of an edge, and none to be worked."""
    at = cursor.at
    if cursor.take_any(_ALONG_EDGE) and cursor.take_word(*_UNITS, *cursor.own_words):
        return True
    cursor.at = at
    return False


_UNITS = ("block", "square", "stripe", "motif")
_ALONG_EDGE = Sayings(
    f"{along} the {edge} of {each}"
    for along in ("along", "into", "in", "across", "down", "up")
    for edge in ("edge", "side", "end", "outer edge")
    for each in ("each", "every")
)


def _stitches(cursor: Cursor) -> bool:
    return cursor.take_word(*STITCH_NOUNS) or cursor.stitch() is not None


def _several_rows(cursor: Cursor) -> bool:
    """ "Every 2 rows", "each 3 row ends", "every other row"."""
    several = cursor.take_any(_OTHER)
    if not several:
        cursor.take_word(*_EVERY)
        number = cursor.number()
        several = number is not None and (number.at(0) or 0) > 1
    rows = several and cursor.take_word(*ROW_NAMES, *ROUND_NAMES)
    cursor.take_word("end", "ends", "edges", "sides")
    return bool(rows)
