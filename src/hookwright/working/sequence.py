"""Runs and repeats: a long row or edge held as short as a designer writes it.

Stitches along a row, and places along an edge, are one kind of list: runs of like items,
repeats of a few of them, and groups that belong together because they are worked in one
place. Nothing here is ever unrolled: a repeat worked nine hundred million times takes the
room of one worked twice.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import Generic, TypeVar

from msgspec import Struct
from msgspec.structs import replace

from hookwright.source import Span
from hookwright.working.count import Count, whole_times

T = TypeVar("T")
S = TypeVar("S")


class Run(Struct, Generic[T], frozen=True, cache_hash=True):
    """`times` like items in a row.

    Attributes:
        item: The stitch or the place.
        times: How many.
        span: The words they come from, if any.
        yarn: The name of the yarn they are worked with, if it is known.
    """

    item: T
    times: Count = 1
    span: Span | None = None
    yarn: str | None = None


class Repeat(Struct, Generic[T], frozen=True, cache_hash=True):
    """A few items over and over."""

    body: Line[T]
    times: Count


class Group(Struct, Generic[T], frozen=True, cache_hash=True):
    """What is worked in one place and read as one: a shell, a V-stitch, an increase.

    Attributes:
        body: The items.
        name: What the pattern calls it; "" for a group without a name.
        whole: False for a part of a group: the rest after some of it has been passed, or
            either side of a cut.
    """

    body: Line[T]
    name: str = ""
    whole: bool = True


Piece = Run[T] | Repeat[T] | Group[T]
Line = tuple[Piece[T], ...]


def total(line: Line[T], weight: Callable[[T], Count]) -> Count:
    """The sum of `weight` over all items; the work grows with the writing only."""
    result: Count = 0
    for piece in line:
        if isinstance(piece, Run):
            result = result + weight(piece.item) * piece.times
        elif isinstance(piece, Repeat):
            result = result + total(piece.body, weight) * piece.times
        else:
            result = result + total(piece.body, weight)
    return result


def every(item: object) -> int:  # noqa: ARG001 - every item weighs the same
    """1 for any item: the weight that numbers items."""
    return 1


def tally(line: Line[T], kind: Callable[[T], str]) -> dict[str, Count]:
    """How many items of each kind, in order of first appearance."""
    result: dict[str, Count] = {}
    _tally_into(result, line, kind, 1)
    return result


def _tally_into(
    result: dict[str, Count], line: Line[T], kind: Callable[[T], str], times: Count
) -> None:
    for piece in line:
        if isinstance(piece, Run):
            name = kind(piece.item)
            number = piece.times * times
            if name and number:
                result[name] = result.get(name, 0) + number
        elif isinstance(piece, Repeat):
            _tally_into(result, piece.body, kind, piece.times * times)
        else:
            _tally_into(result, piece.body, kind, times)


def reverse(line: Line[T]) -> Line[T]:
    """The same items read from the other end."""
    return tuple(_reverse_piece(piece) for piece in reversed(line))


def _reverse_piece(piece: Piece[T]) -> Piece[T]:
    if isinstance(piece, Repeat):
        return Repeat(reverse(piece.body), piece.times)
    return turned_round(piece) if isinstance(piece, Group) else piece


def turned_round(group: Group[T]) -> Group[T]:
    """The same group read from its other end."""
    return Group(reverse(group.body), group.name, group.whole)


def convert(line: Line[T], change: Callable[[Run[T]], Line[S]]) -> Line[S]:
    """Every run replaced by what `change` makes of it; repeats and groups stay."""
    result: list[Piece[S]] = []
    for piece in line:
        if isinstance(piece, Run):
            result.extend(change(piece))
        elif isinstance(piece, Repeat):
            body = convert(piece.body, change)
            if body:
                result.append(Repeat(body, piece.times))
        else:
            body = convert(piece.body, change)
            if body:
                result.append(Group(body, piece.name, piece.whole))
    return join(result)


def join(pieces: list[Piece[T]] | Line[T]) -> Line[T]:
    """The shortest writing at hand: like neighbours become one run or one repeat."""
    result: list[Piece[T]] = []
    for piece in pieces:
        _append(result, piece)
    return tuple(result)


def _append(result: list[Piece[T]], piece: Piece[T]) -> None:
    simpler = _plain(piece) if isinstance(piece, Repeat) else None
    if simpler is not None:
        for one in simpler:
            _append(result, one)
        return
    if piece_times(piece) == 0:
        return
    merged = _merge(result[-1], piece) if result else None
    if merged is None:
        result.append(piece)
    else:
        result[-1] = merged


def _plain(piece: Repeat[T]) -> Line[T] | None:
    """A simpler writing: a repeat worked once is its items, a repeated run is a run."""
    if piece.times == 1 or not piece.body:
        return piece.body
    only = piece.body[0]
    if len(piece.body) > 1 or isinstance(only, Group):
        return None
    times = only.times * piece.times
    if isinstance(only, Run):
        return (Run(only.item, times, only.span, only.yarn),)
    return (Repeat(only.body, times),)


def piece_times(piece: Piece[T]) -> Count:
    """How often a piece stands: a group stands once."""
    return 1 if isinstance(piece, Group) else piece.times


def _merge(left: Piece[T], right: Piece[T]) -> Piece[T] | None:
    if isinstance(left, Run) and isinstance(right, Run):
        alike = (left.item, left.span, left.yarn) == (right.item, right.span, right.yarn)
        times = left.times + right.times
        return Run(left.item, times, left.span, left.yarn) if alike else None
    if isinstance(left, Repeat):
        if isinstance(right, Repeat) and left.body == right.body:
            return Repeat(left.body, left.times + right.times)
        if left.body == (right,):
            return Repeat(left.body, left.times + 1)
    elif isinstance(left, Group):
        if left == right:
            return Repeat((left,), 2)
        if isinstance(right, Repeat) and right.body == (left,):
            return Repeat(right.body, right.times + 1)
    return None


def split(
    line: Line[T], count: Count, weight: Callable[[T], int] = every
) -> tuple[Line[T], Line[T]] | None:
    """The line cut in two where its items so far weigh `count`.

    Items without weight that follow the cut go with the second half; a count past the end
    leaves that half empty. None where the cut would go through an item, or through a repeat
    at a place that is not the same for every k.
    """
    before: list[Piece[T]] = []
    for number, piece in enumerate(line):
        if count <= 0:
            return join(before), line[number:]
        size = total((piece,), weight)
        if size >= count:
            halves = _split_piece(piece, count, weight)
            if halves is None:
                return None
            left, right = halves
            return join((*before, *left)), join((*right, *line[number + 1 :]))
        before.append(piece)
        count = count - size
    return join(before), ()


def _split_piece(
    piece: Piece[T], count: Count, weight: Callable[[T], int]
) -> tuple[Line[T], Line[T]] | None:
    if isinstance(piece, Run):
        return _split_run(piece, count, weight(piece.item))
    if isinstance(piece, Repeat):
        return _split_repeat(piece, count, weight)
    halves = split(piece.body, count, weight)
    if halves is None:
        return None
    left, right = halves
    if not right:
        return (piece,), ()
    name = piece.name
    return (Group(left, name, whole=False),), (Group(right, name, whole=False),)


def _split_run(run: Run[T], count: Count, each: int) -> tuple[Line[T], Line[T]] | None:
    number = whole_times(count, each)
    if number is None or number * each != count:
        return None
    left = replace(run, times=number)
    right = replace(run, times=run.times - number)
    return (left,), (right,) if right.times else ()


def _split_repeat(
    repeat: Repeat[T], count: Count, weight: Callable[[T], int]
) -> tuple[Line[T], Line[T]] | None:
    """Cut in the first body that reaches `count`: its weightless end follows the cut."""
    body, times = repeat.body, repeat.times
    size = total(body, weight)
    whole = whole_times(count - 1, size) if isinstance(size, int) else None
    if whole is None:
        return None
    halves = split(body, count - whole * size, weight)
    if halves is None:
        return None
    left, right = halves
    if not right:
        left, whole = (), whole + 1
    rest = times - whole - (1 if right else 0)
    before = (Repeat(body, whole), *left)
    return before, join((*right, Repeat(body, rest)))


def unrolled(line: Line[T], limit: int) -> Iterator[T]:
    """The first `limit` items one by one, for pictures and tests of small pieces."""
    left = limit
    for item in _items(line):
        if not left:
            return
        left -= 1
        yield item


def _items(line: Line[T]) -> Iterator[T]:
    for piece in line:
        if isinstance(piece, Group):
            yield from _items(piece.body)
            continue
        times = piece.times if isinstance(piece.times, int) else 0
        for _ in range(times):
            if isinstance(piece, Run):
                yield piece.item
            else:
                yield from _items(piece.body)
