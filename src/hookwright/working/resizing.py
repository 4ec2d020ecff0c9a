"""An edge with the number of stitches that was printed, not the one that was worked."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.working.counted_units import HABITS, Habit
from hookwright.working.fabric import Edge, Place
from hookwright.working.outcome import Outcome
from hookwright.working.sequence import Line, Repeat, Run
from hookwright.working.stated import figures_of_stitches
from hookwright.working.steps import Step


def printed_stitches(
    outcome: Outcome, step: Step, size: int, habits: Sequence[Habit] = HABITS
) -> int | None:
    """The printed count of stitches, where it is a plain number that the row denies.

    `habits` are those in which the pattern may still count.
    """
    claims = [claim for claim in step.claims if not claim.of_rows]
    worked = outcome.worked
    if not claims and worked is not None and not outcome.meant:
        meant = worked.row.makes + worked.left - worked.missing
        return meant if isinstance(meant, int) and meant != worked.row.makes else None
    # Where places were wanting, a count that agrees in an odd habit only is no proof.
    strict = worked is not None and bool(worked.missing)
    likely = (Habit.ALL,) if strict else habits
    if not claims or any(agreed[h] for agreed in outcome.agrees for h in likely):
        return None
    own = claims[0] if worked is not None else claims[-1]  # of a band, its edges one by one
    figures = figures_of_stitches(own, outcome.tally)
    numbers = [f.amount.at(size) for f in figures]
    if not numbers or any(n is None for n in numbers):
        return None
    return sum(n for n in numbers if n is not None)


def regrouped(edge: Edge, outcome: Outcome, step: Step, size: int) -> Edge | None:
    """The edge with as many groups as are printed ("12 shells"), if the row denies them."""
    claims = [claim for claim in step.claims if not claim.of_rows]
    if len(claims) != 1 or any(any(agreed) for agreed in outcome.agrees):
        return None
    figures = claims[0].figures
    printed = figures[0].amount.at(size) if len(figures) == 1 else None
    made = outcome.tally.groups.get("", 0)
    last = edge.line[-1] if edge.line else None
    if printed is None or not isinstance(last, Repeat) or not isinstance(made, int):
        return None
    more = printed - made
    if not 0 < more <= made:
        return None
    return Edge((*edge.line[:-1], replace(last, times=last.times + more)), edge.closed)


def resized(edge: Edge, number: int) -> Edge | None:
    """The same edge with another number of stitches, changed in its longest plain run."""
    if not isinstance(edge.stitches, int) or number <= 0:
        return None
    change = number - edge.stitches
    runs = [(i, p) for i, p in enumerate(edge.line) if isinstance(p, Run) and p.item.counts]
    if not runs:
        return _resized_deep(edge, change)
    at, run = max(runs, key=lambda found: found[1].times)
    times = run.times + change
    if not times > 0:
        return _resized_deep(edge, change)
    line: Line[Place] = (*edge.line[:at], replace(run, times=times), *edge.line[at + 1 :])
    return Edge(line, edge.closed)


def _resized_deep(edge: Edge, change: int) -> Edge | None:
    if change < 0:
        halves = edge.cut(edge.stitches + change)
        fewer = halves is not None and not halves[1].spaces
        return Edge(halves[0].line, edge.closed) if halves and fewer else None
    if not change or not edge.line:
        return None
    last = _any_place(edge.line)
    return None if last is None else Edge((*edge.line, Run(last, change)), edge.closed)


def _any_place(line: Line[Place]) -> Place | None:
    """The first place that counts as a stitch."""
    for piece in line:
        if isinstance(piece, Run):
            if piece.item.counts:
                return piece.item
        else:
            found = _any_place(piece.body)
            if found is not None:
                return found
    return None
