"""What do a row and the next one count, after a slip in the first of them?"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.answers.motions import Course, Manner, counted, course_of, worked_again
from hookwright.answers.slips import Slip, Where, slips_in
from hookwright.working.fabric import CHAIN, Place, PlaceKind
from hookwright.working.outcome import Outcome

_MANNERS = {Manner.TO_THE_END: 2, Manner.INTO_CHAIN: 1, Manner.STOPS: 1}
"""How usual each manner of working the end of a row is taken to be; no source."""
Tops = tuple[Place, ...]


class TwoRows(Struct, frozen=True):
    """A row with the one that is worked into it.

    Attributes:
        course: The row.
        after: The next one; None where it cannot be written out or stands elsewhere.
        turned: Whether the work is turned between them.
        into_chain: Whether the row is the first one, worked into a chain.
    """

    course: Course
    after: Course | None
    turned: bool
    into_chain: bool


class Left(Struct, frozen=True):
    """What a slip leaves.

    Attributes:
        slip: The slip.
        off: By how much the row's own count is off.
        off_after: By how much that of the next row is; None where that cannot be told.
        share: How often this slip leaves these numbers, of all the manners of a row's end.
    """

    slip: Slip
    off: int
    off_after: int | None
    share: float = 1.0


def two_rows(outcomes: Sequence[Outcome], at: int) -> TwoRows | None:
    """A row and the next one, written out; None for a row that cannot be."""
    outcome = outcomes[at]
    course = course_of(outcome.worked) if outcome.worked is not None else None
    if course is None or outcome.is_open:
        return None
    after = _after(outcomes, at, course)
    into_chain = bool(course.places) and course.places[0].kind is PlaceKind.CHAIN
    return TwoRows(course, after, outcome.turned, into_chain)


def _after(outcomes: Sequence[Outcome], at: int, course: Course) -> Course | None:
    """The next row, where it stands on all that this one leaves."""
    if at + 1 >= len(outcomes):
        return None
    following = outcomes[at + 1]
    if following.worked is None or following.is_open:
        return None
    after = course_of(following.worked)
    if after is None or following.step.part != outcomes[at].step.part:
        return None
    heads = worked_again(course, course.motions, course.places)
    return after if counted(after.places) == counted(heads) else None


def what_slips_leave(rows: TwoRows, slips: Sequence[Slip]) -> Iterator[Left]:
    """What each slip leaves in the row and in the next one, that worked as written.

    A slip is told once for each pair of numbers that it may leave: a maker works a row up
    to its end, or stops with its words.
    """
    right_after = rows.after.makes if rows.after is not None else 0
    for slip in slips:
        weights: Counter[tuple[int, int | None]] = Counter()
        for heads, weight in with_slip(rows.course, slip):
            off = counted(heads) - rows.course.makes
            for after, then in _next_row(rows, heads):
                off_after = None if after is None else counted(after) - right_after
                weights[off, off_after] += weight * then
        whole = weights.total()
        for (off, off_after), weight in weights.items():
            yield Left(slip, off, off_after, weight / whole)


def _next_row(rows: TwoRows, heads: Tops) -> Iterator[tuple[Tops | None, int]]:
    """The next row over what this one left, worked as written."""
    after = rows.after
    if after is None:
        yield None, 1
        return
    places = heads[::-1] if rows.turned else heads
    for manner, weight in _MANNERS.items():
        yield worked_again(after, after.motions, places, manner), weight


def slip_again(
    rows: TwoRows, slip: Slip, second: Sequence[Slip]
) -> Iterator[tuple[int, int]]:
    """By how much both rows are off where the next one has the like slip in it."""
    after = rows.after
    if after is None:
        return
    for heads, _ in with_slip(rows.course, slip):
        places = heads[::-1] if rows.turned else heads
        for other in second:
            if (other.where, other.what) == (slip.where, slip.what):
                for tops, _ in with_slip(replace(after, places=places), other):
                    yield counted(heads) - rows.course.makes, counted(tops) - after.makes


def with_slip(course: Course, slip: Slip) -> Iterator[tuple[Tops, int]]:
    """The tops of a row with a slip in it, in each manner of working its end."""
    places = course.places + (CHAIN,) * slip.beyond
    for manner, weight in _MANNERS.items() if not slip.stops else ((Manner.STOPS, 1),):
        heads = worked_again(course, slip.motions, places, manner)
        yield _without_last(heads) if slip.drops_last else heads, weight


def _without_last(heads: Tops) -> Tops:
    last = max((n for n, head in enumerate(heads) if head.counts), default=None)
    return heads if last is None else heads[:last] + heads[last + 1 :]


def some_slips(rows: TwoRows) -> tuple[Slip, ...]:
    """The slips of a row, of like places in all its repeats only a few."""
    course = rows.course
    numbers = sorted({m.repeat for m in course.motions if m.repeat is not None})
    kept = {None, *numbers[:1], *numbers[len(numbers) // 2 :][:1], *numbers[-1:]}
    found: list[Slip] = []
    alike: dict[tuple[object, ...], int] = {}
    for slip in slips_in(course, first_row=rows.into_chain):
        motion = course.motions[min(slip.at, len(course.motions) - 1)]
        if motion.repeat not in kept and slip.where is not Where.REPEAT:
            continue
        like = (slip.where, slip.what, motion.name, motion.repeat)
        alike[like] = alike.get(like, 0) + 1
        if alike[like] <= _FEW:
            found.append(slip)
    return tuple(found)


_FEW = 3
"""Like places of one stretch that are tried: the first ones tell what the others leave."""
