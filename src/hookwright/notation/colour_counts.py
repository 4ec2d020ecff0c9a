"""Stitches told by their colours: "(A) 5, (B) 3", and the count of a row "(18 A, 18 B)"."""

from __future__ import annotations

from hookwright.notation.lexer import Kind
from hookwright.notation.reader import Reader
from hookwright.notation.tree import Amount, Claim, Figure, Make, Yarn
from hookwright.notation.unnamed import UNNAMED
from hookwright.notation.yarns import read_yarn_name
from hookwright.source import Span

_BEHIND_ROW = (Kind.STOP, Kind.LINE, Kind.END, Kind.SEMICOLON)
_BEHIND_RUN = (*_BEHIND_ROW, Kind.COMMA, Kind.STAR, Kind.CLOSE)


def read_colour_bracket(reader: Reader) -> bool:
    """A bracket that holds a colour, or numbers of stitches in several of them."""
    return _run(reader) or _count(reader)


def _run(reader: Reader) -> bool:
    """ "(A) 5": so many stitches in a colour; "(A) 5 sc" names them itself."""
    cursor = reader.cursor
    start = cursor.at
    cursor.step()
    name = read_yarn_name(reader)
    if not name or not cursor.take_kind(Kind.CLOSE) or not cursor.is_kind(Kind.NUMBER):
        cursor.at = start
        return False
    reader.add(Yarn(name, cursor.span_from(start)))
    at = cursor.at
    amount = cursor.number()
    if amount is None or not cursor.is_kind(*_BEHIND_RUN):
        cursor.at = at
        return True
    return reader.add(Make(UNNAMED, amount.span, amount))


def _count(reader: Reader) -> bool:
    """ "(24 A, 12 B)" behind the work of a row: how many stitches each colour has."""
    cursor = reader.cursor
    start = cursor.at
    cursor.step()
    amounts: list[Amount] = []
    while (amount := cursor.number()) is not None and read_yarn_name(reader):
        amounts.append(amount)
        if not cursor.take_kind(Kind.COMMA, Kind.PLUS, Kind.SEMICOLON):
            cursor.take_word("and", "plus")
    closed = cursor.take_kind(Kind.CLOSE)
    ends = cursor.is_kind(*_BEHIND_ROW) or cursor.is_word("turn", "fasten")
    if not amounts or not closed or not ends or not reader.has_work() or reader.depth:
        cursor.at = start
        return False
    whole = Figure(_sum(amounts), "st")
    reader.claims.append(Claim((whole,), cursor.span_from(start)))
    return True


def _sum(amounts: list[Amount]) -> Amount:
    """All of them together, one a size where they have one a size."""
    sizes = range(max(len(amount.values) for amount in amounts))
    values = tuple(sum(amount.at(size) or 0 for amount in amounts) for size in sizes)
    return Amount(values, Span(amounts[0].span.start, amounts[-1].span.end))
