"""A border told by its stretches: "sc evenly around: 25 along each side, 3 in each corner".

The numbers tell how many stitches lie along each edge of a piece with four corners; what
they are worked into is not said.
"""

from __future__ import annotations

from msgspec import Struct

from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import STITCH_NOUNS
from hookwright.notation.reader import Reader
from hookwright.notation.tree import Amount, Change, Evenly, Unworked

_ROUND_PIECE = frozenset(
    "all around round along over the this your whole entire outer outside edge edges piece "
    "blanket square panel cloth work body border of".split()
)
_LEADS = frozenset("with working placing making that is".split())
_ALONG = ("along", "across", "on", "up", "down", "over", "for", "at", "to")
_ALL = ("each", "both", "either", "every", "all")
_NAMED_EDGES = ("top", "bottom")
_EDGES = ("side", "sides", "edge", "edges", "end", "ends", "selvedge", "selvedges")
_TOLD_APART = frozenset("long short straight left right first second other upper".split())
_CORNERS = ("corner", "corners")
_FEWEST_STRETCHES = 2
_SIDES_OF_PIECE = 4


class _Stretch(Struct, frozen=True):
    """So many stitches along an edge.

    Attributes:
        amount: How many, one number a size.
        times: Along how many edges alike; 0 where they stand in the corners.
    """

    amount: Amount
    times: int


def read_spread_list(reader: Reader) -> bool:
    """ "Sc evenly around: 25 along top and bottom, 28 on each side, 3 in each corner"."""
    cursor = reader.cursor
    start = cursor.at
    stitch = cursor.stitch()
    if stitch is None or not cursor.take_word("evenly"):
        cursor.at = start
        return False
    while cursor.token.text in _ROUND_PIECE:
        cursor.step()
    opened = cursor.take_kind(Kind.OPEN)
    marked = opened or cursor.take_kind(Kind.COLON, Kind.COMMA, Kind.DASH)
    while cursor.token.text in _LEADS:
        marked = bool(cursor.step())
    stretches = _stretches(cursor) if marked else []
    closed = not opened or cursor.take_kind(Kind.CLOSE)
    if len(stretches) < _FEWEST_STRETCHES or not closed:
        cursor.at = start
        return False
    span = cursor.span_from(start)
    amount = _in_all(stretches)
    if amount is None:
        return reader.add(Unworked(span, "evenly"))
    return reader.add(Evenly(amount, Change.TOTAL, span, stitch.id, "side"))


def _stretches(cursor: Cursor) -> list[_Stretch]:
    """The stretches of a list, up to what is none."""
    found: list[_Stretch] = []
    while True:
        at = cursor.at
        cursor.take_kind(Kind.COMMA, Kind.SEMICOLON)
        cursor.take_word("and", "with", "plus")
        stretch = _stretch(cursor)
        if stretch is None:
            cursor.at = at
            return found
        found.append(stretch)


def _stretch(cursor: Cursor) -> _Stretch | None:
    """ "25 sc along top and bottom", "3 in each corner stitch"."""
    amount = cursor.number()
    if amount is None:
        return None
    cursor.take_word(*STITCH_NOUNS) or cursor.stitch()
    if cursor.take_word("in", "into"):
        return _Stretch(amount, 0) if _take_corners(cursor) else None
    if not cursor.take_word(*_ALONG):
        return None
    if _take_corners(cursor):
        return _Stretch(amount, 0)
    times = _edges(cursor)
    return _Stretch(amount, times) if times else None


def _take_corners(cursor: Cursor) -> bool:
    """ "Each corner", "all four corners", "the corner sts"."""
    at = cursor.at
    told = cursor.take_word(*_ALL)
    cursor.take_word("of", "the")
    cursor.take_word("the")
    cursor.number()
    if cursor.take_word(*_CORNERS) and (
        told or cursor.tokens[cursor.at - 1].text[-1] == "s"
    ):
        cursor.take_word(*STITCH_NOUNS, "sp", "space", "spaces", "sps")
        return True
    cursor.at = at
    return False


def _edges(cursor: Cursor) -> int:
    """How many edges are named: "each side" is two, "top and bottom" are as well."""
    every = cursor.take_word(*_ALL)
    cursor.take_word("of")
    cursor.take_word("the")
    number = cursor.number()
    while cursor.token.text in _TOLD_APART:
        cursor.step()
    if cursor.take_word(*_NAMED_EDGES):
        both = _other_edge(cursor)
        cursor.take_word("edge", "edges")
        cursor.take_word("each")
        return 2 if both else 1
    if not cursor.take_word(*_EDGES):
        return 0
    plural = cursor.tokens[cursor.at - 1].text.endswith("s")
    told = number.at(0) if number is not None else None
    return told or (2 if every or plural else 1)


def _other_edge(cursor: Cursor) -> bool:
    """ "(Along top) and the bottom", passed where it is named."""
    at = cursor.at
    joined = cursor.take_word("and")
    cursor.take_word("the")
    if joined and cursor.take_word(*_NAMED_EDGES):
        return True
    cursor.at = at
    return False


def _in_all(stretches: list[_Stretch]) -> Amount | None:
    """All stitches of the border; None where nobody can say how many corners it has."""
    edges = sum(stretch.times for stretch in stretches)
    cornered = any(not stretch.times for stretch in stretches)
    if cornered and edges != _SIDES_OF_PIECE:
        return None
    sizes = max(len(stretch.amount.values) for stretch in stretches)
    totals = [0] * sizes
    for stretch in stretches:
        for size in range(sizes):
            number = stretch.amount.at(size) or 0
            totals[size] += number * (stretch.times or _SIDES_OF_PIECE)
    span = stretches[0].amount.span.to(stretches[-1].amount.span)
    return Amount(tuple(totals), span)
