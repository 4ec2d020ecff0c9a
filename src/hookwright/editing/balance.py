"""Does a row keep its count where the pattern says that every row does?

Increases and decreases that do not balance widen or narrow the piece. A row with a count of
its own is judged by that, and one that does not close by its closing; the first row of a
part has nothing to be compared with. Chain spaces may be counted or not, so a row is only
accused where no way to count it comes out as before.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from msgspec.structs import replace

from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Related, Severity
from hookwright.notation.tree import Topic
from hookwright.source import Span
from hookwright.working.outcome import Outcome, WorkedPattern, Working
from hookwright.working.problems import problems_of
from hookwright.working.steps import row_name


def balance_findings(manuscript: Manuscript) -> Iterator[Finding]:
    """The first row that changes a count which is said to stay."""
    worked = manuscript.worked
    said = next(
        (s for s in worked.pattern.statements if s.topic is Topic.COUNT_STAYS), None
    )
    if said is None:
        return
    drifting = [_first_drift(working) for working in worked.sizes]
    first = next((pair for pair in drifting if pair is not None), None)
    if first is None:
        return
    below, outcome = first
    alike = [
        pair is not None and pair[1].step.span == outcome.step.span for pair in drifting
    ]
    named = zip(worked.pattern.sizes, alike, strict=False)
    sizes = () if all(alike) else tuple(name for name, drifts in named if drifts)
    yield replace(_finding(worked, outcome, below, said.span), sizes=sizes)


def _first_drift(working: Working) -> tuple[Outcome, Outcome] | None:
    """The first row that drifts, after the one it drifts from; None where all is proven."""
    if any(problems_of(working, outcome) for outcome in working.outcomes):
        return None
    pairs = pairwise(working.outcomes)
    return next((pair for pair in pairs if _drifts(*pair)), None)


def _drifts(below: Outcome, outcome: Outcome) -> bool:
    """Whether a row of the same part makes more or fewer than the one under it."""
    rows = outcome.worked is not None and below.worked is not None
    judged = any(not claim.of_rows for claim in outcome.step.claims)
    if not rows or judged or outcome.meant or below.step.part != outcome.step.part:
        return False
    counts = [_counts(row) for row in (below, outcome)]
    whole = all(isinstance(number, int) for numbers in counts for number in numbers)
    return whole and not set(counts[0]) & set(counts[1])


def _counts(outcome: Outcome) -> tuple[object, ...]:
    """A row's count in every habit."""
    tally = outcome.tally
    return (
        tally.stitches,
        tally.stitches - tally.beginning,
        tally.stitches + tally.spaces,
        tally.stitches + tally.chains,
    )


def _finding(
    worked: WorkedPattern,
    outcome: Outcome,
    below: Outcome,
    said: Span,
) -> Finding:
    step = outcome.step
    return Finding(
        "balance",
        Severity.ERROR,
        step.span,
        f"{row_name(step)} makes {outcome.tally.stitches} stitches where "
        f"{row_name(below.step)} makes {below.tally.stitches}, though the count is said to "
        "stay the same.",
        "Look at its increases and decreases, in the repeat and at both edges.",
        row=step.label or None,
        part=worked.pattern.parts[step.part].name or None,
        numbers=(step.number, step.number) if step.number is not None else None,
        related=(Related(said, "said here"),),
    )
