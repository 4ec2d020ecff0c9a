"""An order worked up to the length: the line, the rows of each colour, the ends."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from hookwright.colour.facts import Run
from hookwright.design.stripes import Stripe

_CARRIED = 8
"""Rows between, over which a colour is still carried. Common practice, no source."""
MINUTES = (1, 2)
"""Minutes for each end, at least and at most. Common practice, no source."""


class Worked(Struct, frozen=True):
    """A sequence, how often it is worked, and what comes behind it once."""

    stripes: tuple[Stripe, ...]
    times: int
    after: tuple[Stripe, ...]

    @property
    def whole(self) -> tuple[Stripe, ...]:
        """Every stripe of the piece."""
        return self.stripes * self.times + self.after

    @property
    def rows(self) -> int:
        """Rows of the piece."""
        return rows_in(self.stripes) * self.times + rows_in(self.after)


def rows_in(stripes: Sequence[Stripe]) -> int:
    """The rows of some stripes."""
    return sum(stripe.rows for stripe in stripes)


def line_of(worked: Worked) -> str:
    """The line of a pattern: "2 rows A, 4 rows B. Work this sequence 9 times in all"."""
    total = f"{worked.rows} row{'' if worked.rows == 1 else 's'}"
    if worked.times == 1:
        return f"{_told(worked.whole)}: {total}."
    again = f"Work this sequence {worked.times} times in all"
    then = f", then {_told(worked.after)}" if worked.after else ""
    return f"{_told(worked.stripes)}. {again}{then}: {total}."


def _told(stripes: Sequence[Stripe]) -> str:
    return ", ".join(
        f"{stripe.rows} row{'' if stripe.rows == 1 else 's'} {stripe.colour}"
        for stripe in stripes
    )


def runs_of(worked: Worked) -> tuple[Run, ...]:
    """Which rows are in which colour."""
    runs: list[Run] = []
    row = 1
    for stripe in worked.whole:
        runs.append(Run(row, row + stripe.rows - 1, stripe.colour))
        row += stripe.rows
    return tuple(runs)


def rows_of(runs: Sequence[Run]) -> dict[str, int]:
    """Rows of each colour, in the order in which the colours begin."""
    found: dict[str, int] = {}
    for run in runs:
        found[run.colour] = found.get(run.colour, 0) + run.last - run.first + 1
    return found


def ends_of(runs: Sequence[Run], *, in_rounds: bool, carried: bool) -> int:
    """Ends to weave in: two for every separate length of yarn.

    A colour is carried up the side where it is needed again at the edge it was left at:
    over an even number of rows, in rounds over any.
    """
    lengths = 0
    left_at: dict[str, int] = {}
    for run in runs:
        between = run.first - 1 - left_at[run.colour] if run.colour in left_at else None
        at_hand = between is not None and (
            between == 0
            or (carried and between <= _CARRIED and (in_rounds or between % 2 == 0))
        )
        lengths += not at_hand
        left_at[run.colour] = run.last
    return 2 * lengths
