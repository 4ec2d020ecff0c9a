"""What lies ahead on the working edge, and taking places from its front.

The unused part of an edge is a line like any other, so the front is taken off without
unrolling what is behind it.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TypeVar

from msgspec import Struct

from hookwright.working.count import Count
from hookwright.working.fabric import EDGE_LOOP, Place, PlaceKind, counted, is_space
from hookwright.working.sequence import Group, Line, Piece, Repeat, Run, total

Ahead = Line[Place]
T = TypeVar("T")


class Taken(Struct, frozen=True):
    """Places taken from the front.

    Attributes:
        place: What they are.
        number: How many like ones were taken.
        rest: What is left.
    """

    place: Place
    number: Count
    rest: Ahead


def take(ahead: Ahead, most: Count = 1) -> Taken | None:
    """Up to `most` like places from the front; None where nothing is left."""
    for at, piece in enumerate(ahead):
        if isinstance(piece, Run):
            number = min(most, piece.times)
            left = piece.times - number
            rest: Ahead = ahead[at + 1 :]
            if left:
                rest = (Run(piece.item, left), *rest)
            return Taken(piece.item, number, rest)
        if isinstance(piece, Repeat):
            return take(opened(ahead[at:]), most)
        inner = take(piece.body, most)
        if inner is not None:
            rest = ahead[at + 1 :]
            if inner.rest:
                rest = (Group(inner.rest, piece.name, whole=False), *rest)
            return Taken(inner.place, inner.number, rest)
    return None


def opened(ahead: Ahead) -> Ahead:
    """The same places with one working of a leading repeat written out."""
    piece = ahead[0]
    if not isinstance(piece, Repeat):
        return ahead
    left = piece.times - 1
    again: Ahead = (Repeat(piece.body, left),) if left else ()
    return (*piece.body, *again, *ahead[1:])


def holds(line: Ahead, wanted: Callable[[Place], bool]) -> bool:
    """Whether a wanted place lies anywhere along a line."""
    return any(
        wanted(piece.item) if isinstance(piece, Run) else holds(piece.body, wanted)
        for piece in line
    )


def holds_group(line: Ahead, wanted: Callable[[Group[Place]], bool]) -> bool:
    """Whether a wanted group lies anywhere along a line."""
    for piece in line:
        if isinstance(piece, Group) and wanted(piece):
            return True
        if not isinstance(piece, Run) and holds_group(piece.body, wanted):
            return True
    return False


class Kinds(Struct, frozen=True):
    """What there is along a line, each kind once.

    Attributes:
        line: The line.
        places: Its unlike places, those within groups too.
        groups: Its unlike groups, those within groups too.
    """

    line: Ahead
    places: tuple[Place, ...]
    groups: tuple[Group[Place], ...]


def kinds_of(line: Ahead) -> Kinds:
    """The unlike places and groups along a line."""
    pieces = dict.fromkeys(_inner(line))
    places = dict.fromkeys(piece.item for piece in pieces if isinstance(piece, Run))
    groups = (piece for piece in pieces if isinstance(piece, Group))
    return Kinds(line, tuple(places), tuple(groups))


def _inner(line: Ahead) -> Iterator[Piece[Place]]:
    """Every piece of a line, and what it holds."""
    for piece in line:
        yield piece
        if not isinstance(piece, Run):
            yield from _inner(piece.body)


class Passed(Struct, frozen=True):
    """What lies before a place that was sought.

    Attributes:
        line: The places passed.
        rest: What is left; the place sought is its first.
    """

    line: Ahead
    rest: Ahead


def seek(ahead: Ahead, wanted: Callable[[Place], bool]) -> Passed | None:
    """Goes forward to the next wanted place; None where there is none."""
    for at, piece in enumerate(ahead):
        if isinstance(piece, Run):
            if wanted(piece.item):
                return Passed(ahead[:at], ahead[at:])
        elif not holds(piece.body, wanted):
            continue
        elif isinstance(piece, Repeat):
            return _behind(ahead[:at], seek(opened(ahead[at:]), wanted))
        else:
            inner = seek(piece.body, wanted)
            if inner is None:  # cannot be: the body holds one
                return None
            whole = piece.whole and not inner.line
            rest = (Group(inner.rest, piece.name, whole=whole), *ahead[at + 1 :])
            return Passed((*ahead[:at], *inner.line), rest)
    return None


def seek_group(ahead: Ahead, wanted: Callable[[Group[Place]], bool]) -> Passed | None:
    """Goes forward to the next whole group of a kind; None where there is none."""
    for at, piece in enumerate(ahead):
        if isinstance(piece, Run):
            continue
        if isinstance(piece, Group) and piece.whole and wanted(piece):
            return Passed(ahead[:at], ahead[at:])
        if holds_group(piece.body, wanted):
            is_repeat = isinstance(piece, Repeat)
            rest = opened(ahead[at:]) if is_repeat else (*piece.body, *ahead[at + 1 :])
            return _behind(ahead[:at], seek_group(rest, wanted))
    return None


def _behind(passed: Ahead, found: Passed | None) -> Passed | None:
    """What was found further on, with what lies before it."""
    return None if found is None else Passed((*passed, *found.line), found.rest)


def stitches(line: Ahead) -> Count:
    """How many stitches lie along a line."""
    return total(line, counted)


def spaces(line: Ahead) -> Count:
    """How many chain spaces lie along a line."""
    return total(line, is_space)


def ungrouped(line: Line[T]) -> Line[T]:
    """The same, no longer in groups."""
    result: list[Piece[T]] = []
    for piece in line:
        if isinstance(piece, Group):
            result.extend(ungrouped(piece.body))
        elif isinstance(piece, Repeat):
            result.append(Repeat(ungrouped(piece.body), piece.times))
        else:
            result.append(piece)
    return tuple(result)


def grouped(line: Ahead) -> int:
    """How many pieces of a line are groups, however often they stand."""
    return sum(
        1
        if isinstance(piece, Group)
        else 0
        if isinstance(piece, Run)
        else grouped(piece.body)
        for piece in line
    )


def is_beginning(place: Place) -> bool:
    """Whether a place is the top of a turning or beginning chain."""
    return place.kind is PlaceKind.TURNING_CHAIN or place.stitch == EDGE_LOOP


def uncounted_beginning(line: Ahead) -> bool:
    """Whether a beginning chain that is no stitch lies on a line."""
    return holds(line, lambda place: is_beginning(place) and not place.counts)


def last_place(line: Ahead) -> Place | None:
    """The last place of a line; None where it is empty."""
    for piece in reversed(line):
        if isinstance(piece, Run):
            return piece.item
        found = last_place(piece.body)
        if found is not None:
            return found
    return None
