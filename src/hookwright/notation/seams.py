"""Where the edges of a finished piece are closed: "sl st through both short ends".

What is worked through both ends closes a seam: it is no row, and leaves nothing behind.
"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.reader import Reader
from hookwright.notation.tree import FinishOff

_SEW = Sayings((
    "sew", "seam", "whip stitch", "whipstitch", "mattress stitch", "graft",
    "sl st", "slip st", "slip stitch", "sc", "join", "work",
))  # fmt: skip
_THROUGH = ("through", "thru", "together", "the")
_BEGINNING = frozenset("foundation starting beginning cast chain".split())
_END = frozenset("last final".split())
_SHORT_ENDS = Sayings(("short ends", "short edges", "two ends", "both ends"))
_LONGEST = 24


def read_seam(reader: Reader) -> bool:
    """A seam from the foundation to the last row: an end, and no work of a row."""
    cursor = reader.cursor
    start = cursor.at
    if reader.has_work() or reader.depth:
        return False
    if not cursor.take_any(_SEW) or not cursor.is_word(*_THROUGH):
        cursor.at = start
        return False
    words, ends = _sentence(cursor)
    if not (ends or (words & _BEGINNING and words & _END)):
        cursor.at = start
        return False
    return reader.add(FinishOff(cursor.span_from(start)))


def _sentence(cursor: Cursor) -> tuple[frozenset[str], bool]:
    """The words up to the next stop, and whether they name both ends of a piece."""
    words: set[str] = set()
    ends = False
    while cursor.is_kind(Kind.WORD, Kind.NUMBER, Kind.COMMA) and len(words) < _LONGEST:
        ends = ends or cursor.is_any(_SHORT_ENDS)
        words.add(cursor.step().text)
    return frozenset(words), ends
