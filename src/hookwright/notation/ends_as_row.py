"""A row that only begins otherwise: "ch 3, dc in same st, then carry on as for Row 2"."""

from __future__ import annotations

from hookwright.notation.cursor import Sayings
from hookwright.notation.fold import fold
from hookwright.notation.lexer import Kind
from hookwright.notation.reader import Reader
from hookwright.notation.row_numbers import row_numbers
from hookwright.notation.tree import (
    Chain,
    Instead,
    Loops,
    Make,
    Means,
    Node,
    Recall,
    Remark,
    Turn,
    Which,
    Yarn,
)

_GOES_ON = Sayings(
    f"{on} {as_}"
    for on in (
        "carry on", "continue", "cont", "go on", "finish", "complete", "work on", "proceed",
        "work the rest", "the rest", "finish the row", "complete the row", "complete row",
        "work the rest of the row", "the rest of the row", "finish off the row",
    )
    for as_ in ("as for", "as in", "just as in", "as", "like", "the same as")
)  # fmt: skip
_ENDS = (Kind.STOP, Kind.END, Kind.LINE, Kind.OPEN, Kind.SEMICOLON, Kind.CLOSE, Kind.DASH)
ENDS_AS_SIGNS = frozenset("as like".split())


def read_ends_as_row(reader: Reader) -> bool:
    """Where the rest of a row is that of another, behind a beginning of its own."""
    cursor = reader.cursor
    start = cursor.at
    body = fold(reader.items)
    if reader.depth or not reader.has_work() or not all(map(_begins, body)):
        return False
    cursor.take_word("and", "then")
    rows = row_numbers(cursor, bare=True) if cursor.take_any(_GOES_ON) else ()
    if len(rows) != 1 or not cursor.is_kind(*_ENDS):
        cursor.at = start
        return False
    span = cursor.span_from(start)
    reader.items[:] = [Recall(rows, span), Instead(span, body=body, begins=True)]
    return True


def _begins(node: Node) -> bool:
    """Whether an instruction may stand at the beginning of a row, before all others."""
    if isinstance(node, Make):
        target = node.target
        return target is not None and (target.which in _AT_START or target.noun == "base")
    return isinstance(node, (Chain, Turn, Means, Yarn, Loops, Remark))


_AT_START = (Which.FIRST, Which.SAME)
