"""How often is one stitch worked with its places: "cross over next 2 sts x 14"?

Only where nothing else that might be meant stands before it: "sc in next 3, 2 sc in next st
6 times" may tell of the whole list. "Sc in next st twice" may be two in one, and is left.
"""

from __future__ import annotations

from hookwright.notation.fold import Item
from hookwright.notation.reader import Reader
from hookwright.notation.times import TOTAL, read_times
from hookwright.notation.tree import (
    Amount,
    InOnePlace,
    Make,
    Often,
    Repeat,
    Skip,
    Which,
)


def take_so_often(reader: Reader) -> bool:
    """Put the stitch read last so often, where a number of times stands right behind it."""
    made = reader.last()
    if not isinstance(made, Make) or not _takes_several(made):
        return False
    if not all(_is_done_once(item) for item in reader.items[reader.sentence : -1]):
        return False
    cursor = reader.cursor
    start = cursor.at
    times = read_times(cursor)
    if times is None or times.often is not Often.TIMES or times.noun == TOTAL:
        cursor.at = start
        return False
    reader.items[-1] = Repeat((made,), times, made.span.to(times.span), mark="(")
    return True


def _takes_several(made: Make) -> bool:
    """Whether stitches go over several places, or several into one."""
    target = made.target
    if target is None or target.which is not Which.NEXT or target.until or target.of:
        return False
    return _is_several(target.amount) or _is_several(made.amount)


def _is_several(amount: Amount | None) -> bool:
    return amount is not None and all((value or 0) > 1 for value in amount.values)


def _is_done_once(item: Item) -> bool:
    """Whether an instruction works nothing, or something that only a row's start has."""
    if isinstance(item, Make | InOnePlace):
        return item.target is not None and item.target.which in (Which.FIRST, Which.SAME)
    return not isinstance(item, Repeat | Skip)
