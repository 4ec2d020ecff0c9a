"""What does a maker's hand do along a row, one place after the other?

A row is kept as runs and repeats; a slip happens at one place of it. So the row is written
out as motions, each with the places it takes and the tops it leaves, and can be worked
again over other places than there should be: too few, too many, or one of them missed.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from enum import StrEnum

from msgspec import Struct
from msgspec.structs import replace

from hookwright.working.fabric import Place, PlaceKind, Stitch, top
from hookwright.working.made_of import main_stitch_of
from hookwright.working.row import WorkedRow
from hookwright.working.sequence import Group, Line, Repeat, Run, unrolled

MOST_MOTIONS = 2_000
"""A longer row is told in classes only, not place by place."""
_SEEKS_PAST = 8
"""So many places further on a stitch that is named is still looked for."""
_PASSED = ("pass", "place")
_SKIPPED = "skip"


class Manner(StrEnum):
    """What a maker does where the places do not come out as the words do."""

    TO_THE_END = "draws together what is left, and puts a stitch in each place left over"
    INTO_CHAIN = "the same, and a turning chain that is no stitch is a place to her"
    STOPS = "stops with the words"


class Motion(Struct, frozen=True):
    """One movement along a row.

    Attributes:
        name: The stitch, in the words of the pattern; "skip" or "pass" where none is made.
        takes: Places of the edge that it uses up.
        heads: The tops and spaces it leaves.
        stands_on: The place it is worked in, where the row is worked as written.
        repeat: The number of the repeat it belongs to, from 0; None outside repeats.
    """

    name: str
    takes: int
    heads: tuple[Place, ...] = ()
    stands_on: Place | None = None
    repeat: int | None = None

    @property
    def makes(self) -> int:
        """How many stitches it adds to the count."""
        return sum(head.counts for head in self.heads)


class Course(Struct, frozen=True):
    """A row written out, with the places it is worked over.

    Attributes:
        motions: Its movements in order.
        places: The places of the edge, in working order.
        main: The stitch that it is mostly made of; "st" where none is.
        left: Stitches of the edge that stay unworked when all is right.
        uses_chain: Whether it works into a turning chain that is no stitch.
    """

    motions: tuple[Motion, ...]
    places: tuple[Place, ...]
    main: str
    left: int = 0
    uses_chain: bool = False

    @property
    def makes(self) -> int:
        """How many stitches the row has when all is right."""
        return sum(motion.makes for motion in self.motions)


def course_of(worked: WorkedRow) -> Course | None:
    """A row written out; None where it is too long, or begins further on along its edge."""
    if worked.start or worked.own_chains:
        return None
    places = tuple(unrolled(worked.over.line, MOST_MOTIONS + 1))
    motions = tuple(_numbered(worked.row.line))
    if len(motions) > MOST_MOTIONS or len(places) > MOST_MOTIONS:
        return None
    placed, used = _placed(motions, places)
    main = main_stitch_of(worked) or "st"
    uses_chain = any(
        motion.heads and motion.stands_on is not None and _is_no_stitch(motion.stands_on)
        for motion in placed
    )
    return Course(placed, places, main, counted(places[used:]), uses_chain)


def worked_again(
    course: Course,
    motions: Sequence[Motion],
    places: Sequence[Place],
    manner: Manner = Manner.TO_THE_END,
) -> tuple[Place, ...]:
    """The tops of a row worked with other motions, or over other places.

    What finds no place is not made.

    Args:
        course: The row as it should be.
        motions: What is done instead.
        places: What there is to work into.
        manner: What she does at the end of the row.
    """
    to_end = manner is not Manner.STOPS
    if manner is not Manner.INTO_CHAIN and not course.uses_chain:
        places = [place for place in places if not _is_no_stitch(place)]
        motions = [motion for motion in motions if not _passes_no_stitch(motion)]
    at = 0
    passed = 0
    heads: list[Place] = []
    for motion in motions:
        if motion.name in _PASSED and motion.takes:
            passed += motion.takes
            continue
        if motion.takes and passed:
            at, passed = _sought(places, at, at + passed, motion), 0
        left = max(0, len(places) - at)
        if motion.takes > left and (not left or not to_end):
            at += left
            continue
        at += min(motion.takes, left)
        heads.extend(motion.heads)
    over = [place for place in places[at + passed :] if place.counts] if to_end else []
    heads.extend(top(course.main) for _ in over[course.left :])
    return tuple(heads)


def _is_no_stitch(place: Place) -> bool:
    return place.kind is PlaceKind.TURNING_CHAIN and not place.counts


def _passes_no_stitch(motion: Motion) -> bool:
    on = motion.stands_on
    return motion.name in _PASSED and on is not None and _is_no_stitch(on)


def counted(heads: Sequence[Place]) -> int:
    """How many stitches some tops count as."""
    return sum(head.counts for head in heads)


def _sought(places: Sequence[Place], least: int, usual: int, motion: Motion) -> int:
    """Where a stitch that is led to by name comes to stand: the likest place near by."""
    wanted = motion.stands_on
    if wanted is None:
        return usual
    reach = range(least, min(len(places), usual + _SEEKS_PAST))
    found = [at for at in reach if _alike(places[at], wanted)]
    return min(found, key=lambda at: abs(at - usual), default=usual)


def _alike(one: Place, other: Place) -> bool:
    return (one.kind, one.stitch) == (other.kind, other.stitch)


def _placed(
    motions: Sequence[Motion], places: Sequence[Place]
) -> tuple[tuple[Motion, ...], int]:
    """Each motion with the place it stands on, and how many places are used in all."""
    at = 0
    result: list[Motion] = []
    for motion in motions:
        here = places[at] if motion.takes and at < len(places) else None
        result.append(replace(motion, stands_on=here))
        at += motion.takes
    return tuple(result), at


def _numbered(line: Line[Stitch]) -> Iterator[Motion]:
    """The motions of a row with the number of the repeat that each belongs to."""
    number = 0
    for piece in line:
        if not isinstance(piece, Repeat):
            yield from _of(piece, None)
            continue
        times = piece.times if isinstance(piece.times, int) else 0
        for _ in range(min(times, MOST_MOTIONS)):
            for inner in piece.body:
                yield from _of(inner, number)
            number += 1


def _of(
    piece: Run[Stitch] | Repeat[Stitch] | Group[Stitch], repeat: int | None
) -> Iterator[Motion]:
    if isinstance(piece, Run):
        stitch, times = piece.item, piece.times if isinstance(piece.times, int) else 0
        one = Motion(stitch.kind, stitch.along, stitch.heads, repeat=repeat)
        yield from (one for _ in range(min(times, MOST_MOTIONS)))
    elif isinstance(piece, Repeat):
        times = piece.times if isinstance(piece.times, int) else 0
        for _ in range(min(times, MOST_MOTIONS)):
            for inner in piece.body:
                yield from _of(inner, repeat)
    else:
        yield _together(piece, repeat)


def _together(group: Group[Stitch], repeat: int | None) -> Motion:
    """What is worked in one place, as one motion."""
    motions = [motion for piece in group.body for motion in _of(piece, repeat)]
    heads = tuple(head for motion in motions for head in motion.heads)
    named = next((motion.name for motion in motions if motion.heads), group.name)
    return Motion(group.name or named, sum(m.takes for m in motions), heads, repeat=repeat)


def is_work(motion: Motion) -> bool:
    """Whether a motion makes a stitch to be counted, a turning chain apart."""
    return motion.name != "tch" and motion.makes > 0


def is_skip(motion: Motion) -> bool:
    """Whether a motion only passes over places by word."""
    return motion.name == _SKIPPED and motion.takes > 0


def is_beginning(motion: Motion) -> bool:
    """Whether a motion is the chain that a row begins with."""
    return motion.name == "tch" or any(
        head.kind is PlaceKind.TURNING_CHAIN for head in motion.heads
    )
