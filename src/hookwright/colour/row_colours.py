"""In which colour is each row of a pattern worked?

A row may name its yarn. Where the text plans its stripes in a line of its own, the rows of
the part that has as many are in the colours of that line.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.checking import Checked
from hookwright.design.stripes import StripePlan, stripe_plans
from hookwright.working.outcome import Outcome, Working
from hookwright.working.row_yarns import row_yarns

_MOST_ROWS = 100_000


def row_colours(checked: Checked, size: int = 0) -> tuple[str, ...]:
    """The colour of every outcome in one size, as it is called there; "" for none told."""
    working = checked.worked.sizes[size]
    told = row_yarns(checked.worked.pattern, working.outcomes)
    planned = _planned(checked, working)
    return tuple(
        planned.get(at) or told.get(at) or _own(outcome)
        for at, outcome in enumerate(working.outcomes)
    )


def _own(outcome: Outcome) -> str:
    """The yarn that a row ends in, where it names any."""
    yarns = outcome.worked.row.yarns() if outcome.worked is not None else ()
    return yarns[-1][0] or "" if yarns else ""


def _planned(checked: Checked, working: Working) -> dict[int, str]:
    """The colours of a part by its line of stripes, by the places of its rows."""
    plans = stripe_plans(checked.source, checked.reading.pattern)
    if len(plans) != 1:
        return {}
    colours = list(_colours(plans[0]))
    parts = range(len(checked.reading.pattern.parts))
    for part in parts:
        rows = [
            at
            for at, outcome in enumerate(working.outcomes)
            if outcome.step.part == part and outcome.worked is not None
        ]
        if rows and len(rows) == len(colours):
            return dict(zip(rows, colours, strict=True))
    return {}


def _colours(plan: StripePlan) -> Iterator[str]:
    """The colour of each row of a plan, as often as it is worked."""
    times = next((t for t in plan.times if plan.rows(t) == plan.claimed), None)
    times = times if times is not None else next(iter(plan.times), 1)
    rows = 0
    for stripe in (*plan.stripes * times, *plan.after):
        rows += stripe.rows
        if rows > _MOST_ROWS:
            return
        for _ in range(stripe.rows):
            yield stripe.colour
