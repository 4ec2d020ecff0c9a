"""Repeats told to be heard: "work the following 5 times: ...; end of repeat".

Without stars and brackets the group stands between two phrases, and these may stand in one
another. "The last time stop here" marks where the last working ends.
"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.fold import fold
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import STITCH_NOUNS, across
from hookwright.notation.reader import Reader
from hookwright.notation.times import read_times
from hookwright.notation.tree import DEEPEST, Make, Often, Repeat, Times

_BEGINS = Sayings(("work the following", "repeat the following", "do the following"))
_ENDS = Sayings(("end of repeat", "end of the repeat", "end repeat"))
_STOPS = Sayings(("the last time stop here", "last time stop here"))
_CORNER = Sayings(("to next corner", "to the next corner", "to corner"))


def read_said_repeat(reader: Reader) -> bool:
    """A repeat between the phrase that says how often and the one that ends it."""
    cursor = reader.cursor
    start = cursor.at
    times = _how_often(cursor) if cursor.take_any(_BEGINS) else None
    if times is None or reader.depth >= DEEPEST:
        cursor.at = start
        return False
    cursor.take_kind(Kind.COLON, Kind.COMMA)
    inner = reader.inner()
    split = _read_group(inner)
    body = fold(inner.items) if split is None else ()
    if split is not None:
        first = fold(inner.items[:split])
        body = (*first, *fold(inner.items[split:]))
        split = len(first)
    repeat = Repeat(body, times, cursor.span_from(start), split, mark="[")
    return reader.add(repeat)


_THESE = ("these", "the following", "the next", "the")
_OVER = ("over and over", "again and again", "over and over again")


def read_list_to_end(reader: Reader) -> bool:
    """ "Repeat these 4 sts to the end: sc, hdc, sc, sc": a list, its end told first."""
    cursor = reader.cursor
    start = cursor.at
    if reader.depth or reader.has_work():
        return False
    ahead = across(cursor)
    told = cursor.take_word("repeat", "rep")
    these = _these_stitches(cursor) if told or cursor.take_word("work") else False
    over = (told or these) and (cursor.take_phrase(*_OVER) or across(cursor))
    if not (over or (ahead and told)) or not cursor.take_kind(Kind.COLON):
        cursor.at = start
        return False
    if cursor.is_kind(Kind.STAR):  # the stars tell it
        return reader.remark(cursor.span_from(start))
    span = cursor.span_from(start)
    inner = reader.inner()
    while not cursor.is_kind(Kind.STOP, Kind.END, Kind.OPEN, Kind.SEMICOLON, Kind.LINE):
        inner.read_next()
    body = fold(inner.items)
    if not any(isinstance(node, Make) for node in body):
        cursor.at = start
        return False
    times = Times(Often.ACROSS, span)
    return reader.add(Repeat(body, times, cursor.span_from(start), mark="["))


def _these_stitches(cursor: Cursor) -> bool:
    """ "(Repeat) these 4 sts", "the following stitches"."""
    at = cursor.at
    named = cursor.take_phrase(*_THESE)
    cursor.number()
    if named and cursor.take_word(*STITCH_NOUNS):
        return True
    cursor.at = at
    return False


def _how_often(cursor: Cursor) -> Times | None:
    start = cursor.at
    if cursor.take_any(_CORNER):
        return Times(Often.ACROSS, cursor.span_from(start), noun="corner")
    return read_times(cursor)


def _read_group(inner: Reader) -> int | None:
    """Read up to the end of the group; the item at which its last working stops."""
    cursor = inner.cursor
    split = None
    while not cursor.done() and not cursor.take_any(_ENDS):
        if cursor.token.kind in (Kind.SEMICOLON, Kind.COMMA, Kind.LINE):
            cursor.step()
        elif cursor.take_any(_STOPS):
            split = len(inner.items)
        else:
            inner.read_next()
    return split
