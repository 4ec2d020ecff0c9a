"""Which size is written into a text, and does the new text come out at it?"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.sizing.alike import main_part, rows_alike
from hookwright.sizing.multiples import Growth


class SizeWritten(Struct, frozen=True):
    """A size to write.

    Attributes:
        name: What it is called; "" in a pattern of one size.
        repeats: How many repeats its first part with a multiple has.
        set_repeats: How many sets of rows that part has; None for as many as written.
        source: Which of the pattern's sizes it is made from.
    """

    name: str
    repeats: int
    set_repeats: int | None = None
    source: int = 0


def more_repeats(growth: Growth, one: SizeWritten) -> int:
    """How many repeats more a size has than are written."""
    part = main_part(growth)
    assert part is not None
    return one.repeats - part.repeats


def has_repeats(
    again: Checked, growths: Mapping[int, Growth], wanted: Sequence[SizeWritten]
) -> bool:
    """Whether the first row of the piece is as wide in every size as is wanted."""
    for size, one in enumerate(wanted):
        growth = growths[one.source]
        part = main_part(growth)
        assert part is not None
        number = next(n for n, own in growth.parts.items() if own is part)
        made = next(
            outcome.worked.row.makes
            for outcome in again.worked.sizes[size].outcomes
            if outcome.step.part == number and outcome.worked is not None
        )
        if part.stitches is not None and made != part.stitches.at(one.repeats):
            return False
    return True


def has_rows(
    again: Checked, growths: Mapping[int, Growth], wanted: Sequence[SizeWritten]
) -> bool:
    """Whether every size has as many sets of rows more as are wanted."""
    for size, one in enumerate(wanted):
        growth = growths[one.source]
        part = main_part(growth)
        if one.set_repeats is None or part is None or part.rows is None:
            continue
        more = part.rows.each * (one.set_repeats - part.set_repeats)
        for number in rows_alike(growth):
            was = sum(o.step.part == number for o in growth.growing.base)
            now = sum(o.step.part == number for o in again.worked.sizes[size].outcomes)
            if now != was + more:
                return False
    return True
