"""What does a count in a unit of the writer's own come to: "[10 windows]"?

No word tells what a window is, but the row shows it: what there are as many of in the row
as written, spaces, groups or repeats, and what of those there are then. Where two of them
go different ways, the count stays open.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from hookwright.notation.tree import Claim, Figure
from hookwright.working.count import Count
from hookwright.working.counted_units import Habit
from hookwright.working.outcome import Outcome
from hookwright.working.sequence import Repeat
from hookwright.working.stated import recounted
from hookwright.working.stitches import is_stitch_name
from hookwright.working.tally import Tally


def in_own_units(
    claim: Claim, before: Outcome, after: Outcome, size: int, habit: Habit
) -> tuple[int | None, ...] | None:
    """The numbers of a count, one for each of its figures; None where one stays open."""
    found: list[int | None] = []
    for figure in claim.figures:
        alone = replace(claim, figures=(figure,))
        told = recounted(alone, before.tally, after.tally, size, habit)
        number = told[0] if told is not None else _by_what_there_are(
            figure, before, after, size
        )  # fmt: skip
        if number is None:
            return None
        found.append(number)
    return tuple(found)


def _by_what_there_are(
    figure: Figure, before: Outcome, after: Outcome, size: int
) -> int | None:
    """What there are, of all that there were as many of as the figure says."""
    if is_stitch_name(figure.unit):
        return None
    number = figure.amount.at(size)
    found = {now for was, now in _pairs(before, after) if was == number}
    only = found.pop() if len(found) == 1 else None
    return only if isinstance(only, int) else None


def _pairs(before: Outcome, after: Outcome) -> Iterator[tuple[Count, Count]]:
    """Whatever of a row can be numbered, as it was and as it is."""
    was, now = _numbered(before.tally), _numbered(after.tally)
    yield from ((number, now.get(name, 0)) for name, number in was.items())
    times = _times(before), _times(after)
    if len(times[0]) == len(times[1]):
        yield from zip(*times, strict=True)


def _numbered(tally: Tally) -> dict[str, Count]:
    spaces = {f"spaces of {chains}": number for chains, number in tally.lengths.items()}
    return {**tally.groups, **spaces, "spaces": tally.spaces}


def _times(outcome: Outcome) -> list[Count]:
    """How often each repeat of a row is worked."""
    line = outcome.worked.row.line if outcome.worked is not None else ()
    return [piece.times for piece in line if isinstance(piece, Repeat)]
