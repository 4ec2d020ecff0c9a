"""What do the printed counts come to in a text of another size?

Each goes on counting what it counts. The changed text is worked as the one before it was
read, and its rows are paired with those.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence

from hookwright.checking import Checked
from hookwright.notation import read_pattern
from hookwright.notation.tree import Amount, Claim, Pattern, RowText
from hookwright.reading import Draft
from hookwright.sizing.growing import Growing
from hookwright.sizing.multiples import Growth
from hookwright.sizing.own_units import in_own_units
from hookwright.sizing.slots import Slot, Unwritten, slot
from hookwright.sizing.worked_again import worked_after
from hookwright.source import Span
from hookwright.working.hook import Effort
from hookwright.working.outcome import Outcome, Working
from hookwright.working.plan import plan_of
from hookwright.working.reading_state import State
from hookwright.working.search import Search
from hookwright.working.stated import recounted

_NOWHERE = Span(0, 0)


def row_texts(pattern: Pattern) -> list[RowText]:
    """The rows of a pattern as they are written."""
    return [row for part in pattern.parts for row in part.rows]


def new_counts(
    checked: Checked,
    growths: Mapping[int, Growth],
    sources: Sequence[int],
    draft: Draft,
) -> Iterator[Slot]:
    """The printed counts as they come out, with their places in the old text.

    Args:
        checked: The text as it was.
        growths: How each of its sizes grows.
        sources: For every size wanted, which of the text's sizes it is made from.
        draft: The changed text, its counts still as they were.

    Raises:
        Unwritten: If the rows read otherwise, or nothing tells what a count comes to.
    """
    levels = {heading.span.start: heading.level for heading in draft.headings}
    pattern = read_pattern(draft.source, levels).pattern
    rows, now = row_texts(checked.reading.pattern), row_texts(pattern)
    if len(rows) != len(now):
        raise Unwritten(_NOWHERE, "With other numbers its rows read otherwise.")
    found: dict[Span, list[int | None]] = {}
    spans: dict[Span, Amount] = {}
    for size, source in enumerate(sources):
        growth = growths[source]
        worked = _worked(growth.growing, checked, pattern, size)
        working = checked.worked.sizes[source]
        for before, after in _counted(working.outcomes, worked, rows, now):
            for claim in before.step.claims:
                if claim.of_rows:
                    continue
                numbers = _comes_to(checked, claim, before, after, working)
                for figure, number in zip(claim.figures, numbers, strict=True):
                    span = before.step.place(figure.amount.span)
                    spans[span] = figure.amount
                    found.setdefault(span, [None] * len(sources))[size] = number
    for span, values in found.items():
        yield slot(spans[span], span, values, "count")


def _comes_to(
    checked: Checked, claim: Claim, before: Outcome, after: Outcome, working: Working
) -> tuple[int | None, ...]:
    """What the figures of a count come to in a row that has grown."""
    size = next(n for n, own in enumerate(checked.worked.sizes) if own is working)
    found = recounted(claim, before.tally, after.tally, size, working.habit)
    if found is None and before.tally.stitches != after.tally.stitches:
        found = in_own_units(claim, before, after, size, working.habit)
    if found is not None:
        return found
    if before.tally.stitches != after.tally.stitches:
        where = before.step.place(claim.span)
        said = f'Nothing tells what "{checked.source.slice(where)}" comes to.'
        raise Unwritten(where, said)
    return tuple(figure.amount.at(size) for figure in claim.figures)


def _worked(
    growing: Growing, checked: Checked, pattern: Pattern, size: int
) -> tuple[Outcome, ...]:
    """The rows of the changed text in one size, read as they were before."""
    conventions = checked.worked.sizes[growing.size].assumption.conventions
    reached = checked.worked.sizes[growing.size].plan.reached
    steps = plan_of(pattern.parts, size, pattern.sizes, reached).steps
    search = Search(pattern, size, checked.worked.terms, conventions, Effort())
    search.rounds_told = growing.search.rounds_told
    was = [row.at for row in row_texts(checked.reading.pattern)]
    readings = {
        was.index(outcome.step.text.at): outcome.readings for outcome in growing.base[::-1]
    }
    texts = [row.at for row in row_texts(pattern)]
    state = State()
    for step in steps:
        own = readings.get(texts.index(step.text.at), frozenset())
        state = worked_after(search, state, step, own)
    return state.outcomes


def _counted(
    before: Sequence[Outcome],
    after: Sequence[Outcome],
    rows: Sequence[RowText],
    now: Sequence[RowText],
) -> Iterator[tuple[Outcome, Outcome]]:
    """The rows with counts of both texts, those of one label paired from its end."""
    old, new = _by_text(before, rows), _by_text(after, now)
    for at, own in old.items():
        yield from zip(reversed(own), reversed(new.get(at, [])), strict=False)


def _by_text(
    outcomes: Sequence[Outcome], rows: Sequence[RowText]
) -> dict[int, list[Outcome]]:
    found: dict[int, list[Outcome]] = {}
    places = {row.at: at for at, row in enumerate(rows)}
    for outcome in outcomes:
        found.setdefault(places[outcome.step.text.at], []).append(outcome)
    return found
