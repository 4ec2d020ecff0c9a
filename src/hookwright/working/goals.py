"""How many rows does it take until there are so many stitches?

"Rep Rows 2 and 3 until you have 61 dc" tells no number of rows. The set is worked once;
what each of its rows adds, the same rows add again, so the row that ends with the count is
known.
"""

from __future__ import annotations

from collections.abc import Mapping

from hookwright.notation.tree import Figure
from hookwright.source import Span
from hookwright.working.counted_units import SQUARES
from hookwright.working.outcome import Outcome, Working
from hookwright.working.planner import Goal
from hookwright.working.steps import MOST_ROWS
from hookwright.working.stitches import is_group_word, is_stitch_name


def rows_reaching(working: Working, size: int) -> Mapping[Span, int] | None:
    """The rows that each goal takes, with that of the first one yet unknown.

    None where the first unknown one cannot be told, or is never reached just so.
    """
    goal = working.plan.goals[0] if working.plan.goals else None
    number = _rows_to(goal, working.outcomes, size) if goal is not None else None
    if goal is None or number is None:
        return None
    return {**working.plan.reached, goal.place: number}


def _rows_to(goal: Goal, outcomes: tuple[Outcome, ...], size: int) -> int | None:
    wanted = goal.wanted.amount.at(size)
    first, last = goal.first - 1, goal.first + goal.rows
    if wanted is None or first < 0 or last > len(outcomes):
        return None
    counts = [_counted(outcome, goal.wanted) for outcome in outcomes[first:last]]
    known = [count for count in counts if isinstance(count, int)]
    if len(known) < len(counts):
        return None
    gain = known[-1] - known[0]
    for number in range(1, MOST_ROWS):
        sets, row = divmod(number, goal.rows)
        count = known[row] + sets * gain
        if count == wanted:
            return number
        if not gain or count < 0 or ((count > wanted) == (gain > 0) and row == 0):
            return None
    return None


def _counted(outcome: Outcome, figure: Figure) -> object:
    """What a row leaves of what the goal counts; None where that cannot be told."""
    unit, tally = figure.unit, outcome.tally
    if outcome.worked is None:
        return None
    if unit in ("sp", "mesh", "ch"):
        return tally.spaces
    if unit in tally.groups:
        return tally.groups[unit]
    if is_group_word(unit) or unit in SQUARES:
        return tally.groups.get("")
    return tally.stitches if unit == "st" or is_stitch_name(unit) else None
