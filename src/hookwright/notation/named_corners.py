"""What is worked in a corner as in one before: "corner in next ch-2 sp"?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.notation.bodies import stitches_of
from hookwright.notation.cursor import Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.nested import nested
from hookwright.notation.reader import Reader
from hookwright.notation.targets import read_target
from hookwright.notation.tree import (
    Chain,
    Definition,
    InOnePlace,
    Make,
    PartText,
    RowText,
    Unworked,
    Which,
)

CORNER = "corner"
_AS_BEFORE = Sayings((
    "as before", "as above", "as in previous round", "as in the previous round",
    "as in last round", "as in the last round", "the same way", "in the same way",
    "group",
))  # fmt: skip


def read_corner(reader: Reader) -> bool:
    """ "Work a corner in it as before", "corner in next ch-2 sp": the group of before."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("work", "make", "do", "working")
    cursor.take_word("a", "another", "one", "the")
    if not cursor.take_word(CORNER):
        cursor.at = start
        return False
    cursor.take_any(_AS_BEFORE)
    if _stands_alone(reader, start):
        return reader.add(Unworked(cursor.span_from(start), CORNER))
    target = read_target(cursor) if cursor.take_word("in", "into") else None
    if target is None:
        cursor.at = start
        return False
    cursor.take_any(_AS_BEFORE)
    return reader.add(Make(CORNER, cursor.span_from(start), target=target))


def _stands_alone(reader: Reader, start: int) -> bool:
    """ "Dc in next 3 dc, corner, ...": what is worked there, and where, nobody has said.

    In "3 sc in next st (corner)" it only tells where that was.
    """
    cursor = reader.cursor
    if CORNER in cursor.own_words or not start:
        return False
    led = cursor.tokens[start - 1].kind
    ends = led in (Kind.COMMA, Kind.STAR) and cursor.is_kind(*_ENDS)
    return ends or (led is Kind.OPEN and cursor.is_kind(Kind.COMMA))


_ENDS = (Kind.COMMA, Kind.SEMICOLON, Kind.CLOSE, Kind.STAR)


def corners_worked(parts: Sequence[PartText]) -> Iterator[Definition]:
    """What such a corner is: the last group round a chain that was told before it."""
    told: Definition | None = None
    for row in (row for part in parts for row in part.rows):
        for node in nested(row.body):
            if isinstance(node, Make) and node.stitch == CORNER:
                if told is not None:
                    yield told
                return
            if isinstance(node, InOnePlace) and _is_corner(node):
                begun = node.target.which is Which.SAME  # beside a beginning chain
                told = told if begun and told is not None else _defined(node, row)


def _is_corner(node: InOnePlace) -> bool:
    """Whether stitches stand on both sides of a chain."""
    ends = node.body[0], node.body[-1]
    chained = any(isinstance(inner, Chain) for inner in node.body)
    return chained and all(isinstance(end, Make) for end in ends)


def _defined(node: InOnePlace, row: RowText) -> Definition:
    body = node.body
    span = row.place(node.span)
    return Definition((CORNER,), span, body, 1, stitches_of(body), in_one_place=True)
