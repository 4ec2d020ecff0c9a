"""Rows told by the pattern that others form: "work 42 further rows in patt"?

Which rows these are was said before: "Rows 2 and 3 form the pattern."
"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.reader import Reader
from hookwright.notation.recalls import ROW_WORDS, rows_for, rows_in_all
from hookwright.notation.tree import Amount, Recall

_VERBS = ("work", "continue", "cont", "keep", "carry", "go", "working", "rep", "repeat")
_GOING = ("on", "working", "going")
_IN_PATTERN = Sayings(
    f"{lead} {the}{st}{pattern}"
    for lead in ("in", "with", "following")
    for the in ("", "the ", "this ", "same ", "the same ")
    for st in ("", "stitch ", "st ", "row ")
    for pattern in ("pattern", "patt", "pat")
)
_SET = Sayings(("as set", "as established", "as now set", "as before", "as given"))


def read_in_pattern(reader: Reader) -> bool:
    """ "Work 42 further rows in patt", "cont in patt for 10 more rows"."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("then", "now", "next")
    if reader.depth or not cursor.take_word(*_VERBS):
        cursor.at = start
        return False
    while cursor.take_word(*_GOING):
        pass
    told = _take_in_pattern(cursor)
    more = rows_for(cursor)
    told = told or _take_in_pattern(cursor)
    up_to = None if more is not None or not told else _up_to(cursor)
    if not told or not (more or up_to):
        cursor.at = start
        return False
    span = cursor.span_from(start)
    return reader.add(Recall((), span, more=more, up_to=up_to, pattern=True))


def _take_in_pattern(cursor: Cursor) -> bool:
    """ "In pattern", "in patt as established", "as set"."""
    told = cursor.take_any(_IN_PATTERN)
    return cursor.take_any(_SET) or told


def _up_to(cursor: Cursor) -> Amount | None:
    """ "until Row 44 is complete", "until there are 44 rows in all"."""
    number = rows_in_all(cursor)
    at = cursor.at
    if not number and cursor.take_word("to", "until", "through"):
        cursor.take_word("end", "of")
        number = cursor.number() if cursor.take_word(*ROW_WORDS) else None
    if not number:
        cursor.at = at
    return number
