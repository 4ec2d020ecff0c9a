"""How is a row laid, told by places along its base and along itself?

Rows that are worked alike on edges alike are laid alike, wherever in the piece they stand:
so a blanket costs the thinking of one set of its rows. A place below 0 means none; places
along the base come first, then those of the row.
"""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
from msgspec import Struct

from hookwright.shape.block_squares import (
    Shapes,
    Square,
    beside_blocks,
    beside_chains,
    slip_of,
    squared,
    squares_of,
)
from hookwright.shape.blocks import blocks_of
from hookwright.shape.columns import Columns, Real, Truth, Whole, before, ranges
from hookwright.shape.feet import (
    CHAIN_TO_CHAIN,
    CHAIN_TO_STITCH,
    SLIPPED,
    Base,
    Feet,
    feet_on,
    on_posts,
    with_ends,
    with_tips,
)

_HALF = 0.5
_POST = 1 / 3
"""Of the stitch below: so far down its post a stitch begins that goes round it. So a dc
round the posts of dc stands as tall as an hdc, and rows of them are begun with the chain of
one; common practice, no source."""


class Below(Struct, frozen=True, eq=False):
    """What a row is laid on.

    Attributes:
        base: The edge.
        tall: (b,) how high the stitches of its nodes are, from foot to top.
        is_chain: (b,) which of its nodes are chains of a row, not of the foundation.
        hangs: Whether it begins with a chain that hangs on nothing yet.
    """

    base: Base
    tall: Real
    is_chain: Truth
    hangs: bool

    def likeness(self) -> tuple[object, ...]:
        """What two edges have in common on which a row is laid alike."""
        base = self.base
        return (
            len(base.nodes), base.first.tobytes(), base.number.tobytes(),
            base.units.tobytes(), base.closed, base.ring, base.start, base.tips.tobytes(),
            self.tall.tobytes(), self.is_chain.tobytes(), self.hangs,
        )  # fmt: skip


class RowPlan(Struct, frozen=True, eq=False):
    """A row told by places.

    Attributes:
        feet: Where its stitches stand.
        full: (n,) how high its stitches are, from foot to top.
        along: (n,) how far it is from each of its nodes to the next.
        height: The mean height of those that stand, from one row to the next.
        leg: (l, 2) places of a top and of what it is held to.
        long: (l,) how long that is.
        cells: (s,) the places of its cells, anticlockwise, one cell behind the other.
        sides: (c,) how many places each cell has.
        solid: (c,) whether it is fabric, not a hole.
        angle: (s,) the angle at each place of a cell at rest; NaN where its sides tell it.
        area: (c,) the area of a cell at rest; NaN where its sides tell it.
        block: How long the sides of its square blocks are; 0 where it has none.
    """

    feet: Feet
    full: Real
    along: Real
    height: float
    leg: Whole
    long: Real
    cells: Whole
    sides: Whole
    solid: Truth
    angle: Real
    area: Real
    block: float


class _Cells(Struct):
    """The cells of a row in the making."""

    base: int
    row: int
    direction: int
    place: list[Whole]
    sides: list[Whole]
    solid: list[Truth]
    angle: list[Real]
    area: list[Real]

    def add(
        self,
        start: Whole,
        along: Whole,
        top: Whole,
        across: Whole,
        told: Shapes | None = None,
    ) -> None:
        """Cells over `along` places from `start`, under `across` nodes from `top`.

        The shape at rest of some of them may be told.
        """
        if not len(start):
            return
        below = ranges(start, along + 1) % self.base
        above = self.base + ranges(top, across + 1) % self.row
        sides = along + across + 2
        begin = before(sides)
        # Anticlockwise, and the tops first: as they are worked, then the places below them
        # back again; a row worked the other way is seen mirrored.
        tops = ranges(begin, across + 1)
        places = ranges(begin + across + 1, along + 1)
        if self.direction > 0:
            places = _backwards(begin + across + 1, along + 1)
        else:
            tops = _backwards(begin, across + 1)
        found = np.zeros(int(sides.sum()), dtype=np.int64)
        found[tops], found[places] = above, below
        self.place.append(found)
        self.sides.append(sides)
        self.solid.append((along <= 1) & (across <= 1))
        angle, area = np.full(len(found), np.nan), np.full(len(sides), np.nan)
        if told is not None and len(told.cell):
            order = np.zeros(len(found), dtype=np.int64)
            order[ranges(begin, across + 1)] = tops
            order[ranges(begin + across + 1, along + 1)] = places
            angle[order[ranges(begin[told.cell], told.sides)]] = told.angle
            area[told.cell] = told.area
        self.angle.append(angle)
        self.area.append(area)


