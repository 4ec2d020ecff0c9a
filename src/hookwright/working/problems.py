"""What is wrong with one row: its closing first, then its count."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from hookwright.finding import Finding
from hookwright.notation.tree import Evenly, InOnePlace, Make, Repeat, Tail
from hookwright.source import Span
from hookwright.working.conventions import Choice
from hookwright.working.count import Count
from hookwright.working.outcome import Outcome, Working
from hookwright.working.row import WorkedRow
from hookwright.working.steps import Step


class Problem(Struct, frozen=True):
    """A rule broken by a row, before it is put into words.

    Attributes:
        rule: The identifier of the finding.
        span: The words.
        number: How many places are left over or missing.
        what: What was wanted and is not there.
    """

    rule: str
    span: Span
    number: Count = 0
    what: str = ""


class Fault(Struct, frozen=True):
    """A finding about a row, and where that row stands.

    Attributes:
        finding: The finding.
        at: The row, in working order.
        sizes: The sizes that have it.
        is_defended: Whether the printed count is right, for the next row closes over it.
    """

    finding: Finding
    at: int
    sizes: tuple[int, ...] = ()
    is_defended: bool = False


def problems_of(working: Working, outcome: Outcome) -> list[Problem]:
    """What is wrong with one row: its closing first, then its count."""
    worked = outcome.worked
    if worked is None or _holds(working, outcome, worked):
        return []
    step = outcome.step
    result = [
        Problem(trouble.rule, _trouble_span(step, trouble.span), what=trouble.what)
        for trouble in worked.troubles[:1]
    ]
    if Choice.AS_MANY_AS_FIT in outcome.readings:
        result.append(Problem("past-the-end", _work_span(step), outcome.literal_missing))
    elif worked.missing or worked.left or worked.leapt:
        result.extend(_unclosed(outcome, worked))
    claims = [claim for claim in step.claims if not claim.of_rows]
    for claim, agrees in zip(claims, outcome.agrees, strict=False):
        if not agrees[working.habit]:
            result.append(Problem("stated-count", step.place(claim.span)))
    return result


def _holds(working: Working, outcome: Outcome, worked: WorkedRow) -> bool:
    """Whether a row closes as it is written, and its counts agree: so do most."""
    amiss = worked.troubles or worked.missing or worked.left or worked.leapt
    if amiss or (outcome.readings and Choice.AS_MANY_AS_FIT in outcome.readings):
        return False
    habit = working.habit
    return all(agrees[habit] for agrees in outcome.agrees)


def _unclosed(outcome: Outcome, worked: WorkedRow) -> Iterator[Problem]:
    """What a row leaves over, or wants and does not find, unless it is meant so."""
    step = outcome.step
    if any(isinstance(node, Evenly) and node.along for node in step.nodes):
        return  # along sides as many are worked as are told: what is there says nothing
    if worked.missing:
        yield Problem("past-the-end", _work_span(step), worked.missing)
    elif (worked.left or worked.leapt) and not outcome.meant:
        yield Problem("stitches-left", _work_span(step), worked.left or worked.leapt)


def _work_span(step: Step) -> Span:
    """The words that work the end of the row."""
    work = [n for n in step.nodes if isinstance(n, (Make, Repeat, InOnePlace, Tail))]
    last = next((node for node in reversed(work) if node in step.text.body), None)
    return step.place(last.span) if last is not None else step.span


def _trouble_span(step: Step, span: Span) -> Span:
    """Words of the row itself; words of another row are told where that is recalled."""
    return step.place(span) if step.recalled is None else step.span
