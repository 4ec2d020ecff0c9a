"""A row as columns: thousands of stitches at once, from runs and repeats.

A run of like stitches becomes a stretch of one number, a repeat the same stretch over and
over. The work in Python grows with the writing of the row, not with its stitches.
"""

from __future__ import annotations

from typing import TypeVar

import numpy as np
from msgspec import Struct
from msgspec.structs import replace
from numpy.typing import NDArray

from hookwright.working.fabric import Foot, Into, Place, PlaceKind, Row, Stitch
from hookwright.working.fabric import extent as extent_of
from hookwright.working.sequence import Line, Run, every, total

Whole = NDArray[np.int64]
Real = NDArray[np.float64]
Truth = NDArray[np.bool_]
T = TypeVar("T")

MOST_STITCHES = 400_000
"""Stitches and places of a piece that are laid out: three queen-size blankets."""


PARTS = tuple(Into)
"""The parts of a place, by their numbers in `Columns.foot_into`."""


class TooLarge(Exception):  # noqa: N818 - it is no error of the program
    """A row or piece with more stitches than are laid out."""


class Columns(Struct, frozen=True, eq=False):
    """A row or round in working order; places are those of the edge it is worked over.

    A *node* is the top of a stitch, or one chain. Only places that count as a stitch, or
    are a space, are numbered: these are what later rows are worked into.

    Attributes:
        names: The stitches that occur, each once.
        name: (n,) which of the names each node belongs to.
        is_chain: (n,) whether a node is a chain.
        stands: (n,) whether it is a beginning chain that stands for a stitch.
        yarns: The yarns that are named, each once.
        yarn: (n,) which of the yarns it is worked with; -1 where none is known.
        span: (n, 2) where its words begin and end in the text; -1 where none are known.
        foot_node: (f,) the node that each foot belongs to, in working order.
        foot_unit: (f,) how much of the edge was used before its place, in `extent`.
        foot_step: (f,) places on from there.
        foot_down: (f,) rows further down.
        foot_gap: (f,) whether it stands in the gap before the place.
        foot_into: (f,) which part of the place the hook goes under, as in `PARTS`.
        foot_again: (f,) whether it uses up nothing of the edge, so that its place is one
            used before.
        used: How much of the edge the whole row uses, in `extent`.
        place_first: (p,) the first node of each place that the row leaves.
        place_nodes: (p,) how many nodes it has: the chains of a space, else 1.
        backs: (e, 3) where it works back along a chain: the first node made there, how much
            of the edge was used before, and how many chains are passed first, without one
            that a stitch is counted to stand on.
        slips: (s, 2) the node made after each slip stitch that is no place itself, and how
            much of the edge was used before the place it joins to.
    """

    names: tuple[str, ...]
    name: Whole
    is_chain: Truth
    stands: Truth
    yarns: tuple[str, ...]
    yarn: Whole
    span: Whole
    foot_node: Whole
    foot_unit: Whole
    foot_step: Whole
    foot_down: Whole
    foot_gap: Truth
    foot_into: Whole
    foot_again: Truth
    used: int
    place_first: Whole
    place_nodes: Whole
    backs: Whole
    slips: Whole

    @property
    def size(self) -> int:
        """How many nodes it has."""
        return len(self.name)

    @property
    def skipped(self) -> int:
        """How many chains of a new foundation are passed before the first stitch."""
        at_start = len(self.backs) and not self.backs[0, :2].any()
        return int(self.backs[0, 2]) if at_start else 0


def ranges(starts: Whole, lengths: Whole) -> Whole:
    """Stretches of whole numbers one behind the other: `starts[i]` and so many on."""
    ends = np.cumsum(lengths)
    number = int(ends[-1]) if len(ends) else 0
    found: Whole = np.arange(number) + np.repeat(starts - (ends - lengths), lengths)
    return found


def before(numbers: Whole) -> Whole:
    """The sum of what stands before each number."""
    return np.cumsum(numbers) - numbers


class Table(Struct):
    """The runs of a line, each once, with the number they are known by."""

    runs: list[Run[object]]
    known: dict[object, int]

    def number(self, run: Run[T]) -> int:
        """The number of a run; a new one where it is first met."""
        key = (run.item, run.span, run.yarn)
        found = self.known.get(key)
        if found is None:
            found = self.known[key] = len(self.runs)
            self.runs.append(run)  # type: ignore[arg-type] # read again as what it was
        return found


