"""Which single slips may be made in a row, and what does the row then count?

A slip belongs to a class that a maker can look for: the first stitch, the last stitch or
the turning chain, a peak (several stitches in one place), a valley (places drawn together,
or skipped), one place in between, a repeat. Slips of different classes may leave the same
number.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import StrEnum

from msgspec import Struct
from msgspec.structs import replace

from hookwright.answers.motions import Course, Motion, is_beginning, is_skip, is_work
from hookwright.working.fabric import Place, top


class Where(StrEnum):
    """The class of a slip: where in a row a maker looks for it."""

    FIRST = "the first stitch"
    LAST = "the last stitch or the turning chain"
    PEAK = "a peak"
    VALLEY = "a valley"
    INSIDE = "one place in between"
    REPEAT = "a repeat"


class Slip(Struct, frozen=True):
    """One slip.

    Attributes:
        where: Its class.
        what: What was done, in a few words.
        at: The number of the motion it is made at, from 0.
        motions: The row with the slip in it.
        stops: Whether the row stops with its words: what is left over shows it.
        drops_last: Whether its last stitch is not made, wherever it ends.
        beyond: Places that there are beside those of the edge: a chain that is too long.
    """

    where: Where
    what: str
    at: int
    motions: tuple[Motion, ...]
    stops: bool = False
    drops_last: bool = False
    beyond: int = 0


_MISSED = Motion("skip", 1)


def slips_in(course: Course, *, first_row: bool = False) -> Iterator[Slip]:
    """Every single slip that may be made in a row.

    Args:
        course: The row.
        first_row: Whether it is worked into a chain, which may be a repeat too long.
    """
    worked = [n for n, motion in enumerate(course.motions) if is_work(motion)]
    if not worked:
        return
    yield from _at_the_beginning(course, worked[0])
    yield from _at_the_end(course, worked[-1])
    for at in worked:
        yield from _in_place(course, at, inside=at not in {worked[0], worked[-1]})
    yield from _at_skips(course)
    yield from _of_repeats(course, first_row=first_row)


def _at_the_beginning(course: Course, first: int) -> Iterator[Slip]:
    motions = course.motions
    skip = next((n for n in range(first) if is_skip(motions[n])), None)
    if skip is not None:
        yield Slip(Where.FIRST, "worked where it is skipped", skip, _without(motions, skip))
    at = first if motions[first].takes else None
    if any(map(is_beginning, motions[: first + 1])) or at is None:
        extra = replace(motions[first], takes=0, heads=(top(course.main),))
        yield Slip(Where.FIRST, "one too many", first, _with(motions, first, extra))
    if at is not None:
        yield Slip(Where.FIRST, "missed", first, _with(motions, first, _MISSED))


def _at_the_end(course: Course, last: int) -> Iterator[Slip]:
    motions = course.motions
    yield Slip(Where.LAST, "missed", last, motions, drops_last=True)
    extra = Motion(course.main, 0, (top(course.main),))
    yield Slip(Where.LAST, "one too many", last, (*motions, extra))


def _in_place(course: Course, at: int, *, inside: bool) -> Iterator[Slip]:
    motion, motions = course.motions[at], course.motions
    if _is_peak(motion):
        for what, heads in _peaks(motion, course.main):
            yield Slip(Where.PEAK, what, at, _instead(motions, at, heads=heads))
    elif _is_valley(motion):
        yield from _drawn_otherwise(course, at)
    elif inside and motion.takes == 1 and motion.makes == 1:
        yield Slip(Where.INSIDE, "missed", at, _with(motions, at, _MISSED))
        twice = (*motion.heads, top(course.main))
        yield Slip(Where.INSIDE, "two in one", at, _instead(motions, at, heads=twice))


def _is_peak(motion: Motion) -> bool:
    return motion.makes > 1 and motion.takes <= 1


def _is_valley(motion: Motion) -> bool:
    return motion.takes > 1 and motion.makes == 1


def _peaks(motion: Motion, main: str) -> Iterator[tuple[str, tuple[Place, ...]]]:
    tops = [n for n, head in enumerate(motion.heads) if head.counts]
    drop = tops[-1]
    yield "one too few", motion.heads[:drop] + motion.heads[drop + 1 :]
    yield "one too many", (*motion.heads, top(main))
    if len(tops) > 2:
        yield "only one", tuple(motion.heads[n] for n in tops[:1])


def _drawn_otherwise(course: Course, at: int) -> Iterator[Slip]:
    motion, motions = course.motions[at], course.motions
    fewer = replace(motion, takes=motion.takes - 1)
    more = replace(motion, takes=motion.takes + 1)
    apart = tuple(top(course.main) for _ in range(motion.takes))
    yield Slip(Where.VALLEY, "one place too few", at, _put(motions, at, fewer))
    yield Slip(Where.VALLEY, "one place too many", at, _put(motions, at, more))
    yield Slip(Where.VALLEY, "not drawn together", at, _instead(motions, at, heads=apart))


def _at_skips(course: Course) -> Iterator[Slip]:
    """A valley may be places that are skipped; what is skipped may be one less or more."""
    motions = course.motions
    first = next((n for n, motion in enumerate(motions) if is_work(motion)), 0)
    runs = [
        n for n in range(first, len(motions))
        if is_skip(motions[n]) and not (n and is_skip(motions[n - 1]))
    ]  # fmt: skip
    for at in runs:
        if not _stands_on_tops(course, at):
            continue
        yield Slip(Where.VALLEY, "one place too few", at, _without(motions, at))
        yield Slip(Where.VALLEY, "one place too many", at, _with(motions, at, _MISSED))


def _stands_on_tops(course: Course, at: int) -> bool:
    here = course.motions[at].stands_on
    return here is not None and here.counts > 0


def _of_repeats(course: Course, *, first_row: bool) -> Iterator[Slip]:
    """A repeat left out leaves its places unworked; one too many needs places for it."""
    motions = course.motions
    numbers = sorted({m.repeat for m in motions if m.repeat is not None})
    for number in numbers:
        own = [n for n, motion in enumerate(motions) if motion.repeat == number]
        repeat = motions[own[0] : own[-1] + 1]
        if not any(map(is_work, repeat)) or len(numbers) < 2:
            continue
        without = motions[: own[0]] + motions[own[-1] + 1 :]
        yield Slip(Where.REPEAT, "left out", own[0], without, stops=True)
        takes = sum(motion.takes for motion in repeat)
        if first_row or not takes:
            again = motions[: own[0]] + repeat + motions[own[0] :]
            yield Slip(Where.REPEAT, "one too many", own[0], again, beyond=takes)


def _with(motions: Sequence[Motion], at: int, motion: Motion) -> tuple[Motion, ...]:
    """The motions with one more before another."""
    return (*motions[:at], motion, *motions[at:])


def _without(motions: Sequence[Motion], at: int) -> tuple[Motion, ...]:
    return (*motions[:at], *motions[at + 1 :])


def _put(motions: Sequence[Motion], at: int, motion: Motion) -> tuple[Motion, ...]:
    return (*motions[:at], motion, *motions[at + 1 :])


def _instead(
    motions: Sequence[Motion], at: int, *, heads: tuple[Place, ...]
) -> tuple[Motion, ...]:
    return _put(motions, at, replace(motions[at], heads=heads))