def plan_of(
    below: Below,
    columns: Columns,
    heights: Mapping[str, float],
    usual: float,
    *,
    closed: bool,
    direction: int,
    whole: bool,
) -> RowPlan:
    """How a row is laid; the arguments are those of `Mesh.row_on`."""
    base = below.base
    blocks = blocks_of(base, columns, closed=closed)
    full = _heights_of(columns, heights, usual)
    square = squares_of(blocks, full)
    full, along = squared(square, full, _widths_of(columns))
    feet = feet_on(base, columns, closed=closed)
    tall = _lowered(below, feet, full)
    if whole and not (closed and base.closed) and not base.ring:
        own_first = bool(len(base.tips)) and int(base.tips[0, 0]) < int(feet.node[0])
        feet = with_ends(
            feet, columns, len(base.nodes), chain_beyond=below.hangs, own_first=own_first
        )
    feet = with_tips(feet, base)
    stands = np.zeros(columns.size, dtype=bool)
    stands[feet.node[feet.reach == 0]] = True
    height = float(tall[stands].mean()) if stands.any() else 0.0
    number = len(base.nodes)
    long = np.hypot(tall[feet.node], np.where(feet.gap, _HALF, 0.0))
    long = np.where(feet.reach > 0, feet.reach, long)
    long = np.where(feet.reach == SLIPPED, slip_of(square, SLIPPED), long)
    legs = [np.stack([number + feet.node, feet.at % max(1, number)], axis=1)]
    longs = [long]
    cells = _Cells(max(1, number), max(1, columns.size), direction, [], [], [], [], [])
    if len(feet.node):
        bridges = _between(below, columns, feet, tall, (cells, square), closed=closed)
        legs.append(bridges[0])
        longs.append(bridges[1])
    none = np.zeros(0, dtype=np.int64)
    return RowPlan(
        feet,
        full,
        along,
        height,
        np.concatenate(legs),
        np.concatenate(longs),
        np.concatenate([none, *cells.place]),
        np.concatenate([none, *cells.sides]),
        np.concatenate([none > 0, *cells.solid]),
        np.concatenate([np.zeros(0), *cells.angle]),
        np.concatenate([np.zeros(0), *cells.area]),
        float(square.side.mean()) if len(square.side) else 0.0,
    )


def _heights_of(columns: Columns, heights: Mapping[str, float], usual: float) -> Real:
    """The height of each node in widths of a stitch; 0 for a chain."""
    of_name = np.array([heights.get(name, usual) for name in columns.names], dtype=float)
    tall: Real = of_name[columns.name] if len(of_name) else np.zeros(0)
    return np.where(columns.is_chain, 0.0, tall)


def _widths_of(columns: Columns) -> Real:
    """How far it is from each node of a row to the next; 1 from stitch to stitch."""
    own = np.where(columns.is_chain, CHAIN_TO_CHAIN, 1.0)
    return np.where(own == np.roll(own, -1), own, CHAIN_TO_STITCH)


def _lowered(below: Below, feet: Feet, full: Real) -> Real:
    """The heights of a row whose stitches may go round the posts of those below."""
    posts = on_posts(feet)
    if not posts.any():
        return full
    under = below.tall[feet.at[posts] % len(below.tall)]
    own = feet.node[posts]
    tall = full.copy()
    tall[own] = np.maximum(full[own] - _POST * under, _POST * full[own])
    return tall


