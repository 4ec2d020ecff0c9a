"""The rows of a pattern laid one on the other, piece by piece.

A piece begins where a foundation chain or a ring is made, and goes on as long as rows are
worked into edges of its own: its last row, one that was left earlier, the underside of its
foundation, the ends of its rows. A row that stands on none of these is not laid, nor is
what follows it, and that is said.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from functools import cache

import numpy as np
from msgspec import Struct, field

from hookwright.notation.tree import Definition
from hookwright.progress import Progress, tell
from hookwright.shape.columns import (
    Columns,
    Places,
    TooLarge,
    Whole,
    before,
    places_of,
    ranges,
)
from hookwright.shape.graph import FabricGraph, Laid
from hookwright.shape.mesh import Base, Mesh
from hookwright.shape.row_words import RowWords
from hookwright.sizing.guessing import usual_heights
from hookwright.working.fabric import Edge, PlaceKind
from hookwright.working.outcome import Outcome, WorkedPattern
from hookwright.working.row import WorkedRow
from hookwright.working.steps import row_name
from hookwright.working.stitches import base_of, height

_FOUNDATION = (PlaceKind.CHAIN, PlaceKind.UNDERSIDE)
_ALIKE = 0.1
"""An edge whose number was changed to the printed one is still the row it came from."""


class Heights(Struct, frozen=True):
    """How high stitches stand, in widths of a stitch.

    Attributes:
        of: By the names that the pattern uses.
        usual: Of a name that says nothing of its height: that of the main stitch.
    """

    of: Mapping[str, float]
    usual: float


class Piece(Struct, frozen=True, eq=False):
    """A piece as a graph.

    Attributes:
        part: The number of the part of its first row.
        graph: Its stitches.
        outcomes: The rows laid, in working order.
        reason: Why its later rows were not laid; "" where all were.
    """

    part: int
    graph: FabricGraph
    outcomes: tuple[Outcome, ...]
    reason: str = ""


def heights_in(worked: WorkedPattern, size: int, scale: float = 1.0) -> Heights:
    """The heights of all stitches of a pattern.

    Args:
        worked: The pattern.
        size: Which of its sizes.
        scale: By what the usual heights are taken higher, where a gauge tells it.
    """
    own = {name: d for d in worked.pattern.definitions for name in d.names}
    kinds: dict[str, int] = {}
    for outcome in worked.sizes[size].outcomes:
        found = outcome.worked.row.kinds() if outcome.worked is not None else {}
        for name, number in found.items():
            kinds[name] = kinds.get(name, 0) + (number if isinstance(number, int) else 0)
    known = {name: h for name in kinds if (h := _height(name, own, worked.terms))}
    main = max(known, key=lambda name: kinds[name], default="")
    usual = known.get(main, float(usual_heights()[1]))
    return Heights({name: scale * high for name, high in known.items()}, scale * usual)


def _height(name: str, own: Mapping[str, Definition], terms: str) -> float:
    """The usual height of a stitch; 0 where its name tells none."""
    usual = usual_heights()
    if base_of(name).startswith("sl st"):
        return float(usual[0])
    definition = own.get(name)
    if definition is not None and definition.stitch:
        name = definition.stitch
    chains = _turning_chain(name, terms)
    return float(usual.get(chains, 0)) if chains else 0.0


@cache
def _turning_chain(name: str, terms: str) -> int:
    return height(base_of(name), terms) if base_of(name) in _PLAIN else 0


_PLAIN = frozenset("sc hdc dc tr dtr trtr htr esc edc".split())
"""Stitches whose turning chain tells their height; "shell" or "st" tell none."""


class _Edge(Struct, frozen=True, eq=False):
    """An edge of a piece that a row may be worked into.

    Attributes:
        edge: As the working has it.
        nodes: Its nodes in that order.
        first: Where each of its places begins among them.
        number: How many nodes each place has.
        direction: That of a row worked into it.
    """

    edge: Edge
    nodes: Whole
    first: Whole
    number: Whole
    direction: int

    def turned(self) -> _Edge:
        """The edge read from its other end, as it lies after turning."""
        total = len(self.nodes)
        return _Edge(
            self.edge.turned(),
            self.nodes[::-1],
            (total - self.first - self.number)[::-1],
            self.number[::-1],
            -self.direction,
        )

    def last(self, places: int, edge: Edge) -> _Edge:
        """Its last places, as an edge of their own."""
        kept = len(self.number) - places
        start = int(self.first[kept]) if places else len(self.nodes)
        return _Edge(
            edge,
            self.nodes[start:],
            self.first[kept:] - start,
            self.number[kept:],
            self.direction,
        )


class _Growing(Struct):
    """A piece in the making.

    Attributes:
        mesh: Its rows.
        part: The part it begins in.
        chains: The nodes of its foundation from the hook's end; none for a ring.
        edges: What may be worked into, the newest last.
        outcomes: The rows laid.
        reason: Why no more are.
    """

    mesh: Mesh
    part: int
    chains: Whole
    edges: list[_Edge] = field(default_factory=list)
    outcomes: list[Outcome] = field(default_factory=list)
    reason: str = ""

    def piece(self) -> Piece:
        """The piece as far as it was laid."""
        return Piece(self.part, self.mesh.graph(), tuple(self.outcomes), self.reason)


def pieces_laid(
    outcomes: Sequence[Outcome], heights: Heights, progress: Progress | None = None
) -> Iterator[Piece]:
    """The pieces of a pattern in one size, each as a graph.

    Raises:
        Cancelled: When `progress`, told before each row, answers False.
    """
    growing: _Growing | None = None
    words = RowWords()
    for number, outcome in enumerate(outcomes):
        tell(progress, number / len(outcomes))
        if outcome.worked is None:
            if growing is not None and outcome.is_open:
                growing.reason = growing.reason or _not_told(outcome)
            continue
        begun = _begins(outcome, outcome.worked, growing)
        if begun:
            if growing is not None:
                yield growing.piece()
            growing = _Growing(Mesh(), outcome.step.part, np.zeros(0, dtype=np.int64))
        if growing is not None and not growing.reason:
            _lay(growing, outcome, outcome.worked, heights, words, begun=begun)
    if growing is not None:
        yield growing.piece()


def _not_told(outcome: Outcome) -> str:
    return f"{row_name(outcome.step)} is not told stitch by stitch."


def _begins(outcome: Outcome, worked: WorkedRow, growing: _Growing | None) -> bool:
    """Whether a row begins a piece: on a new chain or in a ring."""
    if growing is None:
        return True
    kinds = _kinds(worked.over)
    if PlaceKind.RING in kinds:
        return True
    if kinds == {PlaceKind.CHAIN}:
        return not any(found.edge == worked.over for found in growing.edges)
    # What stands on nothing, in a part of its own, does not go on from a piece given up.
    before = growing.outcomes[-1].step.part if growing.outcomes else growing.part
    return not kinds and bool(growing.reason) and outcome.step.part != before


def _kinds(edge: Edge) -> set[PlaceKind]:
    try:
        return set(places_of(edge).kinds)
    except TooLarge:
        return set()


def _lay(
    growing: _Growing,
    outcome: Outcome,
    worked: WorkedRow,
    heights: Heights,
    words: RowWords,
    *,
    begun: bool,
) -> None:
    """Lays a row, or says why it cannot be."""
    try:
        columns = words.columns(outcome, worked)
        found = _base(growing, worked, columns, begun=begun)
        if found is None:
            growing.reason = f"{row_name(outcome.step)} stands on no edge that was laid."
            return
        base, direction = found
        laid = growing.mesh.row_on(
            base,
            columns,
            heights.of,
            heights.usual,
            closed=worked.edge.closed,
            direction=direction,
            whole=not worked.left,
            label=row_name(outcome.step),
        )
    except TooLarge:
        growing.reason = f"{row_name(outcome.step)} makes the piece too large to lay out."
        return
    growing.outcomes.append(outcome)
    _keep(growing, outcome, worked, columns, laid, base)


def _keep(
    growing: _Growing,
    outcome: Outcome,
    worked: WorkedRow,
    columns: Columns,
    laid: Laid,
    base: Base,
) -> None:
    """Keeps the edges that a row leaves: what it did not reach, and its own."""
    if worked.left and not base.ring:
        rest = places_of(worked.rest)
        whole = _Edge(worked.over, base.nodes, base.first, base.number, laid.direction)
        if len(rest.units) <= len(base.units):
            growing.edges.append(whole.last(len(rest.units), worked.rest))
    edge = _Edge(
        worked.edge,
        laid.nodes,
        columns.place_first,
        columns.place_nodes,
        laid.direction,
    )
    growing.edges.extend((edge, edge.turned()) if outcome.turned else (edge.turned(), edge))


def _base(
    growing: _Growing, worked: WorkedRow, columns: Columns, *, begun: bool
) -> tuple[Base, int] | None:
    """The edge that a row is laid on, and the direction it is worked in."""
    places = places_of(worked.over)
    if begun and (places.in_ring or not len(places.units)):
        return _on_ring(growing.mesh), 1
    if begun:
        return _on_chain(growing, worked, places, columns), 1
    main, direction = _main(growing, worked, places)
    if main is None:
        return None
    return _with_sides(growing, worked, places, main, direction)


def _on_ring(mesh: Mesh) -> Base:
    one = np.ones(1, dtype=np.int64)
    return Base(mesh.ring(), np.zeros(1, dtype=np.int64), one, one, closed=True, ring=True)


def _on_chain(
    growing: _Growing, worked: WorkedRow, places: Places, columns: Columns
) -> Base:
    """A new foundation; chains skipped at the hook stand up and are no part of the edge.

    A round along both sides of the chain comes to its underside from the far end.
    """
    chains = places.number(PlaceKind.CHAIN) or places.number(PlaceKind.UNDERSIDE)
    closed = worked.over.closed
    skipped = 0 if closed else min(columns.skipped, chains - 1)
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


def _main(growing: _Growing, worked: WorkedRow, places: Places) -> tuple[_Edge | None, int]:
    """The edge that a row was left to work into, without the sides laid in."""
    if not growing.edges:
        return None, 1
    for found in reversed(growing.edges):
        if found.edge == worked.over:
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
    for found in reversed(growing.edges):
        if len(found.number) == number:
            return found, found.direction
    own = len(newest.number)
    alike = abs(own - number) <= max(2, _ALIKE * own)
    return (newest, newest.direction) if own and alike else (None, 1)


def _unturned(growing: _Growing) -> _Edge | None:
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
    growing: _Growing, worked: WorkedRow, places: Places, main: _Edge, direction: int
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


def _fitted(edge: _Edge, number: int) -> _Edge:
    """An edge with another number of places, each the one that lies there on the old."""
    own = len(edge.number)
    if own == number or not own or not number:
        return edge
    at = np.arange(number) * own // number
    each = edge.number[at]
    nodes = edge.nodes[ranges(edge.first[at], each)]
    return _Edge(edge.edge, nodes, before(each), each, edge.direction)