def spread(line: Line[T], table: Table) -> Whole:
    """The number of each item of a line, one by one."""
    pieces: list[Whole] = []
    for piece in line:
        if isinstance(piece, Run):
            number = table.number(piece)
            pieces.append(np.full(_whole(piece.times), number, dtype=np.int64))
        elif hasattr(piece, "times"):
            pieces.append(np.tile(spread(piece.body, table), _whole(piece.times)))
        else:
            pieces.append(spread(piece.body, table))
    return np.concatenate(pieces) if pieces else np.zeros(0, dtype=np.int64)


def _whole(times: object) -> int:
    if not isinstance(times, int):
        raise TooLarge
    return times


def check_size(line: Line[T]) -> None:
    """Sees that a line is not too long to be laid out.

    Raises:
        TooLarge: With more stitches or places than are laid out.
    """
    number = total(line, every)
    if not isinstance(number, int) or number > MOST_STITCHES:
        raise TooLarge


class _Entry(Struct, frozen=True):
    """What one movement makes, in the order of its nodes."""

    name: int
    chains: tuple[bool, ...]
    places: tuple[int, ...]
    feet: tuple[tuple[int, Foot], ...]


def columns_of(row: Row) -> Columns:
    """A row as columns.

    Raises:
        TooLarge: With more stitches than are laid out.
    """
    check_size(row.line)
    table = Table([], {})
    moves = spread(row.line, table)
    names: dict[str, int] = {}
    yarns: dict[str, int] = {}
    stitches: list[Stitch] = [run.item for run in table.runs]  # type: ignore[misc] # as put in
    entries = [_entry(s, names.setdefault(_called(s), len(names))) for s in stitches]
    units = np.array([s.passes + s.spaces for s in stitches], dtype=np.int64)
    spans = np.array(
        [
            (r.span.start, r.span.end) if r.span is not None else (-1, -1)
            for r in table.runs
        ],
        dtype=np.int64,
    ).reshape(-1, 2)
    yarn = np.array(
        [
            -1 if r.yarn is None else yarns.setdefault(r.yarn, len(yarns))
            for r in table.runs
        ],
        dtype=np.int64,
    )
    nodes_in = _each(entries, lambda entry: len(entry.chains))
    feet_in = _each(entries, lambda entry: len(entry.feet))
    places_in = _each(entries, lambda entry: len(entry.places))
    node_of = np.repeat(moves, nodes_in[moves])
    first_node = before(nodes_in[moves])
    unit_before = before(units[moves])
    foot = ranges(before(feet_in)[moves], feet_in[moves])
    feet = [found for entry in entries for found in entry.feet]
    whose = np.repeat(np.arange(len(moves)), feet_in[moves])
    again = units[moves] == 0
    chains = _flat(entries, lambda entry: entry.chains)
    place_nodes = _flat(entries, lambda entry: entry.places)
    place = ranges(before(places_in)[moves], places_in[moves])
    foot_node = _column(feet, lambda found: found[0])[foot] + first_node[whose]
    foot_node, kept = _one_for_each(moves, stitches, whose, foot_node)
    foot, whose = foot[kept], whose[kept]
    return Columns(
        names=tuple(names),
        name=np.array([entry.name for entry in entries], dtype=np.int64)[node_of],
        is_chain=chains[ranges(before(nodes_in)[moves], nodes_in[moves])] > 0,
        stands=np.array([stitch.kind == _TALL for stitch in stitches], dtype=bool)[node_of],
        yarns=tuple(yarns),
        yarn=yarn[node_of],
        span=spans[node_of],
        foot_node=foot_node[kept],
        foot_unit=unit_before[whose],
        foot_step=_column(feet, lambda found: found[1].step)[foot],
        foot_down=_column(feet, lambda found: found[1].down)[foot],
        foot_gap=_column(feet, lambda found: found[1].into is Into.BEFORE)[foot] > 0,
        foot_into=_column(feet, lambda found: PARTS.index(found[1].into))[foot],
        foot_again=again[whose],
        used=int(units[moves].sum()),
        place_first=before(place_nodes[place]),
        place_nodes=place_nodes[place],
        backs=np.array(
            [
                (first_node[at], unit_before[at], _skipped(stitches[int(moves[at])]))
                for at in np.flatnonzero(np.isin(moves, _from_hook(stitches)))
            ],
            dtype=np.int64,
        ).reshape(-1, 3),
        slips=_slips(moves, stitches, first_node, unit_before),
    )


