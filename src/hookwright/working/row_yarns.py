"""In which yarn is a row worked that names none itself?

The yarn on the hook goes on, unless the text puts the row in another: in a list or table of
stripes, or as one of the rows that are worked again with their changes of yarn.
"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.notation.tree import Pattern, Yarn
from hookwright.working.outcome import Outcome
from hookwright.working.steps import Step


def row_yarns(pattern: Pattern, outcomes: Sequence[Outcome]) -> dict[int, str]:
    """The yarns of such rows, by their place among the outcomes."""
    stripes = dict(pattern.stripes)
    striped = _striped_part(outcomes, max(stripes, default=0))
    places = {
        (outcome.step.part, outcome.step.number): at
        for at, outcome in reversed(list(enumerate(outcomes)))
    }
    found: dict[int, str] = {}
    changing = _changing(outcomes, places)
    for at, outcome in enumerate(outcomes):
        step = outcome.step
        if outcome.worked is None or _names_yarn(step):
            continue
        before = places.get((step.part, step.recalled))
        name: str | None = None
        if step.part == striped:
            name = stripes.get(step.number or 0)
        if name is None and before is not None and id(step.text) in changing:
            name = found.get(before) or _only_yarn(outcomes[before])
        if name:
            found[at] = name
    return found


def _striped_part(outcomes: Sequence[Outcome], last: int) -> int:
    """The first part with as many rows as the stripes are told for; -1 for none."""
    if not last:
        return -1
    return next((o.step.part for o in outcomes if (o.step.number or 0) >= last), -1)


def _changing(
    outcomes: Sequence[Outcome], places: dict[tuple[int, int | None], int]
) -> set[int]:
    """The rows of the text by which rows with a change of yarn are worked again."""
    changing = set()
    for outcome in outcomes:
        step = outcome.step
        before = places.get((step.part, step.recalled))
        again = step.recalled is not None and before is not None
        if again and not any(isinstance(node, Yarn) for node in step.text.body):
            assert before is not None
            if _names_yarn(outcomes[before].step):
                changing.add(id(step.text))
    return changing


def _names_yarn(step: Step) -> bool:
    return any(isinstance(node, Yarn) and node.name for node in step.nodes)


def _only_yarn(outcome: Outcome) -> str | None:
    """The yarn of a row in one yarn."""
    yarns = outcome.worked.row.yarns() if outcome.worked is not None else ()
    return yarns[0][0] if len(yarns) == 1 else None
