"""The first row along an edge, and the row that makes a border's repeat fit."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby

from msgspec import Struct

from hookwright.sizing.edging.even import middles, rate
from hookwright.sizing.edging.facts import PickUp
from hookwright.sizing.edging.moves import Move, Moves, plain, several, skip, together
from hookwright.sizing.edging.piece import noun_of
from hookwright.working.fabric import Place, PlaceKind, is_space

_CHAIN_WIDE = Fraction(85, 100)
"""A chain between stitches in widths of a stitch. Source: the mesh of our fabric model,
where chains of that length leave lace flat."""


class Picked(Struct, frozen=True):
    """A first row along an edge.

    Attributes:
        moves: Its movements.
        length: How long the edge is, in widths of its stitch.
    """

    moves: Moves
    length: Fraction


def along_places(places: Sequence[Place], stitch: str) -> Picked:
    """One stitch in each stitch, and in a space as many as its chains are wide."""
    moves: list[Move] = []
    length = Fraction(0)
    for place in places:
        if is_space(place):
            wide = place.chains * _CHAIN_WIDE
            moves.append(several(max(1, round(wide)), stitch, noun_of(place)))
            length += wide
        elif place.counts and place.kind is not PlaceKind.SPENT:
            moves.append(plain(stitch))
            length += 1
    return Picked(tuple(moves), length)


def along_row_ends(heights: Sequence[Fraction], stitch: str) -> tuple[Picked, PickUp]:
    """As many stitches in the ends of rows as these are high.

    Rows of much the same height have one rhythm. Of others each stretch of like ones has
    its own, where all lies flat, else the sum is shared out as it grows.
    """
    whole = sum(heights, Fraction(0))
    exact = whole / len(heights)
    numbers = _in_rhythm(len(heights), rate(exact))
    if max(heights) > _ALIKE * min(heights):
        stretches = [(height, len(list(same))) for height, same in groupby(heights)]
        own = [n for height, rows in stretches for n in _in_rhythm(rows, rate(height))]
        numbers = own if abs(sum(own) / whole - 1) <= _FLAT else _as_it_grows(heights)
    moves = tuple(_in_end(number, stitch) for number in numbers)
    steady = rate(exact)
    if max(heights) > _ALIKE * min(heights):
        steady = Fraction(sum(numbers), len(numbers))
    pick_up = PickUp(exact, steady.numerator, steady.denominator, None)
    return Picked(moves, whole), pick_up


_FLAT = Fraction(8, 100)
_ALIKE = Fraction(3, 2)
"""Rows that differ by less are taken alike: hdc among sc."""


def _in_rhythm(rows: int, each: Fraction) -> list[int]:
    """One number a row: 1, 2, 2, 2 and again for 7 in 4 rows."""
    return [int((i + 1) * each) - int(i * each) for i in range(rows)]


def _as_it_grows(heights: Sequence[Fraction]) -> list[int]:
    """One number a row, so that the sum up to each is as near as can be to the height."""
    numbers: list[int] = []
    high = Fraction(0)
    for height in heights:
        high += height
        numbers.append(max(0, round(high) - sum(numbers)))
    return numbers


def _in_end(number: int, stitch: str) -> Move:
    return several(number, stitch, "row end") if number else skip(1, "row end")


def fitted(stitches: int, change: int, stitch: str) -> Moves | None:
    """A row that has so many stitches more or fewer, spread evenly; None if it cannot."""
    if abs(change) * 2 > stitches:
        return None
    moves = [plain(stitch) for _ in range(stitches)]
    if change > 0:
        for at in middles(stitches, change):
            moves[at] = several(2, stitch)
        return tuple(moves)
    for at in reversed(middles(stitches, -change) if change else ()):
        first = min(max(at, 0), stitches - 2)
        moves[first : first + 2] = [together(2, stitch)]
    return tuple(moves)


def with_change(moves: Moves, change: int, stitch: str) -> Moves | None:
    """A first row of one stitch in each place, with the change of a border in it."""
    if any(move != plain(stitch, moves[0].noun) for move in moves):
        return None
    row = fitted(len(moves), change, stitch)
    if row is None:
        return None
    noun = moves[0].noun
    return tuple(Move(m.form, m.stitch, m.takes, m.makes, noun) for m in row)
