"""How often said first: "6x (1 sc, inc)", "6 x inc"."""

from __future__ import annotations

from hookwright.notation.cursor import Cursor
from hookwright.notation.fold import fold
from hookwright.notation.lexer import Kind
from hookwright.notation.reader import Reader
from hookwright.notation.tree import Amount, Often, Remark, Repeat, Times


def read_times_before(reader: Reader) -> bool:
    """A number of times in front of a bracket or of one stitch."""
    cursor = reader.cursor
    start = cursor.at
    amount = _number_of_times(cursor)
    if amount is None:
        cursor.at = start
        return False
    times = Times(Often.TIMES, cursor.span_from(start), amount)
    inner = reader.inner()
    inner.read_next()
    body = tuple(node for node in fold(inner.items) if not isinstance(node, Remark))
    if not body:
        cursor.at = start
        return False
    return reader.add(Repeat(body, times, cursor.span_from(start), mark="("))


def _number_of_times(cursor: Cursor) -> Amount | None:
    if cursor.token.kind is not Kind.NUMBER:
        return None
    amount = cursor.number()
    if amount is None or not (cursor.token.text == "×" or cursor.is_word("x", "times")):
        return None
    cursor.step()
    cursor.skip_lines()
    return amount if _work_follows(cursor) else None


def _work_follows(cursor: Cursor) -> bool:
    return cursor.token.kind is Kind.OPEN or cursor.attempt(Cursor.stitch)
