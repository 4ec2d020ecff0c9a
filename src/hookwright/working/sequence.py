"""Runs and repeats: a long row or edge held as short as a designer writes it.

Stitches along a row, and places along an edge, are one kind of list: runs of like items,
repeats of a few of them, and groups that belong together because they are worked in one
place. Nothing here is ever unrolled: a repeat worked nine hundred million times takes the
room of one worked twice.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import dataclass
from typing import Generic, TypeVar

from hookwright.source import Span
from hookwright.working.count import Count

T = TypeVar("T")
S = TypeVar("S")


@dataclass(frozen=True, slots=True)
class Run(Generic[T]):
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


@dataclass(frozen=True, slots=True)
class Repeat(Generic[T]):
    """A few items over and over."""

    body: Line[T]
    times: Count


@dataclass(frozen=True, slots=True)
class Group(Generic[T]):
    """What is worked in one place and read as one: a shell, a V-stitch, an increase.

    Attributes:
        body: The items.
        name: What the pattern calls it; "" for a group without a name.
        whole: False for the rest of a group of which a part has been passed.
    """

    body: Line[T]
    name: str = ""
    whole: bool = True


Piece = Run[T] | Repeat[T] | Group[T]
Line = tuple[Piece[T], ...]


def total(line: Line[T], weight: Callable[[T], Count]) -> Count:
    """The sum of `weight` over all items; the work grows with the writing, not the count."""
    result: Count = 0
    for piece in line:
        if isinstance(piece, Run):
            result = result + weight(piece.item) * piece.times
        elif isinstance(piece, Repeat):
            result = result + total(piece.body, weight) * piece.times
        else:
            result = result + total(piece.body, weight)
    return result


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
            if name:
                result[name] = result.get(name, 0) + piece.times * times
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
    if isinstance(piece, Group):
        return Group(reverse(piece.body), piece.name, piece.whole)
    return piece


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
    if isinstance(piece, Repeat):
        piece = _plain(piece)
    if isinstance(piece, tuple):
        for one in piece:
            _append(result, one)
        return
    if piece_times(piece) == 0:
        return
    merged = _merge(result[-1], piece) if result else None
    if merged is None:
        result.append(piece)
    else:
        result[-1] = merged


def _plain(piece: Repeat[T]) -> Piece[T] | Line[T]:
    """A repeat in its simplest form: worked once it is its items, of one run it is a run."""
    if piece.times == 1:
        return piece.body
    if len(piece.body) == 1:
        only = piece.body[0]
        if isinstance(only, Run):
            return Run(only.item, only.times * piece.times, only.span, only.yarn)
        if isinstance(only, Repeat):
            return Repeat(only.body, only.times * piece.times)
    return piece


def piece_times(piece: Piece[T]) -> Count:
    """How often a piece stands: a group stands once."""
    return 1 if isinstance(piece, Group) else piece.times


def _merge(left: Piece[T], right: Piece[T]) -> Piece[T] | None:
    if isinstance(left, Run) and isinstance(right, Run):
        alike = (left.item, left.span, left.yarn) == (right.item, right.span, right.yarn)
        return Run(left.item, left.times + right.times, left.span, left.yarn) if alike else None
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
