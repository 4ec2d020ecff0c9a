"""Rows laid one on the other: which node stands on which, and what lies between.

Where a stitch stands in a chain space, it stands on the middle chain of the arc; of an even
number of chains the first half of a group stands on the one of the two middle chains, the
rest on the other. A stitch in the gap between two others stands on both. Crossed stitches
are laid as if they were not: the feet of a row, put in order, are given to its stitches in
order. A stitch that reaches rows down is laid over the place it covers, and keeps its long
leg as an overlay.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from msgspec import Struct, field

from hookwright.shape.columns import (
    MOST_STITCHES,
    Columns,
    Real,
    TooLarge,
    Truth,
    Whole,
    before,
    heights_of,
    ranges,
)
from hookwright.shape.graph import FabricGraph, Joint, Laid, Parts, Polygons, graph_of

CHAIN_TO_CHAIN = 0.85
CHAIN_TO_STITCH = 0.88
"""How far a chain takes the row on, in widths of a stitch. Source: judged from lace that
was worked and measured; common practice, no handbook gives it."""
_HALF = 0.5
_FEW = 2
"""Places left at the end of a row that its turning chain draws in with the end stitch."""


class Base(Struct, frozen=True, eq=False):
    """The edge that a row is laid on.

    Attributes:
        nodes: (b,) its nodes, in the order the row comes to them.
        first: (p,) where among these each of its places begins.
        number: (p,) how many of them each place has.
        units: (p,) the `extent` of each place.
        closed: Whether its last place is followed by the first.
        ring: Whether it is the centre of a ring, one node for any number of stitches.
        start: How much of it lies before the first stitch.
    """

    nodes: Whole
    first: Whole
    number: Whole
    units: Whole
    closed: bool = False
    ring: bool = False
    start: int = 0


class Mesh(Struct):
    """A piece in the making: its rows so far.

    Attributes:
        names: The stitches that occur, with their numbers.
        yarns: The yarns that are named, with their numbers.
        size: How many nodes there are.
        courses: The rows, the foundation or ring first.
    """

    names: dict[str, int] = field(default_factory=dict)
    yarns: dict[str, int] = field(default_factory=dict)
    size: int = 0
    courses: list[Laid] = field(default_factory=list)
    name: list[Whole] = field(default_factory=list)
    row: list[Whole] = field(default_factory=list)
    span: list[Whole] = field(default_factory=list)
    edge: list[Whole] = field(default_factory=list)
    length: list[Real] = field(default_factory=list)
    joint: list[Whole] = field(default_factory=list)
    cell_node: list[Whole] = field(default_factory=list)
    cell_sides: list[Whole] = field(default_factory=list)
    cell_solid: list[Truth] = field(default_factory=list)
    overlay: list[Whole] = field(default_factory=list)
    standing: list[tuple[Whole, Whole]] = field(default_factory=list)
    is_chain: list[Truth] = field(default_factory=list)
    stands: list[Truth] = field(default_factory=list)
    yarn: list[Whole] = field(default_factory=list)
    leg_into: list[Whole] = field(default_factory=list)

    def graph(self) -> FabricGraph:
        """The piece as a graph."""
        return graph_of(
            Parts(
                names=tuple(self.names),
                name=_joined(self.name),
                row=_joined(self.row),
                span=_joined(self.span).reshape(-1, 2),
                edge=_joined(self.edge).reshape(-1, 2),
                length=np.concatenate([np.zeros(0), *self.length]),
                joint=_joined(self.joint),
                polygons=Polygons(
                    _joined(self.cell_node),
                    _joined(self.cell_sides),
                    np.concatenate([np.zeros(0, dtype=bool), *self.cell_solid]),
                ),
                overlay=_joined(self.overlay).reshape(-1, 2),
                courses=tuple(self.courses),
                is_chain=np.concatenate([np.zeros(0, dtype=bool), *self.is_chain]),
                stands=np.concatenate([np.zeros(0, dtype=bool), *self.stands]),
                yarns=tuple(self.yarns),
                yarn=_joined(self.yarn),
                leg=_joined([np.stack(pair, axis=1) for pair in self.standing]).reshape(
                    -1, 2
                ),
                leg_into=_joined(self.leg_into),
            )
        )

    def foundation(self, number: int, *, closed: bool = False) -> Whole:
        """Lays a foundation chain, as long as the stitches worked into it.

        Returns:
            (number,) its nodes from the hook's end.
        """
        nodes = self._nodes(np.full(number, self._named("ch")), 0)
        self._chain_up(nodes, np.ones(number), closed=closed)
        self.courses.append(Laid(int(nodes[0]), number, closed, 1, 0.0, 0))
        return nodes

    def ring(self) -> Whole:
        """Lays the centre of a ring, as an array of one node."""
        nodes = self._nodes(np.full(1, self._named("ring")), 0)
        self.courses.append(
            Laid(int(nodes[0]), 1, closed=True, direction=1, height=0, row=0)
        )
        return nodes

    def row_on(
        self,
        base: Base,
        columns: Columns,
        heights: Mapping[str, float],
        usual: float,
        *,
        closed: bool,
        direction: int,
        whole: bool = True,
        width: float = 1.0,
        label: str = "",
    ) -> Laid:
        """Lays a row or round on an edge.

        Args:
            base: The edge.
            columns: The row.
            heights: The heights of stitches by name, in widths.
            usual: The height of any other.
            closed: Whether its end meets its beginning.
            direction: 1 or -1, see `Laid`.
            whole: Whether it works the edge to its end: no place is left for later.
            width: How wide its stitches are, against those of the piece.
            label: What the text calls it.

        Raises:
            TooLarge: With more nodes than are laid out.
        """
        number = len([course for course in self.courses if course.row]) + 1
        names = np.array([self._named(name) for name in columns.names], dtype=np.int64)
        kinds = names[columns.name] if columns.size else columns.name
        nodes = self._nodes(kinds, number, columns)
        between = np.where(columns.is_chain, CHAIN_TO_CHAIN, 1.0)
        self._chain_up(nodes, between, closed=closed, width=width)
        tall = heights_of(columns, heights, usual)
        feet = _feet_on(base, columns, closed=closed)
        if (closed and base.closed) or base.ring:
            pass
        elif whole:
            feet = _with_ends(feet, len(base.nodes))
        stands = np.zeros(columns.size, dtype=bool)
        stands[feet.node] = True
        mean = float(tall[stands].mean()) if stands.any() else 0.0
        if len(feet.node):
            self._stand(base, nodes, feet, tall, closed=closed, direction=direction)
        self._hang_over(base, nodes, columns, feet)
        laid = Laid(
            int(nodes[0]) if len(nodes) else self.size,
            columns.size,
            closed,
            direction,
            mean,
            number,
            label,
        )
        self.courses.append(laid)
        return laid

    def _named(self, name: str) -> int:
        return self.names.setdefault(name, len(self.names))

    def _nodes(self, kinds: Whole, row: int, columns: Columns | None = None) -> Whole:
        number = len(kinds)
        if self.size + number > MOST_STITCHES:
            raise TooLarge
        nodes = np.arange(self.size, self.size + number)
        self.size += number
        self.name.append(kinds)
        self.row.append(np.full(number, row))
        if columns is None:
            self.span.append(np.full((number, 2), -1))
            self.is_chain.append(np.full(number, number > 1))
            self.stands.append(np.zeros(number, dtype=bool))
            self.yarn.append(np.full(number, -1))
            return nodes
        self.span.append(columns.span)
        self.is_chain.append(columns.is_chain)
        self.stands.append(columns.stands)
        numbers = [self.yarns.setdefault(name, len(self.yarns)) for name in columns.yarns]
        self.yarn.append(np.array([*numbers, -1])[columns.yarn])
        return nodes

    def _chain_up(
        self, nodes: Whole, own: Real, *, closed: bool, width: float = 1.0
    ) -> None:
        """Joins the nodes of a row one to the next; `own` is 1 for a stitch."""
        number = len(nodes)
        if number < 2:
            return
        following = np.roll(np.arange(number), -1)
        at = np.arange(number if closed and number > 2 else number - 1)
        one, other = own[at], own[following[at]]
        length = np.where(one == other, one, CHAIN_TO_STITCH)
        self._join(nodes[at], nodes[following[at]], width * length, Joint.ROW)

    def _join(self, one: Whole, other: Whole, length: Real, joint: Joint) -> None:
        self.edge.append(np.stack([one, other], axis=1))
        self.length.append(length)
        self.joint.append(np.full(len(one), int(joint)))

    def _stand(
        self,
        base: Base,
        nodes: Whole,
        feet: _Feet,
        tall: Real,
        *,
        closed: bool,
        direction: int,
    ) -> None:
        """The legs of a row, and the cells between them."""
        under = base.nodes[feet.at % len(base.nodes)]
        top = nodes[feet.node]
        leg = np.hypot(tall[feet.node], np.where(feet.gap, _HALF, 0.0))
        self._join(top, under, leg, Joint.STITCH)
        self.standing.append((top, base.nodes[feet.worked % len(base.nodes)]))
        self.leg_into.append(feet.into)
        node, first = np.unique(feet.node, return_index=True)
        last = np.append(first[1:], len(feet.at)) - 1
        low, high = feet.at[first], feet.at[last]
        one, other = np.arange(len(node) - 1), np.arange(1, len(node))
        step_on = np.zeros(len(one), dtype=np.int64)
        if closed and len(node) > 1:
            one, other = np.append(one, len(node) - 1), np.append(other, 0)
            turn = 0 if base.ring else len(base.nodes)
            step_on = np.append(step_on, turn)
        along = low[other] + step_on - high[one]
        across = (node[other] - node[one]) % len(nodes)
        straight = self._straight(base, high[one], along, across)
        if straight.any():
            self._bridged(
                base, nodes, high[one], along, node[one], tall, straight, direction
            )
        between = np.flatnonzero((along >= 0) & ~straight)
        self._cells(
            base, nodes, high[one[between]], along[between], node[one[between]],
            across[between], direction,
        )  # fmt: skip
        inner = np.flatnonzero(np.diff(feet.node) == 0)
        reach = feet.at[inner + 1] - feet.at[inner]
        kept = inner[reach > 0]
        self._cells(
            base, nodes, feet.at[kept], reach[reach > 0], feet.node[kept],
            np.zeros(len(kept), dtype=np.int64), direction,
        )  # fmt: skip

    def _straight(self, base: Base, start: Whole, along: Whole, across: Whole) -> Truth:
        """Whether chains go straight over as many places, so that no arc comes about.

        So they do over skipped stitches, as in moss, and from stitch to stitch, as in
        filet; from the middle of one chain space to that of the next they hang in arcs.
        """
        straight: Truth = (along == across) & (along > 1)
        if not straight.any():
            return straight
        chain = np.concatenate(self.is_chain)[base.nodes]
        chain &= np.concatenate(self.row)[base.nodes] > 0
        at = np.flatnonzero(straight)
        inner = chain[ranges(start[at] + 1, along[at] - 1) % len(chain)]
        within = np.logical_or.reduceat(inner, before(along[at] - 1))
        ends = chain[start[at] % len(chain)] | chain[(start + along)[at] % len(chain)]
        straight[at] = ~(within & ends)
        return straight

    def _bridged(
        self,
        base: Base,
        nodes: Whole,
        start: Whole,
        along: Whole,
        top: Whole,
        tall: Real,
        straight: Truth,
        direction: int,
    ) -> None:
        """Chains straight over some places, each held over its own as high as a stitch."""
        at = np.flatnonzero(straight)
        step = ranges(np.zeros(len(at), dtype=np.int64), along[at])
        under = np.repeat(start[at], along[at]) + step
        over = np.repeat(top[at], along[at]) + step
        high = np.repeat(tall[top[at]], along[at])
        kept = step > 0
        one = np.ones(len(under), dtype=np.int64)
        self._join(
            nodes[over[kept] % len(nodes)],
            base.nodes[under[kept] % len(base.nodes)],
            high[kept],
            Joint.STITCH,
        )
        self._cells(base, nodes, under, one, over, one, direction)

    def _cells(
        self,
        base: Base,
        nodes: Whole,
        start: Whole,
        along: Whole,
        top: Whole,
        across: Whole,
        direction: int,
    ) -> None:
        """Cells over `along` places from `start`, under `across` nodes from `top`."""
        if not len(start):
            return
        below = base.nodes[ranges(start, along + 1) % len(base.nodes)]
        above = nodes[ranges(top, across + 1) % len(nodes)]
        sides = along + across + 2
        begin = before(sides)
        # Anticlockwise, and the tops first: as they are worked, then the places below them
        # back again; a row worked the other way is seen mirrored.
        tops = ranges(begin, across + 1)
        places = ranges(begin + across + 1, along + 1)
        if direction > 0:
            places = _backwards(begin + across + 1, along + 1)
        else:
            tops = _backwards(begin, across + 1)
        node = np.zeros(int(sides.sum()), dtype=np.int64)
        node[tops], node[places] = above, below
        self.cell_node.append(node)
        self.cell_sides.append(sides)
        plain = (along <= 1) & (across <= 1)
        self.cell_solid.append(plain)

    def _hang_over(self, base: Base, nodes: Whole, columns: Columns, feet: _Feet) -> None:
        """Keeps the long legs of stitches that reach rows down, followed foot by foot."""
        long_ = np.flatnonzero(columns.foot_down > 0)
        if not len(long_) or not len(feet.node):
            return
        at = np.minimum(
            np.searchsorted(feet.node, columns.foot_node[long_]), len(feet.at) - 1
        )
        reached = base.nodes[feet.worked[at] % len(base.nodes)]
        for step in range(int(columns.foot_down[long_].max())):
            further = columns.foot_down[long_] > step
            reached = np.where(further, self._foot_of(reached), reached)
        self.overlay.append(np.stack([nodes[columns.foot_node[long_]], reached], axis=1))

    def _foot_of(self, tops: Whole) -> Whole:
        """The node that each of some tops stands on; the top itself where there is none."""
        own = np.arange(self.size)
        for top, under in self.standing:
            own[top[::-1]] = under[::-1]
        return own[tops]


def _backwards(starts: Whole, lengths: Whole) -> Whole:
    """The stretches of `ranges`, each from its end to its beginning."""
    return np.repeat(2 * starts + lengths - 1, lengths) - ranges(starts, lengths)


class _Feet(Struct, frozen=True, eq=False):
    """Feet in order, by the node they belong to and where on the base they stand.

    Attributes:
        node: (f,) numbers of nodes in the row, never going back.
        at: (f,) numbers of nodes along the base, counted on past its end; never going back.
        gap: (f,) whether the stitch stands beside it, in a gap.
        into: (f,) which part of the place the hook goes under; -1 for no foot of its own.
        worked: (f,) where the hook really goes, as `at`; otherwise where stitches cross.
    """

    node: Whole
    at: Whole
    gap: Truth
    into: Whole
    worked: Whole


def _feet_on(base: Base, columns: Columns, *, closed: bool) -> _Feet:
    """Where the feet of a row stand on its base."""
    order = np.argsort(columns.foot_node, kind="stable")
    node = columns.foot_node[order]
    none = np.zeros(0, dtype=np.int64)
    if not len(base.nodes) or not base.units.sum():
        return _Feet(none, none, none > 0, none, none)
    into = columns.foot_into[order]
    if base.ring:
        zeros = np.zeros(len(node), dtype=np.int64)
        return _Feet(node, zeros, zeros > 0, into, zeros)
    place = _places_of_feet(base, columns, closed=closed)[order]
    gap = columns.foot_gap[order]
    if gap.any():
        node = np.concatenate([node, node[gap]])
        place = np.concatenate([place, place[gap] - 1])
        into = np.concatenate([into, into[gap]])
        gap = np.concatenate([gap, gap[gap]])
        order = np.lexsort((place, node))
        node, place, gap, into = node[order], place[order], gap[order], into[order]
        if not base.closed:
            place = np.maximum(place, 0)
    at = _within_places(base, place)
    return _Feet(node, np.sort(at), gap, into, at)


def _places_of_feet(base: Base, columns: Columns, *, closed: bool) -> Whole:
    """The place of each foot, counted on past the end of a round."""
    number, units = len(base.units), int(base.units.sum())
    starts = before(base.units)
    back = (columns.foot_step < 0) | (columns.foot_again & (columns.foot_step == 0))
    unit = columns.foot_unit + base.start
    seen = unit - back
    turn = np.zeros(len(unit), dtype=np.int64)
    if closed:
        turn, seen = np.divmod(seen, units)
    seen = np.clip(seen, 0, units - 1)
    place: Whole = np.searchsorted(starts, seen, side="right") - 1 + turn * number
    place += np.where(columns.foot_step < 0, columns.foot_step + 1, columns.foot_step)
    if not closed:
        place = np.clip(place, 0, number - 1)
    own = columns.foot_unit[~columns.foot_again]
    if closed and len(own):
        # At the end of a round, a place that is used again is the one it began in.
        begun = np.searchsorted(starts, base.start % units, side="right") - 1
        last = columns.foot_again & (columns.foot_step == 0)
        last &= columns.foot_unit > int(own.max())
        place = np.where(last, number + begun, place)
    return place


def _within_places(base: Base, place: Whole) -> Whole:
    """The node along the base for each place: the middle of a chain space."""
    turn, own = np.divmod(place, len(base.units))
    chains = base.number[own]
    _, which, often = np.unique(place, return_inverse=True, return_counts=True)
    order = np.argsort(which, kind="stable")
    rank = np.zeros(len(place), dtype=np.int64)
    rank[order] = np.arange(len(place)) - np.repeat(before(often), often)
    second = (chains % 2 == 0) & (2 * rank >= often[which])
    inside = (chains - 1) // 2 + second
    at: Whole = turn * len(base.nodes) + base.first[own] + inside
    return at


def _with_ends(feet: _Feet, nodes: int) -> _Feet:
    """The feet of a row to and fro, the end stitches drawn out over what lies beyond."""
    if not len(feet.at):
        return feet
    start, end = int(feet.at[0]), nodes - 1 - int(feet.at[-1])
    head = np.arange(start if 0 < start <= _FEW else 0)
    tail = np.arange(nodes - end, nodes) if 0 < end <= _FEW else np.arange(0)
    if not len(head) and not len(tail):
        return feet
    return _Feet(
        np.concatenate(
            [np.full(len(head), feet.node[0]), feet.node, np.full(len(tail), feet.node[-1])]
        ),
        np.concatenate([head, feet.at, tail]),
        np.concatenate([np.zeros(len(head), bool), feet.gap, np.zeros(len(tail), bool)]),
        np.concatenate([np.full(len(head), -1), feet.into, np.full(len(tail), -1)]),
        np.concatenate([head, feet.worked, tail]),
    )


def _joined(columns: list[Whole]) -> Whole:
    return np.concatenate([np.zeros(0, dtype=np.int64), *(c.ravel() for c in columns)])