def _one_for_each(
    moves: Whole, stitches: list[Stitch], whose: Whole, foot_node: Whole
) -> tuple[Whole, Truth]:
    """Several stitches over as many places stand on one each; those of a cable cross.

    They come as a stitch with all the feet and others beside it in its last place.

    Returns:
        The node of each foot, and which feet are kept.
    """
    kept = np.ones(len(foot_node), dtype=bool)
    for number, stitch in enumerate(stitches):
        many = len(stitch.feet)
        if many < 2 or len(stitch.heads) != 1:
            continue
        beside = [
            other
            for other, found in enumerate(stitches)
            if found.kind == stitch.kind and not found.passes and found.feet
        ]
        at = np.flatnonzero(moves == number)
        follow = at[:, None] + np.arange(1, many)
        inside = follow < len(moves)
        whole = np.isin(moves[np.minimum(follow, len(moves) - 1)], beside) & inside
        crossing = many // 2 if any(word in stitch.kind for word in _CROSSING) else 0
        node = (np.arange(many) - crossing) % many
        for move in at[whole.all(axis=1)].tolist():
            own = np.flatnonzero(whose == move)
            foot_node[own] = foot_node[own[0]] + node
            kept[np.isin(whose, move + np.arange(1, many))] = False
    return foot_node, kept


_CROSSING = ("cable", "cross")


def one_each(columns: Columns) -> Columns:
    """A row whose stitches stand one on each place, in order."""
    stands = np.flatnonzero(~columns.is_chain)
    zeros = np.zeros(len(stands), dtype=np.int64)
    return replace(
        columns,
        foot_node=stands,
        foot_unit=np.arange(len(stands)),
        foot_step=zeros,
        foot_down=zeros,
        foot_gap=zeros > 0,
        foot_into=zeros,
        foot_again=zeros > 0,
        used=len(stands),
    )


def _each(entries: list[_Entry], number: object) -> Whole:
    assert callable(number)
    return np.array([number(entry) for entry in entries], dtype=np.int64)


def _flat(entries: list[_Entry], values: object) -> Whole:
    assert callable(values)
    return np.array([v for entry in entries for v in values(entry)], dtype=np.int64)


def _column(feet: list[tuple[int, Foot]], value: object) -> Whole:
    assert callable(value)
    return np.array([value(found) for found in feet], dtype=np.int64)


_TALL, _SLIP = "tch", "sl st"


def _slips(moves: Whole, stitches: list[Stitch], node: Whole, unit: Whole) -> Whole:
    """The slip stitches that leave no node."""
    joins = [
        s.kind == _SLIP and bool(s.feet) and not any(map(nodes_made, s.heads))
        for s in stitches
    ]
    back = np.array([s.feet[0].step < 0 if s.feet else False for s in stitches], dtype=bool)
    at = np.flatnonzero(np.array(joins, dtype=bool)[moves])
    return np.stack([node[at], unit[at] - back[moves[at]]], axis=1)


def _from_hook(stitches: list[Stitch]) -> list[int]:
    """Which stitches are chains passed at the hook, before work goes back along a chain."""
    return [
        number
        for number, stitch in enumerate(stitches)
        if stitch.kind == _TALL and not stitch.feet and stitch.passes
    ]


def _skipped(stitch: Stitch) -> int:
    """Chains passed at the hook that no stitch stands on."""
    return stitch.passes - int(any(head.counts for head in stitch.heads))


def _called(stitch: Stitch) -> str:
    """A beginning chain that counts is called by the stitch it stands for."""
    return next((head.stitch for head in stitch.heads if head.stitch), stitch.kind)


def _entry(stitch: Stitch, name: int) -> _Entry:
    """The nodes, places and feet of one movement."""
    chains: list[bool] = []
    places: list[int] = []
    tops: list[int] = []
    for head in stitch.heads:
        number = nodes_made(head)
        if not number:
            continue
        if head.kind is PlaceKind.SPACE:
            chains.extend([True] * number)
        else:
            if head.kind is not PlaceKind.CHAIN:
                tops.append(len(chains))
            chains.append(head.kind is PlaceKind.CHAIN)
        places.append(number)
    return _Entry(name, tuple(chains), tuple(places), tuple(_feet(stitch, tops)))


def nodes_made(head: Place) -> int:
    """How many nodes a head of a stitch is: the chains of a space, else 1 if it counts."""
    if head.kind is PlaceKind.SPACE:
        return max(1, head.chains)
    return int(bool(extent_of(head)))


def _feet(stitch: Stitch, tops: list[int]) -> list[tuple[int, Foot]]:
    """Each foot with the top that stands on it."""
    feet = stitch.feet
    if not tops:
        return []
    if not feet:
        stands = stitch.kind == _TALL
        return [(tops[0], Foot(max(0, stitch.passes - 1)))] if stands else []
    if len(feet) == len(tops):
        return list(zip(tops, feet, strict=True))
    if len(feet) == 1:
        return [(top, feet[0]) for top in tops]
    return [(tops[0], foot) for foot in feet]
