"""Repeats told to be heard: "work the following 5 times: ...; end of repeat".

Without stars and brackets the group stands between two phrases, and these may stand in one
another. "The last time stop here" marks where the last working ends.
"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.fold import fold
from hookwright.notation.lexer import Kind
from hookwright.notation.reader import Reader
from hookwright.notation.times import read_times
from hookwright.notation.tree import DEEPEST, Often, Repeat, Times

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
