"""A row that is told by its stitch alone: "In sc, 16 sts", "sc.", "back along it in sc"."""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import (
    CHAIN_NOUNS,
    STITCH_NOUNS,
    across,
    everything,
)
from hookwright.notation.reader import Reader
from hookwright.notation.tree import (
    Amount,
    Make,
    Target,
    Which,
)
from hookwright.notation.vocabulary import StitchWord

_ENDS = (
    Kind.STOP, Kind.COMMA, Kind.SEMICOLON, Kind.OPEN, Kind.LINE, Kind.END, Kind.DASH,
    Kind.EQUALS,
)  # fmt: skip
_WORK = ("work", "go", "crochet", "working", "come", "worked")
_BACK = Sayings(("back", "your way back", "your way", "straight back", "all the way back"))
_ALONG = Sayings(("along", "over", "across", "down", "up", "on", "through"))
IN_STITCH_SIGNS = frozenset({"in", "all", "with"})


def read_row_in_stitch(reader: Reader) -> bool:
    """ "In sc, 16 sts", "16 sts in sc", "go back along your chain in sc", "all sc"."""
    cursor = reader.cursor
    start = cursor.at
    if reader.has_work() or reader.depth:
        return False
    amount = cursor.number()
    counted = amount is not None and cursor.take_word(*STITCH_NOUNS)
    if amount is not None and not counted:
        cursor.at = start
        return False
    told = counted or cursor.take_word("all") or _along(cursor) is not None
    in_it = cursor.take_word("in", "of") if told or cursor.is_word("in") else False
    everywhere = told and cursor.tokens[cursor.at - 1].text == "all"
    stitch = _plain(cursor) if in_it or everywhere else None
    if stitch is None or not _is_end(cursor):
        cursor.at = start
        return False
    if amount is None:
        amount = _number_behind(cursor)
    span = cursor.span_from(start)
    target = None if amount is not None else _whole(cursor, start)
    return reader.add(Make(stitch.id, span, amount, target, stitch.loop))


def _along(cursor: Cursor) -> Target | None:
    """ "Go back along your chain", "work across": where a row in one stitch goes."""
    at = cursor.at
    if cursor.take_word(*_WORK):
        back = cursor.take_any(_BACK)
        if cursor.take_any(_ALONG):
            cursor.take_word("the", "your", "it", "this", "all", "that")
            named = cursor.take_word(*CHAIN_NOUNS, *STITCH_NOUNS, "row", "it", "way")
            if named or back or cursor.is_word("in"):
                return everything(cursor.span_from(at))
        elif across(cursor) or back:
            return everything(cursor.span_from(at))
    cursor.at = at
    return None


def _whole(cursor: Cursor, start: int) -> Target:
    """All along: of a chain where the words name it."""
    words = {token.text for token in cursor.tokens[start : cursor.at]}
    noun = "ch" if words & CHAIN_NOUNS else "st"
    return Target(noun, Which.EACH, cursor.span_from(start))


def _plain(cursor: Cursor) -> StitchWord | None:
    stitch = cursor.stitch()
    return stitch if stitch is not None and stitch.family == "plain" else None


def _is_end(cursor: Cursor) -> bool:
    across(cursor)
    return cursor.is_kind(*_ENDS) or cursor.is_word("turn")


def _number_behind(cursor: Cursor) -> Amount | None:
    """ "(In sc), 16 sts": how many, behind a comma."""
    at = cursor.at
    amount = cursor.number() if cursor.take_kind(Kind.COMMA) else None
    if amount is not None and cursor.take_word(*STITCH_NOUNS) and cursor.is_kind(*_ENDS):
        return amount
    cursor.at = at
    return None
