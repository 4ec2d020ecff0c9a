"""How far down a place lies: "2 rows below", "of Round 3"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, ReadPlace, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import EACH_WORDS, NEXT_WORDS
from hookwright.notation.tree import Target, Which

_OF_ROW = Sayings(
    f"{of} {row}" for of in ("from", "of", "in", "on")
    for row in ("row", "rnd", "round", "r", "the row", "the round")
)  # fmt: skip
_ROW_UNDER = Sayings(
    f"{of} {the}{row}"
    for of in ("from", "of", "in", "on") for the in ("the ", "")
    for row in ("row below", "rnd below", "round below", "previous row", "last row")
)  # fmt: skip
_NEARBY = ("below", "beneath", "down", "lower", "underneath")


LEFT_FREE = Sayings(
    f"{that}{left}"
    for that in ("", "that were ", "that are ", "which were ", "still ", "that you ")
    for left in ("left free", "left unworked", "left unused", "left over", "left empty",
                 "left alone", "left open", "not worked", "unworked", "free", "left")
)  # fmt: skip
"""What tells loops that another row went by: "the loops of Rnd 2 left free"."""


def take_rows_below(cursor: Cursor, target: Target, read: ReadPlace) -> Target:
    """ "2 rows below", "of Round 3": how far down a place lies."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)  # "dc in next 3 sts, 2 rows below"
    cursor.take_word("of", "from", "in", "on")
    if cursor.take_word("the"):
        cursor.take_word("row", "rnd", "round")  # "of the row 2 rows below"
    amount = cursor.number()
    if amount and cursor.take_word("row", "rows", "rnd", "rnds", "rounds", "round"):
        if cursor.take_word(*_NEARBY):
            down = max(int(_is_skipped(target)), (amount.at(0) or 1) - 1)
            return _over(cursor, read, target, down)
        if cursor.take_phrase("before last"):
            return replace(target, rows_below=1)
    cursor.at = at
    several = at and cursor.tokens[at - 1].text in ("sts", "stitches")
    named = cursor.take_any(_OF_ROW)
    if named and cursor.token.kind is Kind.NUMBER:
        if several and target.which is Which.NEXT and target.amount is None:
            target = replace(target, which=Which.EACH)  # "in the stitches of Round 3"
        row = cursor.step().value
        _take_unit(cursor)
        return replace(target, rows_below=1, row=row)
    cursor.at = at
    if _is_skipped(target) and cursor.take_any(_ROW_UNDER):
        return replace(target, rows_below=1)
    below = cursor.take_word("below", "beneath", "behind")
    return replace(target, rows_below=1) if below and _is_skipped(target) else target


def _take_unit(cursor: Cursor) -> None:
    """ "The ch-3 sp of the Row 1 block": a name of the pattern's own says no more."""
    at = cursor.at
    unit = cursor.stitch()
    if unit is None or unit.family not in ("own", "group"):
        cursor.at = at


def _is_skipped(target: Target) -> bool:
    """ "The skipped st below": one left in a lower row, not one skipped here."""
    return target.which is Which.SKIPPED and not target.rows_below


def _over(cursor: Cursor, read: ReadPlace, target: Target, down: int) -> Target:
    """ "the tr 2 rows below next dc": the place on the working edge is named last."""
    at = cursor.at
    cursor.take_word("in", "over", "under", "of")
    above = read(cursor) if cursor.token.text in NEXT_WORDS | EACH_WORDS else None
    if above is not None:
        return replace(above, rows_below=down)
    cursor.at = at
    return replace(target, noun="st", rows_below=down)


def read_depth(cursor: Cursor, read: ReadPlace) -> Target | None:
    """ "spike sc 1 row below next st": a place told only by how far down it lies."""
    start = cursor.at
    amount = cursor.number()
    rows = amount and cursor.take_word("row", "rows", "rnd", "rnds", "rounds", "round")
    if amount and rows and cursor.take_word(*_NEARBY):
        here = Target("st", Which.NEXT, cursor.span_from(start))
        found = _over(cursor, read, here, max(0, (amount.at(0) or 1) - 1))
        return replace(found, span=cursor.span_from(start))
    cursor.at = start
    return None


def take_row_named(cursor: Cursor) -> int | None:
    """ "of Rnd 5", "from the round 3": the number of the row; None where none is named."""
    at = cursor.at
    if cursor.take_any(_OF_ROW) and cursor.token.kind is Kind.NUMBER:
        return cursor.step().value
    cursor.at = at
    return None


def names_row(cursor: Cursor) -> bool:
    """Whether "of row 3" follows, which tells a row and no group."""
    at = cursor.at
    named = cursor.take_any(_OF_ROW) and cursor.token.kind is Kind.NUMBER
    cursor.at = at
    return named
