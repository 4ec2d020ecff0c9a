"""How many stitches go into how many rows: "3 sc over every 2 rows"?"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.label_words import ROUND_NAMES, ROW_NAMES
from hookwright.notation.place_words import STITCH_NOUNS, across
from hookwright.notation.reader import Reader
from hookwright.notation.tree import Unworked

_LEADS = ("work", "working", "placing", "place", "making", "make", "at", "about", "that")
_OVER = ("over", "per", "for", "in", "into", "to", "across", "along", "from")
_EVERY = ("every", "each", "the")
_OTHER = Sayings(("every other", "every second", "every third", "every 2nd", "every 3rd"))


def read_rate(reader: Reader) -> bool:
    """A rate along row ends: what it comes to is told by the count, or by nothing."""
    cursor = reader.cursor
    start = cursor.at
    while cursor.take_word(*_LEADS):
        pass
    told = not reader.depth and cursor.number() is not None and _stitches(cursor)
    if not told or not cursor.take_word(*_OVER) or not _several_rows(cursor):
        cursor.at = start
        return False
    across(cursor)
    return reader.add(Unworked(cursor.span_from(start), "rate"))


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
