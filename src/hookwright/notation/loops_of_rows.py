"""Which row's loops is all of a row worked into: "working in the free loops of Rnd 5"?"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.reader import Reader
from hookwright.notation.rows_below import LEFT_FREE, take_row_named
from hookwright.notation.tree import Loops

_SIDES = {"front": "front", "flo": "front", "back": "back", "blo": "back"}
_FREE = ("free", "unused", "unworked", "remaining", "empty", "left", "exposed")
_LOOPS = ("loop", "loops", "lp", "lps")
_BEHIND = Sayings(
    f"{where}{the}"
    for where in ("behind", "in front of", "below", "under", "inside")
    for the in (" the", " that", " your")
)


def read_loops_of_row(reader: Reader) -> bool:
    """ "Working in the free back loops of Rnd 9 behind the ruff, sc in each st"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("work", "working", "worked")
    _pass_what_lies_before(cursor)
    loop = _loops(cursor) if cursor.take_word("in", "into", "through") else None
    row = take_row_named(cursor) if loop is not None else None
    if loop is None or row is None:
        cursor.at = start
        return False
    if not loop and not cursor.take_any(LEFT_FREE):
        cursor.at = start
        return False
    loop = loop or "front"
    _pass_what_lies_before(cursor)
    return reader.add(Loops(loop, cursor.span_from(start), row))


def _loops(cursor: Cursor) -> str | None:
    """ "The unused front loops", "BLO": which loops; "" where only "loops" is said."""
    cursor.take_word("the")
    free = cursor.take_word(*_FREE)
    side = _SIDES.get(cursor.token.text)
    if side is None and not free:
        return "" if cursor.take_word(*_LOOPS) else None
    short = side is not None and cursor.step().text.endswith("lo")
    named = short or cursor.take_word(*_LOOPS)
    cursor.take_word("only")
    return (side or "front") if named else None


def _pass_what_lies_before(cursor: Cursor) -> None:
    """ "Behind the ruff": a word or two on what hides the loops."""
    if not cursor.take_any(_BEHIND):
        return
    if cursor.is_kind(Kind.WORD) and not cursor.is_word("in", "into"):
        cursor.step()
