"""Rows told by the pattern that others form: "work 42 further rows in patt"?

Which rows these are was said before: "Rows 2 and 3 form the pattern."
"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.cursor import Cursor, Sayings
from hookwright.notation.how_many_rows import rows_for, rows_in_all
from hookwright.notation.lexer import Kind
from hookwright.notation.place_words import everything
from hookwright.notation.reader import Reader
from hookwright.notation.row_numbers import ROW_WORDS, read_numbers
from hookwright.notation.times import read_times
from hookwright.notation.tree import Amount, Make, Often, Recall, Target, Which
from hookwright.notation.unnamed import UNNAMED

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
    if _along_the_row(reader):
        return True
    cursor.take_word("then", "now", "next")
    if reader.depth or not cursor.take_word(*_VERBS):
        cursor.at = start
        return False
    while cursor.take_word(*_GOING):
        pass
    told = _take_in_pattern(cursor)
    more = rows_for(cursor)
    rows = _as_rows(cursor) if more is not None and not told else ()
    if rows:
        return reader.add(Recall(rows, cursor.span_from(start), more=more))
    told = told or _take_in_pattern(cursor) or _just_told(reader)
    up_to = None if more is not None or not told else _up_to(cursor)
    if not told or not (more or up_to):
        cursor.at = start
        return False
    span = cursor.span_from(start)
    return reader.add(Recall((), span, more=more, up_to=up_to, pattern=True))


def _as_rows(cursor: Cursor) -> tuple[int, ...]:
    """ "(Work 4 more rows) as Row 2", "like Rows 2 and 3"."""
    at = cursor.at
    if cursor.take_word("as", "like") and cursor.take_word(*ROW_WORDS):
        rows = read_numbers(cursor)
        if rows and cursor.is_kind(Kind.STOP, Kind.LINE, Kind.END, Kind.COMMA):
            return rows
    cursor.at = at
    return ()


def _just_told(reader: Reader) -> bool:
    """Whether the sentence before says which rows form the pattern."""
    last = reader.last()
    return isinstance(last, Recall) and last.forms_pattern


def _along_the_row(reader: Reader) -> bool:
    """ "Work in pattern to last 2 sts", "patt to end": one stitch in each, of its kinds."""
    cursor = reader.cursor
    start = cursor.at
    cursor.take_word("then", "now", "and")
    cursor.take_word("keeping", *_VERBS)
    while cursor.take_word(*_GOING):
        pass
    told = _take_in_pattern(cursor) or cursor.take_word("pattern", "patt")
    cursor.take_any(_SET)
    times = read_times(cursor) if told else None
    if (
        times is None
        or times.often not in (Often.ACROSS, Often.TO_LAST)
        or times.noun == "sp"
    ):
        cursor.at = start
        return False
    span = cursor.span_from(start)
    target = everything(span)
    if times.often is Often.TO_LAST:
        until = Target("st", Which.LAST, times.span, times.amount)
        target = replace(target, until=until)
    return reader.add(Make(UNNAMED, span, target=target))


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
