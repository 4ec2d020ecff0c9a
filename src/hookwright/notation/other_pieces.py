"""Where a piece is joined to another as it grows: "sl st in corner sp of first square".

Such a stitch goes into another piece: it uses nothing of the row below and is not counted.
Pieces that are put together once they are done have an edge that no row tells.
"""

from __future__ import annotations

import re

from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind
from hookwright.notation.reader import Reader
from hookwright.regex import regex

_PIECES = frozenset(
    "square squares motif motifs hexagon hexagons hex granny medallion octagon pentagon "
    "triangle flower circle wheel star piece patch coaster".split()
)
_PARTS = frozenset("body head leg base hat bag sole shoe bootee".split())
_BORDERED = frozenset(
    "hat cap beanie bonnet body blanket throw shawl scarf cowl sleeve mitten mitt hand "
    "brim cuff crown yoke sock leg bag cushion cardigan jacket top sweater piece".split()
)
"""What a band may be joined to as it grows."""
_OTHERS = frozenset(
    "first other second adjoining adjacent neighbouring neighboring adj finished completed "
    "previous prev joined last".split()
)
JOINED_SIGNS = _PIECES | _PARTS | _BORDERED
"""Words of which one stands in every such phrase."""

_INTO = ("in", "into", "to", "through", "around", "onto", "over", "with")
_OF = ("of", "on", "in", "from")
_LONGEST = 12
_WITHIN = (Kind.WORD, Kind.NUMBER, Kind.ORDINAL, Kind.DASH)


def read_joined_to_piece(reader: Reader) -> bool:
    """A slip stitch, or a join, into a place of another piece."""
    cursor = reader.cursor
    start = cursor.at
    if _joins(cursor) and _reaches_piece(cursor):
        return reader.remark(cursor.span_from(start))
    cursor.at = start
    return False


def _joins(cursor: Cursor) -> bool:
    """ "sl st in", "join with a sl st to", "1 sc through"."""
    joined = cursor.take_word("join", "joining", "attach", "connect")
    cursor.take_word("with", "by", "in")
    cursor.take_word("a", "an", "1", "one")
    stitch = cursor.stitch()
    short = stitch is not None and (stitch.family == "slip" or stitch.id == "sc")
    return (short or (joined and stitch is None)) and (
        cursor.take_word(*_INTO) or cursor.tokens[cursor.at - 1].text in _INTO
    )


def _reaches_piece(cursor: Cursor) -> bool:
    """Whether the next words lead to "of the first square", with no mark between."""
    if _whole_piece(cursor):
        return True
    for _ in range(_LONGEST):
        if not cursor.is_kind(*_WITHIN):
            return False
        if cursor.take_word(*_OF) and (_other_piece(cursor) or _edge_of_piece(cursor)):
            return True
        cursor.step()
    return False


def _whole_piece(cursor: Cursor) -> bool:
    """ "Sl st to the body.": fastened to a part, and no place is named."""
    at = cursor.at
    named = cursor.take_word("the", "your") and cursor.take_word(*_PARTS)
    if named and cursor.is_kind(Kind.STOP, Kind.COMMA, Kind.SEMICOLON, Kind.END, Kind.LINE):
        return True
    cursor.at = at
    return False


def _other_piece(cursor: Cursor) -> bool:
    at = cursor.at
    cursor.take_word("the", "a", "an", "your", "any")
    other = False
    while cursor.token.text in _OTHERS:
        cursor.step()
        other = True
    cursor.take_word("granny")
    if other and cursor.token.text in _PIECES:
        cursor.step()
        return True
    cursor.at = at
    return False


_EDGES = ("edge", "border", "rim", "opening", "side", "neckline", "foundation", "end")


def _edge_of_piece(cursor: Cursor) -> bool:
    """ "On the edge of the hat", "of the hat edge": a band is joined to it as it grows."""
    at = cursor.at
    cursor.take_word("the", "your")
    if cursor.take_word(*_EDGES) and cursor.take_word("of"):
        cursor.take_word("the", "your")
        if cursor.take_word(*_BORDERED):
            return True
    elif cursor.take_word(*_BORDERED) and cursor.take_word(*_EDGES):
        return True
    cursor.at = at
    return False


_MANY_SIGNS = (
    "squares", "motifs", "blocks", "hexagons", "octagons", "triangles", "tiles", "pieces",
    "strips", "panels", "patches", "medallions", "wheels", "circles", "shoulder", "seam",
    "rs", "ws",
    "them",
)  # fmt: skip
_MANY = (
    r"(?:squares|motifs|blocks|hexagons|octagons|triangles|tiles|pieces|strips|panels|"
    r"patches|medallions|wheels|circles|shoulders?|seams|"
    r"(?:side|shoulder|raglan) seam|them|"
    r"(?:pairs? of|touching|adjoining|adjacent|neighbou?ring)(?: [a-z]+)? (?:sides|edges))"
)
_JOIN = r"(?:join(?:ing)?|(?:over|top)?sew|seam|crochet|whip ?stitch|slip stitch|graft)"
_PUT_TOGETHER = regex(
    rf"\b{_JOIN}\b[^.;\n]{{0,90}}\b{_MANY}\b"
    rf"|\b{_MANY}\b[^.;\n]{{0,90}}\b(?:together|joined|sewn)\b"
    rf"|\bfold\b[^.;]{{0,90}}\b(?:(?:over|top)?sew|whip ?stitch|graft)\b"
    r"|\b(?:hold|place|lay|put|pin)\b[^.;]{0,90}"
    r"\b(?:(?:wrong|right) sides? (?:together|facing)|"
    r"[rw]s (?:together|facing (?:each|one|in|out)\b))"
    r"|\bhold (?:the |both |these )?(?:two |2 )?(?:sides|halves|pieces|panels) together",
    re.IGNORECASE,
)


def puts_together(text: str, start: int, end: int) -> bool:
    """Whether a stretch of text says that pieces are put together: "join them in rows".

    So it is where one piece is folded, and its edges sewn, or two are held together.
    """
    words = text[start:end].lower()
    told = any(sign in words for sign in (*_MANY_SIGNS, "fold", "side", "edges"))
    return told and _PUT_TOGETHER.search(text, start, end) is not None
