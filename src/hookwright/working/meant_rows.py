"""Which row is meant, where the one that is to be worked again is not there?

Each row of the part is tried in its place. It is told where the counts printed from there
on agree with one alone, or with rows that are worked alike.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from hookwright.finding import Edit, Finding
from hookwright.notation.rebuilding import rebuilt
from hookwright.notation.tree import PartText, Recall, RowText
from hookwright.source import Source, Span
from hookwright.working.again import Again, again, effort_on, planned_with
from hookwright.working.outcome import WorkedPattern
from hookwright.working.reading_state import State
from hookwright.working.steps import Step
from hookwright.working.written_numbers import LONGEST_PHRASE

_MOST_ROWS = 30


def with_row_meant(finding: Finding, worked: WorkedPattern, source: Source) -> Finding:
    """A finding of a row that is not there, with the one meant, if one fits alone."""
    found = _recalled_at(worked, finding.span)
    if found is None:
        return finding
    part, row, wrong = found
    words = source.slice(finding.span)
    digits = list(re.finditer(rf"\b{wrong}\b", words))
    effort = effort_on(worked)
    tries = [again(worked, size, effort) for size in range(len(worked.sizes))]
    fitting: dict[object, list[int]] = {}
    for number in _numbers(part, wrong) if len(digits) == 1 else ():
        steps = _fitting(worked, row, wrong, number, tries)
        if steps is not None:
            fitting.setdefault(tuple(step.nodes for step in steps), []).append(number)
    if len(fitting) != 1:
        return finding
    (numbers,) = fitting.values()
    meant = min(numbers, key=lambda number: abs(number - wrong))
    at = finding.span.start
    own = Span(at + digits[0].start(), at + digits[0].end())
    span = finding.span if len(words) <= LONGEST_PHRASE and "\n" not in words else own
    old = source.text
    new = f"{old[span.start : own.start]}{meant}{old[own.end : span.end]}"
    why = f'With "{new}" (not {wrong}) the counts agree.'
    return replace(finding, why=why, edit=Edit(span, new))


def _recalled_at(worked: WorkedPattern, span: Span) -> tuple[PartText, RowText, int] | None:
    """The row that recalls one row alone with some words: its part, it, and the number."""
    for part in worked.pattern.parts:
        for row in part.rows:
            for node in row.body:
                if not isinstance(node, Recall) or row.place(node.span) != span:
                    continue
                if len(node.rows) == 1 and node.rows[0] > 0:
                    return part, row, node.rows[0]
    return None


def _numbers(part: PartText, wrong: int) -> Iterator[int]:
    """The numbers of the rows of a part."""
    labels = [row.label for row in part.rows if row.label is not None]
    numbers = dict.fromkeys(number for label in labels for number in label.numbers)
    yield from (number for number in list(numbers)[:_MOST_ROWS] if number != wrong)


def _fitting(
    worked: WorkedPattern, row: RowText, wrong: int, number: int, tries: Sequence[Again]
) -> Sequence[Step] | None:
    """The rows from there on with another row meant, if they come out in every size."""

    def meant(part: object) -> object:
        if isinstance(part, Recall) and part.rows == (wrong,):
            return replace(part, rows=(number,))
        return part

    other = replace(row, body=rebuilt(row.body, meant))
    steps: Sequence[Step] = ()
    for size, tried in enumerate(tries):
        plan = planned_with(worked, row, other, size)
        first = next((i for i, step in enumerate(plan.steps) if step.text is other), None)
        if first is None or plan.problems:
            return None
        steps = plan.steps[first:]
        states = tried.through(first, steps)
        best = min(states, key=State.total, default=None)
        outcomes = best.outcomes[first:] if best is not None else ()
        worked_all = all(outcome.worked is not None for outcome in outcomes)
        counted = any(outcome.agrees for outcome in outcomes)
        if not worked_all or not counted or tried.amiss(outcomes):
            return None
    return steps
