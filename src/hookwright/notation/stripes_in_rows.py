"""Which stripes are told behind rows again: "Rep Row 2, working 8 rows A and 8 rows B"?

The rows stay what they are; how many of them each yarn has works nothing.
"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.lexer import Kind
from hookwright.notation.reader import Reader
from hookwright.notation.row_numbers import ROW_WORDS
from hookwright.notation.times import read_times
from hookwright.notation.tree import Often, Recall, Remark
from hookwright.notation.yarns import read_yarn_name

STRIPE_SIGNS = ROW_WORDS
_LEADS = ("working", "work", "making", "now", "with", "using")
_IN_STRIPES = Sayings((
    "in stripes of", "stripes of", "in a sequence of", "in a stripe sequence of",
))  # fmt: skip
_OF_YARN = ("in", "of", "with", "using")
_IN_ALL = Sayings(("in all", "in total", "altogether", "over", "more"))
_BY_TURNS = Sayings((
    "alternately", "by turns", "in turn", "throughout", "and so on", "as before",
))  # fmt: skip
_FEWEST = 2


def read_stripes_of_rows(reader: Reader) -> bool:
    """ "..., working 8 rows A, 8 rows B and 8 rows C, three times in all": a remark."""
    cursor = reader.cursor
    start = cursor.at
    told = (item for item in reversed(reader.items) if not isinstance(item, Remark))
    if reader.depth or not isinstance(next(told, None), Recall):
        return False
    cursor.take_word(*_LEADS)
    cursor.take_any(_IN_STRIPES)
    if _stripes(reader) < _FEWEST:
        cursor.at = start
        return False
    _pass_how_often(cursor)
    return reader.remark(cursor.span_from(start))


def _stripes(reader: Reader) -> int:
    """How many stripes are told here, one behind the other."""
    cursor, number = reader.cursor, 0
    while _stripe(reader):
        number += 1
        at = cursor.at
        cursor.take_kind(Kind.COMMA, Kind.PLUS)
        cursor.take_word("and")
        cursor.take_word("then")
        if not cursor.is_kind(Kind.NUMBER):
            cursor.at = at
            break
    return number


def _stripe(reader: Reader) -> bool:
    """ "8 rows A", "two rows in Slate", "1 more row of B"."""
    cursor = reader.cursor
    start = cursor.at
    counted = cursor.number() is not None
    cursor.take_word("more", "further")
    if counted and cursor.take_word(*ROW_WORDS):
        cursor.take_word(*_OF_YARN)
        cursor.take_word("yarn", "colour", "color")
        if read_yarn_name(reader, new=True):
            return True
    cursor.at = start
    return False


def _pass_how_often(cursor: Cursor) -> None:
    """ ", three times in all", ", twice more": of the stripes, not of the rows."""
    at = cursor.at
    cursor.take_kind(Kind.COMMA)
    if cursor.take_any(_BY_TURNS):
        return
    times = read_times(cursor)
    if times is None or times.often in (Often.ACROSS, Often.TO_LAST):
        cursor.at = at
        return
    cursor.take_any(_IN_ALL)
