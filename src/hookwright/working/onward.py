"""Which row comes next in a line of rows that differ by their numbers only?

"Row 2: sc in next 19, sc3tog, sc in next 19. Row 3: sc in next 18, sc3tog, sc in next 18.
Rows 4-20: continue like this": each number goes on as it has gone from row to row.
"""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import Amount, Make, Node, Remark, Repeat, Skip, Yarn
from hookwright.source import Span

_MOST_TURNS = 4
"""The most rows that are worked by turns, each kind with numbers of its own."""


def next_onward(rows: Sequence[tuple[Node, ...]]) -> tuple[Node, ...] | None:
    """The row behind some rows; None where they do not go on by their numbers."""
    for turns in range(1, _MOST_TURNS + 1):
        kinds = [rows[: len(rows) - ago][::-turns][:3] for ago in range(turns)]
        if len(kinds[-1]) < 2:
            return None
        found = [_behind(_work(kind[1]), _work(kind[0])) for kind in kinds]
        if all(found) and all(len(kind) < 3 or _leads(kind) for kind in kinds):
            return found[-1]
    return None


def _leads(line: Sequence[tuple[Node, ...]]) -> bool:
    """Whether the two rows before a row come to it; of two kinds of rows they do not."""
    before = _behind(_work(line[2]), _work(line[1]))
    other = [type(node) for node in _work(line[2])] != [type(n) for n in _work(line[1])]
    return other or before is None or _numbers(before) == _numbers(_work(line[0]))


def _work(row: Sequence[Node]) -> tuple[Node, ...]:
    return tuple(node for node in row if not isinstance(node, (Remark, Yarn)))


class _OtherShapeError(Exception):
    """Two rows differ in more than their numbers."""


def _behind(first: Sequence[Node], second: Sequence[Node]) -> tuple[Node, ...] | None:
    """The row that follows two others; None where they differ in more than numbers."""
    try:
        row: tuple[Node, ...] = _further(tuple(first), tuple(second))
    except _OtherShapeError:
        return None
    return row or None


def _further(first: Any, second: Any) -> Any:  # noqa: ANN401 - any value of the tree
    """A value of the tree, its numbers as far from the second as that from the first."""
    if isinstance(second, Span):
        return second
    if type(first) is not type(second):
        raise _OtherShapeError
    if isinstance(second, Amount):
        return _next_amount(first, second)
    if isinstance(second, tuple):
        if len(first) != len(second):
            raise _OtherShapeError
        items = [_further(a, b) for a, b in zip(first, second, strict=True)]
        return tuple(item for item in items if not _is_none_left(item))
    if isinstance(second, Struct):
        names = second.__struct_fields__
        return replace(
            second, **{n: _further(getattr(first, n), getattr(second, n)) for n in names}
        )
    if first != second:
        raise _OtherShapeError
    return second


def _next_amount(first: Amount, second: Amount) -> Amount:
    if len(first.values) != len(second.values):
        raise _OtherShapeError
    values = tuple(
        None if a is None or b is None else 2 * b - a
        for a, b in zip(first.values, second.values, strict=True)
    )
    if any(value is not None and value < 0 for value in values):
        raise _OtherShapeError
    return Amount(values, second.span)


def _is_none_left(item: object) -> bool:
    """Whether an instruction has come to nothing: "sc in next 0 sts"."""
    if isinstance(item, Repeat):
        return item.times.amount is not None and item.times.amount.values == (0,)
    if not isinstance(item, (Make, Skip)):
        return False
    amounts = [item.target.amount if item.target is not None else None]
    amounts += [item.amount] if isinstance(item, Make) else []
    return any(amount is not None and amount.values == (0,) for amount in amounts)


def _numbers(row: object) -> list[tuple[int | None, ...]]:
    """All numbers of a row, in reading order."""
    if isinstance(row, Amount):
        return [row.values]
    if isinstance(row, tuple):
        return [number for item in row for number in _numbers(item)]
    if isinstance(row, Struct):
        fields = (getattr(row, name) for name in row.__struct_fields__)
        return [number for value in fields for number in _numbers(value)]
    return []
