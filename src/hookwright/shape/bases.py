"""On which nodes of a piece is a row laid?

On its last row, on an edge that was left earlier, on a new foundation or a ring, along the
underside of its foundation and the ends of its rows.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import Enum

import numpy as np
from msgspec import Struct, field

from hookwright.shape.columns import Columns, Whole, before, ranges
from hookwright.shape.feet import Base
from hookwright.shape.mesh import Mesh
from hookwright.shape.places import Places, places_of
from hookwright.working.fabric import Edge, PlaceKind
from hookwright.working.outcome import Outcome
from hookwright.working.row import WorkedRow

_ALIKE = 0.1
"""An edge whose number was changed to the printed one is still the row it came from."""


class LaidEdge(Struct, frozen=True, eq=False):
    """An edge of a piece that a row may be worked into.

    Attributes:
        edge: As the working has it.
        nodes: Its nodes in that order.
        first: Where each of its places begins among them.
        number: How many nodes each place has.
        direction: That of a row worked into it.
        made: Its number among the edges made; both ways to read one have the same.
    """

    edge: Edge
    nodes: Whole
    first: Whole
    number: Whole
    direction: int
    made: int = 0

    def turned(self) -> LaidEdge:
        """The edge read from its other end, as it lies after turning."""
        total = len(self.nodes)
        return LaidEdge(
            self.edge.turned(),
            self.nodes[::-1],
            (total - self.first - self.number)[::-1],
            self.number[::-1],
            -self.direction,
            self.made,
        )

    def last(self, places: int, edge: Edge, made: int) -> LaidEdge:
        """Its last places, as an edge of their own."""
        kept = len(self.number) - places
        start = int(self.first[kept]) if places else len(self.nodes)
        return LaidEdge(
            edge,
            self.nodes[start:],
            self.first[kept:] - start,
            self.number[kept:],
            self.direction,
            made,
        )


class Growing(Struct):
    """The rows of a piece so far, and what may be worked into.

    Attributes:
        mesh: The rows.
        part: The part it begins in.
        chains: The nodes of its foundation from the hook's end; none for a ring.
        edges: What may be worked into, the newest last.
        worked_into: The numbers of those that a row was worked into.
        made: How many edges were made.
        outcomes: The rows laid.
        reason: Why no more are.
        described: Whether it goes round a piece that the text only describes.
        begins: The name of the row it begins with, where its part has an earlier piece.
    """

    mesh: Mesh
    part: int
    chains: Whole
    edges: list[LaidEdge] = field(default_factory=list)
    worked_into: set[int] = field(default_factory=set)
    made: int = 0
    outcomes: list[Outcome] = field(default_factory=list)
    reason: str = ""
    described: bool = False
    begins: str = ""

    def keep(self, edge: LaidEdge, *, turned: bool) -> None:
        """Keeps an edge; the way it is read next stands last."""
        ways = (edge, edge.turned())
        self.edges.extend(ways if turned else ways[::-1])

    def number_of_edge(self) -> int:
        """The number of an edge to be made."""
        self.made += 1
        return self.made


class Begins(Enum):
    """What the first row of a piece is worked into."""

    NEW = "a new chain or ring"
    ON_OTHERS = "edges of pieces before it"


def goes_round_others(growing: Growing, outcome: Outcome, worked: WorkedRow) -> bool:
    """Whether a round goes on from pieces laid by themselves: two legs, or a thumb hole."""
    if not worked.edge.closed or growing.reason or not growing.outcomes:
        return False
    places = places_of(worked.over)
    longest = max((len(edge.number) for edge in growing.edges), default=0)
    elsewhere = outcome.step.part != growing.outcomes[-1].step.part
    if not elsewhere and len(places.units) <= _BOTH * longest:
        return False
    main, direction = _main(growing, worked, places)
    return main is None or _with_sides(growing, worked, places, main, direction) is None


_BOTH = 1.25
"""Times as many places as the longest edge of a piece: what goes round two of them."""


def base_of_row(
    growing: Growing, worked: WorkedRow, columns: Columns, begins: Begins | None
) -> tuple[Base, int] | None:
    """The edge that a row is laid on, and the direction it is worked in."""
    places = places_of(worked.over)
    begun = begins is not None
    if begins is Begins.ON_OTHERS:
        return _on_described(growing, worked, places), 1
    if begun and (places.in_ring or not len(places.units)):
        return _on_ring(growing.mesh), 1
    if begun:
        return _on_chain(growing, worked, places, columns), 1
    spread = _spread_round_ends(growing, worked, columns)
    if spread is not None:
        return spread, growing.edges[-1].direction
    main, direction = _main(growing, worked, places)
    if main is None:
        return None
    growing.worked_into.add(main.made)
    return _with_sides(growing, worked, places, main, direction)


def _on_ring(mesh: Mesh) -> Base:
    one = np.ones(1, dtype=np.int64)
    return Base(mesh.ring(), np.zeros(1, dtype=np.int64), one, one, closed=True, ring=True)


def _on_chain(
    growing: Growing, worked: WorkedRow, places: Places, columns: Columns
) -> Base:
    """A new foundation; chains skipped at the hook stand up and are no part of the edge.

    A round along both sides of the chain comes to its underside from the far end. An edge
    that is only described is laid as a chain of as many places.
    """
    if not {PlaceKind.CHAIN, PlaceKind.UNDERSIDE} & set(places.kinds) or (
        PlaceKind.ROW_END in places.kinds
    ):
        growing.described = len(places.kinds) > 1
        return _on_described(growing, worked, places)
    chains = places.number(PlaceKind.CHAIN) or places.number(PlaceKind.UNDERSIDE)
    closed = worked.over.closed
    skipped = 0 if closed else max(0, min(columns.skipped, chains - 1))
    nodes = growing.mesh.foundation(chains - skipped, closed=closed)
    growing.chains = nodes
    along = np.concatenate([np.repeat(nodes[:1], skipped), nodes])
    under = places.number(PlaceKind.UNDERSIDE) if places.number(PlaceKind.CHAIN) else 0
    if under:
        along = np.concatenate([along, nodes[::-1][:under]])
    elif worked.edge.closed and not closed:
        # The last chain is worked into round its end: its underside is used with it.
        under = max(0, columns.used - chains)
        along = np.concatenate([along, nodes[-2::-1][:under]])
    one = np.ones(len(along), dtype=np.int64)
    start = worked.start if isinstance(worked.start, int) else 0
    return Base(along, np.arange(len(along)), one, one, closed or under > 0, start=start)


def is_spread(growing: Growing, worked: WorkedRow, columns: Columns) -> bool:
    """Whether a round is spread along the sides of rows, not worked into the last of them.

    "Evenly around" has no places to count: it is worked out as standing on none, or as
    several in each stitch that there is, more than fabric can take.
    """
    if not worked.edge.closed or not growing.edges or not columns.size:
        return False
    rows = [course for course in growing.mesh.courses if course.row]
    several = not len(columns.foot_node) or columns.size >= _SEVERAL * columns.used
    return several and len(rows) >= _SEVERAL and not any(row.closed for row in rows)


_SEVERAL = 3
"""Stitches in every place of a round, from which it is spread along an edge."""


def _spread_round_ends(
    growing: Growing, worked: WorkedRow, columns: Columns
) -> Base | None:
    """Along the ends of the rows, or all round them: whichever is about as long."""
    if not is_spread(growing, worked, columns):
        return None
    mesh, number = growing.mesh, columns.size
    rows = [course for course in mesh.courses if course.row]
    direction = growing.edges[-1].direction
    near = _row_ends(mesh, len(rows), direction, 0)
    far = _row_ends(mesh, len(rows), direction, 1)
    if near is None or far is None:
        return None
    side = sum(row.height for row in rows)
    around = 2 * (side + rows[-1].number)
    nodes = near
    if abs(np.log(number / around)) < abs(np.log(number / max(side, 1.0))):
        last = growing.edges[-1].nodes
        nodes = np.concatenate([last, near, growing.chains[::-direction], far])
    own = nodes[np.arange(number) * len(nodes) // number]
    one = np.ones(number, dtype=np.int64)
    return Base(own, np.arange(number), one, one, closed=True)


def _on_described(growing: Growing, worked: WorkedRow, places: Places) -> Base:
    """The edge of pieces that are only described, or laid apart, as a chain of its own."""
    closed = worked.edge.closed
    nodes = growing.mesh.foundation(len(places.units), closed=closed)
    growing.chains = nodes
    start = worked.start if isinstance(worked.start, int) else 0
    one = np.ones(len(nodes), dtype=np.int64)
    return Base(nodes, np.arange(len(nodes)), one, places.units, closed, start=start)


def _main(
    growing: Growing, worked: WorkedRow, places: Places
) -> tuple[LaidEdge | None, int]:
    """The edge that a row was left to work into, without the sides laid in.

    An edge that was worked into already is taken only where nothing else is like the one
    wanted: after a count that was changed, rows before the last may be equal to it as well.
    """
    if not growing.edges:
        return None, 1
    unused = [one for one in growing.edges if one.made not in growing.worked_into]
    found = _equal(unused, worked.over)
    if found is not None:
        return found, found.direction
    newest = growing.edges[-1]
    sides = places.number(PlaceKind.UNDERSIDE) + places.number(PlaceKind.ROW_END)
    number = len(places.units) - sides
    if sides and places.kinds[int(places.kind[0])] is PlaceKind.ROW_END:
        # Down a side from the hook is only to be worked where the piece is not turned.
        newest = _unturned(growing) or newest
        if len(newest.number) == number:
            return newest, newest.direction
    if not number:
        return newest, newest.direction
    own = len(newest.number)
    alike = own > 0 and abs(own - number) <= max(2, _ALIKE * own)
    if alike and newest.made not in growing.worked_into:
        return newest, newest.direction
    found = _equal(growing.edges, worked.over) or next(
        (one for one in reversed(growing.edges) if len(one.number) == number), None
    )
    if found is not None:
        return found, found.direction
    return (newest, newest.direction) if alike else (None, 1)


def _equal(edges: Sequence[LaidEdge], wanted: Edge) -> LaidEdge | None:
    """The newest edge that is the one wanted."""
    return next((one for one in reversed(edges) if one.edge == wanted), None)


def _unturned(growing: Growing) -> LaidEdge | None:
    """The edge that the last row left, as that row was worked."""
    last = growing.mesh.courses[-1]
    return next(
        (
            found
            for found in reversed(growing.edges)
            if found.direction == last.direction
            and len(found.nodes)
            and found.nodes[0] == last.first
        ),
        None,
    )


def _with_sides(
    growing: Growing, worked: WorkedRow, places: Places, main: LaidEdge, direction: int
) -> tuple[Base, int] | None:
    """The base of a row: each stretch of its edge in order, the sides among them."""
    closed = worked.edge.closed
    start = worked.start if isinstance(worked.start, int) else 0
    kinds = [places.kinds[kind] for kind in range(len(places.kinds))]
    sides = {PlaceKind.UNDERSIDE, PlaceKind.ROW_END} & set(kinds)
    if not sides:
        fitted = _fitted(main, len(places.units))
        base = Base(
            fitted.nodes, fitted.first, fitted.number, places.units, closed, start=start
        )
        return base, direction
    nodes: list[Whole] = []
    number: list[Whole] = []
    own = len(places.units) - sum(places.number(kind) for kind in sides)
    fitted = _fitted(main, own)
    if not own:
        direction = 1 if PlaceKind.UNDERSIDE in sides else direction
    used, ends_met = 0, 0
    begins = np.flatnonzero(np.append(True, np.diff(places.kind) != 0))
    lengths = np.diff(np.append(begins, len(places.kind)))
    for begin, length in zip(begins.tolist(), lengths.tolist(), strict=True):
        kind = kinds[int(places.kind[begin])]
        if kind is PlaceKind.UNDERSIDE:
            stretch = _sampled(growing.chains[::-direction], length, keep=True)
        elif kind is PlaceKind.ROW_END:
            stretch = _row_ends(growing.mesh, length, direction, ends_met)
            ends_met += 1
        else:
            at = ranges(
                fitted.first[used : used + length], fitted.number[used : used + length]
            )
            nodes.append(fitted.nodes[at])
            number.append(fitted.number[used : used + length])
            used += length
            continue
        if stretch is None:
            return None
        nodes.append(stretch)
        number.append(np.ones(length, dtype=np.int64))
    each = np.concatenate(number)
    base = Base(
        np.concatenate(nodes), before(each), each, places.units, closed, start=start
    )
    return base, direction


def _sampled(nodes: Whole, number: int, *, keep: bool = False) -> Whole | None:
    """So many nodes out of some: the first of them, or spread evenly over all."""
    if not len(nodes):
        return None
    if keep:
        return nodes[np.minimum(np.arange(number), len(nodes) - 1)]
    return nodes[(np.arange(number) * len(nodes)) // number]


def _row_ends(mesh: Mesh, number: int, direction: int, met: int) -> Whole | None:
    """The ends of rows: down the side that is come to first, up the other one."""
    rows = [c for c in mesh.courses if not c.closed and c.number]
    if len(rows) < 2:
        return None
    far = [  # where a row ends that is worked in this direction
        c.first + c.number - 1 if c.direction == direction else c.first for c in rows
    ]
    near = [c.first if c.direction == direction else c.first + c.number - 1 for c in rows]
    if met == 0:
        return _sampled(np.array(far[-2::-1], dtype=np.int64), number)
    return _sampled(np.array(near[1:], dtype=np.int64), number)


def _fitted(edge: LaidEdge, number: int) -> LaidEdge:
    """An edge with another number of places, each the one that lies there on the old."""
    own = len(edge.number)
    if own == number or not own or not number:
        return edge
    at = np.arange(number) * own // number
    each = edge.number[at]
    nodes = edge.nodes[ranges(edge.first[at], each)]
    return LaidEdge(edge.edge, nodes, before(each), each, edge.direction)