def _between(
    below: Below,
    columns: Columns,
    feet: Feet,
    tall: Real,
    made: tuple[_Cells, Square],
    *,
    closed: bool,
) -> tuple[Whole, Real]:
    """The cells between the feet of a row, and the legs of chains that go straight."""
    base, (cells, square) = below.base, made
    node, first = firsts(feet.node)
    last = np.append(first[1:], len(feet.at)) - 1
    low, high = feet.at[first], feet.at[last]
    one, other = np.arange(len(node) - 1), np.arange(1, len(node))
    step_on = np.zeros(len(one), dtype=np.int64)
    if closed and len(node) > 1:
        one, other = np.append(one, len(node) - 1), np.append(other, 0)
        step_on = np.append(step_on, 0 if base.ring else len(base.nodes))
    along = low[other] + step_on - high[one]
    across = (node[other] - node[one]) % columns.size
    straight = _straight(below, high[one], along, across)
    ends = np.maximum(tall[node[one]], tall[node[other]])
    legs = _bridged(high[one], along, node[one], ends, straight, cells)
    held = np.flatnonzero((along >= 0) & ~straight)
    begins, ends_at = node[one[held]], node[other[held]]
    strips = beside_chains(square, begins, ends_at, along[held])
    cells.add(high[one[held]], along[held], begins, across[held], strips)
    inner = np.flatnonzero(np.diff(feet.node) == 0)
    reach = feet.at[inner + 1] - feet.at[inner]
    kept = inner[reach > 0]
    reach = reach[reach > 0]
    none = np.zeros(len(kept), dtype=np.int64)
    slits = beside_blocks(square, feet.node[kept], reach, feet.reach[kept + 1] == SLIPPED)
    cells.add(feet.at[kept], reach, feet.node[kept], none, slits)
    return legs


def firsts(node: Whole) -> tuple[Whole, Whole]:
    """Each number of a column that never goes back, once, and where it is met first."""
    first = np.flatnonzero(np.append(True, node[1:] != node[:-1]))
    return node[first], first


def _straight(below: Below, start: Whole, along: Whole, across: Whole) -> Truth:
    """Whether chains go straight over as many places, so that no arc comes about.

    So they do over skipped stitches, as in moss, and from stitch to stitch, as in filet;
    from the middle of one chain space to that of the next they hang in arcs.
    """
    straight: Truth = (along == across) & (along > 1)
    if not straight.any():
        return straight
    nodes = below.base.nodes
    straight &= nodes[start % len(nodes)] != nodes[(start + 1) % len(nodes)]
    if not straight.any():
        return straight
    chain = below.is_chain
    at = np.flatnonzero(straight)
    inner = chain[ranges(start[at] + 1, along[at] - 1) % len(chain)]
    within = np.logical_or.reduceat(inner, before(along[at] - 1))
    ends = chain[start[at] % len(chain)] | chain[(start + along)[at] % len(chain)]
    straight[at] = ~(within & ends)
    return straight


def _bridged(
    start: Whole, along: Whole, top: Whole, high: Real, straight: Truth, cells: _Cells
) -> tuple[Whole, Real]:
    """Chains straight over some places, each held over its own as high as the stitch."""
    at = np.flatnonzero(straight)
    step = ranges(np.zeros(len(at), dtype=np.int64), along[at])
    under = np.repeat(start[at], along[at]) + step
    over = np.repeat(top[at], along[at]) + step
    kept = step > 0
    one = np.ones(len(under), dtype=np.int64)
    cells.add(under, one, over, one)
    legs = [cells.base + over[kept] % cells.row, under[kept] % cells.base]
    return np.stack(legs, axis=1), np.repeat(high[at], along[at])[kept]


def _backwards(starts: Whole, lengths: Whole) -> Whole:
    """The stretches of `ranges`, each from its end to its beginning."""
    return np.repeat(2 * starts + lengths - 1, lengths) - ranges(starts, lengths)
