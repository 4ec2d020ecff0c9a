"""Is a stitch told ahead of its row: "sc in 2nd ch from hook is the first st of Row 1"?

The row tells it again among its stitches, so that here nothing is worked.
"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.place_words import STITCH_NOUNS
from hookwright.notation.reader import Reader
from hookwright.notation.row_numbers import row_numbers
from hookwright.notation.tree import Chain, Make, Remark, Yarn

FIRST_SIGNS = frozenset("is makes forms gives will becomes counts".split())
"""Of these one stands in every such phrase."""

_IS = Sayings((
    "is", "makes", "forms", "gives", "will be", "becomes", "counts as", "already is",
    "is already",
))  # fmt: skip


def read_first_of_row(reader: Reader) -> bool:
    """ "Sc in 2nd ch from hook is the first st of Row 1": where that row will begin."""
    cursor = reader.cursor
    start = cursor.at
    made = reader.last()
    if not isinstance(made, Make) or not made.target or not made.target.from_hook:
        return False
    founded = all(isinstance(item, (Chain, Yarn, Remark)) for item in reader.items[:-1])
    if not (founded and _names_first(cursor)):
        cursor.at = start
        return False
    reader.items.pop()
    return reader.remark(made.span.to(cursor.span_from(start)))


def _names_first(cursor: Cursor) -> bool:
    """Takes "is the first st of Row 1", "will be your 1st sc in the first row"."""
    if not cursor.take_any(_IS):
        return False
    cursor.take_word("the", "your", "its")
    first = cursor.take_word("first") or (cursor.token.text == "1st" and cursor.step())
    stitch = first and (cursor.take_word(*STITCH_NOUNS) or cursor.stitch())
    of_row = stitch and cursor.take_word("of", "in", "for")
    return bool(of_row and row_numbers(cursor))
