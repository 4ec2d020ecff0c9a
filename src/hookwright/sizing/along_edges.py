"""Which numbers tell how many stitches go along an edge of the piece, and of which edge?

"Ch 1, 20 sc along the top, 20 sc along the foundation": no stitch is named that they go
into, so no equation closes over them. The edge settles them: so many on so many stitches go
on at that rate.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from enum import StrEnum

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.notation.tree import Amount, Change, Evenly, Make, Node, RowText
from hookwright.regex import regex
from hookwright.working.reading_state import State
from hookwright.working.steps import Step


class EdgeOf(StrEnum):
    """An edge whose length changes with the repeats."""

    TOP = "top of a piece of rows"
    FOUNDATION = "foundation"
    ROW = "the row below"


class Rate(Struct, frozen=True):
    """So many stitches along an edge.

    Attributes:
        amount: How many.
        edge: How many places the edge has.
        longer: How many it has with one repeat more.
    """

    amount: Amount
    edge: int
    longer: int

    def at(self, more: int, size: int) -> int | None:
        """How many there are on an edge of so many repeats more; half of one is one."""
        number = self.amount.at(size)
        if number is None:
            return None
        if self.is_one_each(number):
            return number + (self.longer - self.edge) * more
        now = self.edge + (self.longer - self.edge) * more
        return (2 * number * now + self.edge) // (2 * self.edge)

    def is_exact(self, size: int) -> bool:
        """Whether it comes out on every size without rounding."""
        number = self.amount.at(size) or 0
        return (
            self.is_one_each(number) or number * (self.longer - self.edge) % self.edge == 0
        )

    def is_one_each(self, number: int) -> bool:
        """Whether there is one for each place, those at either corner apart."""
        return abs(number - self.edge) <= _AT_CORNERS


_AT_CORNERS = 2
_FEWEST = 4
"""Fewer are a corner, or a stitch by itself."""
_TO = r"\b(?:along|across|over|into?|on|up|of)\s+(?:the\s+|its\s+)?(?:\w+\s+)?"
_TOP = regex(rf"{_TO}(?:top|upper|last (?:row|rnd|round))\b", re.IGNORECASE)
_FOUNDATION = regex(
    rf"{_TO}(?:bottom|lower|foundation|beginning|starting|base|cast-on|underside)\b",
    re.IGNORECASE,
)
_PHRASE_END = regex(r"[,;(\n]|\.(?:\s|$)")


def told_along(checked: Checked) -> dict[int, EdgeOf]:
    """The edge of each number that is told along one, by the identity of the number."""
    return {
        id(amount): edge
        for part in checked.reading.pattern.parts
        for row in part.rows
        for amount, edge in _in_row(checked.source.text, row)
    }


def _in_row(text: str, row: RowText) -> Iterator[tuple[Amount, EdgeOf]]:
    for node in row.body:
        amount = _by_itself(node)
        if amount is None or max(value or 0 for value in amount.values) < _FEWEST:
            continue
        start = row.place(node.span).start
        end = _PHRASE_END.search(text, start)
        words = text[start : end.start() if end is not None else len(text)]
        if _FOUNDATION.search(words):
            yield amount, EdgeOf.FOUNDATION
        elif _TOP.search(words):
            yield amount, EdgeOf.TOP
        elif isinstance(node, Evenly) and not node.along:
            yield amount, EdgeOf.ROW


def _by_itself(node: Node) -> Amount | None:
    """How many stitches a phrase works that says into none."""
    if isinstance(node, Evenly):
        return node.amount if node.change is Change.TOTAL else None
    return node.amount if isinstance(node, Make) and node.target is None else None


def length_of(edge: EdgeOf, state: State, step: Step) -> int | None:
    """How many places an edge has before a row is worked; None where that is unknown.

    A round about a piece of rows has a top; one on another round has only the whole of it.
    """
    about_rows = step.is_round and state.sides.rows > 0
    on_round = step.is_round and not about_rows
    if (edge is EdgeOf.ROW and about_rows) or (edge is EdgeOf.TOP and on_round):
        return None
    length = state.sides.chains if edge is EdgeOf.FOUNDATION else state.edge.stitches
    return length if isinstance(length, int) and length > 0 else None
