"""Rows laid one on the other: which node stands on which, and what lies between.

A stitch that reaches rows down is laid over the place it covers, and keeps its long leg as
an overlay. One round a post begins down the stitch below, and stands so much lower.
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
)
from hookwright.shape.feet import CHAIN_TO_STITCH, SLIPPED, Base, Feet
from hookwright.shape.graph import FabricGraph, Joint, Laid, Parts, Polygons, graph_of
from hookwright.shape.row_plan import Below, RowPlan, plan_of


class NodeColumn:
    """A column that grows, and that is read at any of its places."""

    def __init__(self) -> None:
        self._room = np.zeros(1024)
        self._size = 0

    def append(self, values: Real) -> None:
        """Adds values; the room doubles where it is used up."""
        end = self._size + len(values)
        if end > len(self._room):
            room = np.zeros(max(end, 2 * len(self._room)))
            room[: self._size] = self._room[: self._size]
            self._room = room
        self._room[self._size : end] = values
        self._size = end

    def at(self, places: Whole) -> Real:
        """The values at some places."""
        found: Real = self._room[places]
        return found


class Mesh(Struct):
    """A piece in the making: its rows so far.

    Attributes:
        names: The stitches that occur, with their numbers.
        yarns: The yarns that are named, with their numbers.
        size: How many nodes there are.
        courses: The rows, the foundation or ring first.
        tall: Of each node the height of its stitch, from foot to top.
        chain_of_row: Of each node 1 where it is a chain of a row.
        plans: How rows were laid, by what they have in common.
        hanging: The chain at the end of the last row, which hangs on nothing yet; -1 for
            none.
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
    cell_angle: list[Real] = field(default_factory=list)
    cell_area: list[Real] = field(default_factory=list)
    overlay: list[Whole] = field(default_factory=list)
    tall: NodeColumn = field(default_factory=NodeColumn)
    chain_of_row: NodeColumn = field(default_factory=NodeColumn)
    plans: dict[object, tuple[RowPlan, Columns, Mapping[str, float]]] = field(
        default_factory=dict
    )
    hanging: int = -1
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
                    np.concatenate([np.zeros(0), *self.cell_angle]),
                    np.concatenate([np.zeros(0), *self.cell_area]),
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
        span: Whole | None = None,
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
            span: (n, 2) where the words of its nodes stand; that of its columns if None.

        Raises:
            TooLarge: With more nodes than are laid out.
        """
        number = self.courses[-1].row + 1 if self.courses else 1
        names = np.array([self._named(name) for name in columns.names], dtype=np.int64)
        kinds = names[columns.name] if columns.size else columns.name
        below = self._below(base)
        nodes = self._nodes(kinds, number, columns, span)
        manner = (usual, closed, direction, whole)
        plan = self._plan(below, columns, heights, manner)
        self._chain_up(nodes, width * plan.along, closed=closed)
        self._follow(plan, base, nodes, columns)
        self.hanging = -1
        if columns.size and not closed and columns.is_chain[-1]:
            self.hanging = int(nodes[-1])
        laid = Laid(
            int(nodes[0]) if len(nodes) else self.size,
            columns.size,
            closed,
            direction,
            plan.height,
            number,
            label,
            tuple((tip - long + 1, long) for tip, _, long in base.tips.tolist()),
            plan.block,
        )
        self.courses.append(laid)
        return laid

    def hold(self, one: int, other: int) -> None:
        """Joins a chain to the stitch that it goes on from."""
        pair = np.array([[one], [other]])
        self._join(pair[0], pair[1], np.full(1, CHAIN_TO_STITCH), Joint.ROW)

    def _below(self, base: Base) -> Below:
        """An edge with what is known of its nodes."""
        hangs = len(base.nodes) > 0 and int(base.nodes[0]) == self.hanging
        laid = base.nodes < self.size
        known = np.where(laid, base.nodes, 0)
        chain = np.where(laid, self.chain_of_row.at(known) > 0, True)  # noqa: FBT003
        return Below(base, np.where(laid, self.tall.at(known), 0.0), chain, hangs)

    def _plan(
        self,
        below: Below,
        columns: Columns,
        heights: Mapping[str, float],
        manner: tuple[float, bool, int, bool],
    ) -> RowPlan:
        """How a row is laid; known where one alike was laid before."""
        key = (id(columns), id(heights), manner, below.likeness())
        known = self.plans.get(key)
        if known is None:
            usual, closed, direction, whole = manner
            plan = plan_of(
                below, columns, heights, usual,
                closed=closed, direction=direction, whole=whole,
            )  # fmt: skip
            # What the key tells apart by its place in memory has to stay there.
            known = self.plans[key] = (plan, columns, heights)
        return known[0]

    def _follow(self, plan: RowPlan, base: Base, nodes: Whole, columns: Columns) -> None:
        """Lays a row as planned."""
        self.tall.append(plan.full)
        self.chain_of_row.append(columns.is_chain.astype(float))
        if len(plan.feet.node):
            own = np.concatenate([base.nodes, nodes])
            self._join(own[plan.leg[:, 0]], own[plan.leg[:, 1]], plan.long, Joint.STITCH)
            under = base.nodes[plan.feet.worked % len(base.nodes)]
            # What only holds two places together is no leg to be drawn.
            apart = (nodes[plan.feet.node] != under) & (plan.feet.reach != SLIPPED)
            self.standing.append((nodes[plan.feet.node][apart], under[apart]))
            self.leg_into.append(plan.feet.into[apart])
            self.cell_node.append(own[plan.cells])
            self.cell_sides.append(plan.sides)
            self.cell_solid.append(plan.solid)
            self.cell_angle.append(plan.angle)
            self.cell_area.append(plan.area)
        self._hang_over(base, nodes, columns, plan.feet)

    def _named(self, name: str) -> int:
        return self.names.setdefault(name, len(self.names))

    def _nodes(
        self,
        kinds: Whole,
        row: int,
        columns: Columns | None = None,
        span: Whole | None = None,
    ) -> Whole:
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
            self.tall.append(np.zeros(number))
            self.chain_of_row.append(np.zeros(number))
            return nodes
        self.span.append(columns.span if span is None else span)
        self.is_chain.append(columns.is_chain)
        self.stands.append(columns.stands)
        numbers = [self.yarns.setdefault(name, len(self.yarns)) for name in columns.yarns]
        self.yarn.append(np.array([*numbers, -1])[columns.yarn])
        return nodes

    def _chain_up(self, nodes: Whole, along: Real, *, closed: bool) -> None:
        """Joins the nodes of a row one to the next, so far apart as is told."""
        number = len(nodes)
        if number < 2:
            return
        at = np.arange(number if closed and number > 2 else number - 1)
        following = np.roll(nodes, -1)
        self._join(nodes[at], following[at], along[at], Joint.ROW)

    def _join(self, one: Whole, other: Whole, length: Real, joint: Joint) -> None:
        self.edge.append(np.stack([one, other], axis=1))
        self.length.append(length)
        self.joint.append(np.full(len(one), int(joint)))

    def _hang_over(self, base: Base, nodes: Whole, columns: Columns, feet: Feet) -> None:
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


def _joined(columns: list[Whole]) -> Whole:
    return np.concatenate([np.zeros(0, dtype=np.int64), *(c.ravel() for c in columns)])
