"""Which stitch is told for each size: "the 6th (7th, 8th) dc", "the 6th (7th) [8th] dc"?"""

from __future__ import annotations

from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind
from hookwright.notation.tree import Amount


def take_ordinals(cursor: Cursor) -> Amount | None:
    """The list that begins at an ordinal, one a size; None, with the position kept."""
    start = cursor.at
    values = [cursor.step().value]
    depth = 0
    while len(values) < cursor.sizes or depth:
        if cursor.is_kind(Kind.OPEN):
            depth += 1
        elif cursor.is_kind(Kind.CLOSE) and depth:
            depth -= 1
        elif cursor.is_kind(Kind.ORDINAL) and depth:
            values.append(cursor.token.value)
        elif not (cursor.is_kind(Kind.COMMA, Kind.SEMICOLON) and depth):
            break
        cursor.step()
    if cursor.sizes < 2 or depth or len(values) != cursor.sizes:
        cursor.at = start
        return None
    return Amount(tuple(values), cursor.span_from(start))
