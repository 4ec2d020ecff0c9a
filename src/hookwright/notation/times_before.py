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
    told = _told_to_stop(reader, start)
    if told:
        return True
    cursor.at = start
    amount = _number_of_times(cursor)
    if amount is None:
        cursor.at = start
        return False
    times = Times(Often.TIMES, cursor.span_from(start), amount)
    inner = reader.inner()
    inner.read_next()
    while cursor.is_word("and") and _work_follows(cursor, ahead=1):
        cursor.step()
        inner.read_next()
    body = tuple(node for node in fold(inner.items) if not isinstance(node, Remark))
    if not body:
        cursor.at = start
        return False
    return reader.add(Repeat(body, times, cursor.span_from(start), mark="("))


def _told_to_stop(reader: Reader, start: int) -> bool:
    """ "Then 7 times: dc in ring, ch 1.": the list up to the end of its sentence."""
    cursor = reader.cursor
    cursor.take_word("then", "and", "now")
    cursor.take_word("work", "do", "repeat")
    amount = cursor.number()
    told = amount is not None and cursor.take_word("times")
    if amount is None or not told or not cursor.take_kind(Kind.COLON):
        return False
    times = Times(Often.TIMES, cursor.span_from(start), amount)
    inner = reader.inner()
    while not cursor.is_kind(*_SENTENCE_ENDS):
        inner.read_next()
    body = tuple(node for node in fold(inner.items) if not isinstance(node, Remark))
    return bool(body) and reader.add(Repeat(body, times, cursor.span_from(start)))


_SENTENCE_ENDS = (Kind.STOP, Kind.SEMICOLON, Kind.CLOSE, Kind.END)


def _number_of_times(cursor: Cursor) -> Amount | None:
    if cursor.token.kind is not Kind.NUMBER:
        return None
    amount = cursor.number()
    if amount is None or not (cursor.token.text == "×" or cursor.is_word("x", "times")):
        return None
    cursor.step()
    cursor.skip_lines()
    return amount if _work_follows(cursor) else None


def _work_follows(cursor: Cursor, ahead: int = 0) -> bool:
    """Whether a bracket, a stitch, or a number of them stands here: "three times 3 tr"."""
    at = cursor.at
    cursor.at += ahead
    opened = cursor.token.kind is Kind.OPEN and not ahead
    if cursor.token.kind is Kind.NUMBER:
        cursor.number()
    chained = bool(ahead) and cursor.is_word("ch", "chain")
    found = opened or chained or (cursor.stitch_at() is not None)
    cursor.at = at
    return found
