"""Which slips explain the counts that a maker tells?

Every slip that may be made in the row is made, and what it leaves there and in the next row
is held against her counts. Classes that leave the same numbers are one suspect: no count
can tell them apart, only a look at the work. Ends come first, then peaks and valleys, then
one place in between, then a whole repeat: common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.answers.counting import (
    Left,
    TwoRows,
    slip_again,
    some_slips,
    two_rows,
    what_slips_leave,
)
from hookwright.answers.facts import Diagnosis, Scope, Suspect, Told
from hookwright.answers.slips import Where
from hookwright.working.outcome import Outcome

_ORDER = (
    Where.LAST, Where.FIRST, Where.PEAK, Where.VALLEY, Where.INSIDE, Where.REPEAT,
)  # fmt: skip


def diagnosed(outcomes: Sequence[Outcome], told: Sequence[Told]) -> Diagnosis:
    """What may have happened, from one count or from those of successive rows.

    Args:
        outcomes: The rows of one size, as worked.
        told: What the maker counts, in any order.
    """
    ordered = tuple(sorted(told, key=lambda one: one.at))
    first = next((one for one in ordered if one.off), None)
    if first is None:
        return Diagnosis(ordered)
    before = next((one for one in ordered if one.at == first.at - 1), None)
    after = next((one for one in ordered if one.at == first.at + 1), None)
    off_after = after.off if after is not None else None
    rows = two_rows(outcomes, first.at)
    left = tuple(what_slips_leave(rows, some_slips(rows))) if rows is not None else ()
    suspects = list(_once(left, first.off, off_after))
    if rows is not None:
        suspects += _in_each_row(outcomes, first, rows, left, off_after)
        suspects += _at_every_place(rows, left, first.off)
    if before is None:
        suspects += _earlier(outcomes, first, off_after)
    return Diagnosis(ordered, first, tuple(suspects), before is not None)


def _once(left: Sequence[Left], off: int, off_after: int | None) -> Iterator[Suspect]:
    """Single slips that leave these numbers."""
    fits = [one for one in left if one.off == off and _fits(one.off_after, off_after)]
    yield from _grouped(fits, Scope.ONCE, left)


def _fits(expected: int | None, told: int | None) -> bool:
    return expected is None or told is None or expected == told


def _grouped(
    fits: Sequence[Left], scope: Scope, among: Sequence[Left] = ()
) -> Iterator[Suspect]:
    """One suspect for all classes with the same numbers, in the order of looking.

    Before the order of common practice goes how often slips of a class leave these numbers
    at all: a class whose slips mostly leave others is looked for last.
    """
    if not fits:
        return
    share = {where: _share(where, fits, among) for where in Where}
    whats: dict[Where, str] = {}
    for one in fits:
        whats.setdefault(one.slip.where, one.slip.what)
    where = tuple(sorted(whats, key=lambda one: (-round(share[one], 1), _ORDER.index(one))))
    yield Suspect(scope, where, tuple(whats[one] for one in where))


def _share(where: Where, fits: Sequence[Left], among: Sequence[Left]) -> float:
    whole = sum(one.share for one in among if one.slip.where is where and one.off)
    own = sum(one.share for one in fits if one.slip.where is where)
    return own / whole if whole else 0.0


def _in_each_row(
    outcomes: Sequence[Outcome],
    first: Told,
    rows: TwoRows,
    left: Sequence[Left],
    off_after: int | None,
) -> Iterator[Suspect]:
    """The same slip at the ends of both rows: the turning chain taken otherwise."""
    if off_after is None or off_after == first.off or off_after * first.off < 0:
        return
    following = two_rows(outcomes, first.at + 1)
    if following is None:
        return
    second = some_slips(following)
    fits = [
        one for one in left
        if one.slip.where in {Where.FIRST, Where.LAST}
        and (first.off, off_after) in slip_again(rows, one.slip, second)
    ]  # fmt: skip
    yield from _grouped(fits, Scope.EACH_ROW)


def _at_every_place(rows: TwoRows, left: Sequence[Left], off: int) -> Iterator[Suspect]:
    """The same slip at each peak, or in each valley, of the row."""
    if abs(off) < 2:
        return
    places = _places(rows)
    fits = [
        one for one in left
        if one.slip.where in places
        and one.off * places[one.slip.where] == off
        and places[one.slip.where] > 1
    ]  # fmt: skip
    yield from _grouped(fits, Scope.EVERY_PLACE)


def _places(rows: TwoRows) -> dict[Where, int]:
    """How many peaks and valleys a row has."""
    motions = rows.course.motions
    peaks = sum(motion.makes > 1 and motion.takes <= 1 for motion in motions)
    valleys = sum(motion.makes == 1 and motion.takes > 1 for motion in motions)
    return {Where.PEAK: peaks, Where.VALLEY: valleys}


def _earlier(
    outcomes: Sequence[Outcome], first: Told, off_after: int | None
) -> Iterator[Suspect]:
    """A slip in the row before that leaves this number here."""
    if first.at < 1 or not _fits(first.off, off_after):
        return
    rows = two_rows(outcomes, first.at - 1)
    if rows is None or rows.after is None:
        return
    left = tuple(what_slips_leave(rows, some_slips(rows)))
    fits = [one for one in left if one.off_after == first.off]
    yield from _grouped(fits, Scope.EARLIER, left)
