"""Does a row on another chain close as it does as written, and how far is it off?"""

from __future__ import annotations

from hookwright.sizing.open_numbers import amounts_of_runs, has_repeat_across
from hookwright.sizing.passed_over import passes
from hookwright.sizing.same_shape import is_same_shape
from hookwright.working.conventions import Choice
from hookwright.working.count import Count
from hookwright.working.outcome import Outcome
from hookwright.working.row import WorkedRow


def closes_alike(now: Outcome, base: Outcome, leap: int = 0) -> bool:
    """Whether a row leaves and wants as much as it does as written.

    Args:
        now: The row on another chain.
        base: The row as written.
        leap: How many places more lie along the edges that it only names.
    """
    if now.is_open:
        return not (base.step.text.claims or list(amounts_of_runs(base.step.nodes)))
    if now.worked is None or base.worked is None:
        return now.worked is base.worked
    if (Choice.AS_MANY_AS_FIT in now.readings) != (Choice.AS_MANY_AS_FIT in base.readings):
        return False
    across = has_repeat_across(base.step.nodes)
    if across and not is_same_shape(base.worked.row.line, now.worked.row.line):
        return False
    a, b = now.worked, base.worked
    if leap:  # what goes along an edge that is only named, no place of it tells
        return _troubles(a) == _troubles(b)
    return (*_troubles(a), *_closing(a)) == (*_troubles(b), *_closing(b))


def _troubles(worked: WorkedRow) -> tuple[object, ...]:
    return worked.cut_short, len(worked.troubles)


def _closing(worked: WorkedRow) -> tuple[object, ...]:
    return (
        worked.left, worked.left_spaces, worked.missing, worked.leapt,
        bool(worked.rest.line), passes(worked.row.line),
    )  # fmt: skip


def off(now: Outcome, base: Outcome) -> int | None:
    """How many places more a row wants than as written; below 0 it leaves them."""
    if now.worked is None or base.worked is None:
        return None
    more = _passed_more(now, base) or now.worked.leapt - base.worked.leapt
    off = _wanted(now) - _wanted(base) - more
    return off if isinstance(off, int) else None


def _wanted(outcome: Outcome) -> Count:
    worked = outcome.worked
    assert worked is not None
    missing = outcome.literal_missing or worked.missing
    return missing - worked.left - worked.left_spaces


def _passed_more(now: Outcome, base: Outcome) -> Count:
    """How many places more are passed in silence than as written."""
    assert now.worked is not None
    assert base.worked is not None
    here, there = passes(now.worked.row.line), passes(base.worked.row.line)
    longer = max(here, default=0) - max(there, default=0)
    return longer or sum(here - there) - sum(there - here)
