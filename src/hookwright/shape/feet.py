"""Where on its base does each stitch of a row stand?

Where a stitch stands in a chain space, it stands on the middle chain of the arc; of an even
number of chains the first half of a group stands on the one of the two middle chains, the
rest on the other. A stitch in the gap between two others stands on both. Crossed stitches
are laid as if they were not: the feet of a row, put in order, are given to its stitches in
order. At its ends a row to and fro is held to what lies beyond: one or two places are drawn
in with the end stitch, and a longer chain there closes a loop.
"""

from __future__ import annotations

import numpy as np
from msgspec import Struct, field

from hookwright.shape.columns import PARTS, Columns, Real, Truth, Whole, before
from hookwright.working.fabric import Into

CHAIN_TO_CHAIN = 0.85
CHAIN_TO_STITCH = 0.88
"""How far a chain takes the row on, in widths of a stitch. Source: judged from lace that
was worked and measured; common practice, no handbook gives it."""
_FEW = 2
"""Places left at the end of a row that its turning chain draws in with the end stitch."""
_POSTS = (PARTS.index(Into.FRONT_POST), PARTS.index(Into.BACK_POST))


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
        tips: (t, 3) the last of each chain of the row's own that lies on it: its number in
            the row, and among the nodes, and how many chains it is the last of.
    """

    nodes: Whole
    first: Whole
    number: Whole
    units: Whole
    closed: bool = False
    ring: bool = False
    start: int = 0
    tips: Whole = field(default_factory=lambda: np.zeros((0, 3), dtype=np.int64))


class Feet(Struct, frozen=True, eq=False):
    """Feet in order, by the node they belong to and where on the base they stand.

    Attributes:
        node: (f,) numbers of nodes in the row, never going back.
        at: (f,) numbers of nodes along the base, counted on past its end; never going back.
        gap: (f,) whether the stitch stands beside it, in a gap.
        into: (f,) which part of the place the hook goes under; -1 for no foot of its own.
        worked: (f,) where the hook really goes, as `at`; otherwise where stitches cross.
        reach: (f,) how far it is to there, in widths; 0 for the height of the stitch.
    """

    node: Whole
    at: Whole
    gap: Truth
    into: Whole
    worked: Whole
    reach: Real


def feet_on(base: Base, columns: Columns, *, closed: bool) -> Feet:
    """Where the feet of a row stand on its base."""
    order = np.argsort(columns.foot_node, kind="stable")
    node = columns.foot_node[order]
    none = np.zeros(0, dtype=np.int64)
    if not len(base.nodes) or not base.units.sum():
        return Feet(none, none, none > 0, none, none, none.astype(float))
    into = columns.foot_into[order]
    if base.ring:
        zeros = np.zeros(len(node), dtype=np.int64)
        return Feet(node, zeros, zeros > 0, into, zeros, np.zeros(len(node)))
    place = places_of_feet(base, columns, closed=closed)[order]
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
    at = _within_places(base, place, _on_side(columns, node))
    feet = Feet(node, np.sort(at), gap, into, at, np.zeros(len(at)))
    return _with_slips(feet, base, columns)


def on_posts(feet: Feet) -> Truth:
    """(f,) which of them go round the post of a stitch."""
    found: Truth = np.isin(feet.into, _POSTS)
    return found


def places_of_feet(base: Base, columns: Columns, *, closed: bool) -> Whole:
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


def _with_slips(feet: Feet, base: Base, columns: Columns) -> Feet:
    """The feet of a row, and the stitch before each block held to where a slip joins it."""
    slips = columns.slips[begin_blocks(columns)]
    if not len(slips):
        return feet
    node, unit = slips.T
    seen = np.clip(unit + base.start, 0, int(base.units.sum()) - 1)
    at = base.first[np.searchsorted(before(base.units), seen, side="right") - 1]
    return _in_order(_joined(feet, _held(at, np.maximum(node - 1, 0), SLIPPED)))


def begin_blocks(columns: Columns) -> Truth:
    """(s,) which slip stitches begin a block with their chain, or end a row of blocks."""
    stitch = np.append(np.flatnonzero(~columns.is_chain), columns.size)
    begins = columns.slips[:, 0]
    first = stitch[np.minimum(np.searchsorted(stitch, begins), len(stitch) - 1)]
    blocks: Truth = (first - begins >= UPRIGHT) & (first < columns.size)
    last: Truth = np.append(begins[1:] != begins[:-1], True)[: len(begins)]
    ends: Truth = (begins == columns.size) & bool(blocks.any())
    return last & (blocks | ends)


def _on_side(columns: Columns, node: Whole) -> Truth:
    """(f,) which feet are of the first stitch of a block, after slip stitch and chain."""
    stitch = np.append(np.flatnonzero(~columns.is_chain), columns.size)
    begins = columns.slips[begin_blocks(columns), 0]
    found: Truth = np.isin(node, stitch[np.searchsorted(stitch, begins)])
    return found


UPRIGHT = 2
"""Chains after a slip stitch that stand up as the side of a block, at least."""
SLIPPED = 0.4
"""How far a slip stitch holds two places apart, in widths; common practice, no source."""


def _within_places(base: Base, place: Whole, on_side: Truth) -> Whole:
    """The node along the base for each place: the middle of a chain space.

    So many stitches in it that they would not find room there lie along more of it, and a
    block that a slip stitch begins along the whole.
    """
    turn, own = np.divmod(place, len(base.units))
    chains = base.number[own]
    rank, often = _among_alike(place)
    spare = np.rint((chains - _FOOT * often) / 2)
    beside = np.clip(spare, 0, (chains - 1) // 2).astype(np.int64)
    beside = np.where(np.isin(place, place[on_side & (rank == 0)]), 0, beside)
    along: Whole = np.floor_divide(rank * (chains - 2 * beside), often) + beside
    at: Whole = turn * len(base.nodes) + base.first[own] + along
    return at


_FOOT = 0.6
"""Chains of a space that a stitch in it takes up: side by side they close up, and slide
along it where there are many. Common practice, no source: nine sc fill 5 or 6 chains."""


def _among_alike(place: Whole) -> tuple[Whole, Whole]:
    """Of each place, how many times it came before, and how often it comes in all."""
    falls = len(place) > 1 and bool((place[1:] < place[:-1]).any())
    order = np.argsort(place, kind="stable") if falls else np.arange(len(place))
    along = place[order]
    begins = np.flatnonzero(np.append(True, along[1:] != along[:-1])[: len(place)])
    number = np.diff(np.append(begins, len(place)))
    rank, often = np.zeros_like(place), np.zeros_like(place)
    rank[order] = np.arange(len(place)) - np.repeat(begins, number)
    often[order] = np.repeat(number, number)
    return rank, often


def with_ends(
    feet: Feet, columns: Columns, nodes: int, *, chain_beyond: bool, own_first: bool = False
) -> Feet:
    """The feet of a row to and fro, held to what lies beyond its end stitches.

    Args:
        feet: Its feet.
        columns: The row.
        nodes: How many nodes its base has.
        chain_beyond: Whether the base begins with a chain that hangs on nothing.
        own_first: Whether it begins with a chain that the row made itself.
    """
    if not len(feet.at):
        return feet
    start, end = int(feet.at[0]), nodes - 1 - int(feet.at[-1])
    first = int(feet.node[0])
    slipped = bool((columns.slips[:, 0] == 0).any())
    if own_first or slipped:
        pass  # a chain of its own, or after a slip stitch, is held where it is laid
    elif first > 1 and columns.is_chain[:first].all():
        # The chain it begins with goes up from the end of the row below.
        feet = _before(feet, np.zeros(1, dtype=np.int64), 0, CHAIN_TO_CHAIN)
    elif 0 < start <= _FEW:
        feet = _before(feet, np.arange(start), first, 0.0)
    elif start > _FEW and chain_beyond:
        feet = _before(feet, np.zeros(1, dtype=np.int64), first, CHAIN_TO_STITCH)
    joined = bool((columns.slips[:, 0] == columns.size).any())
    if 0 < end <= _FEW and not joined:
        tail = np.arange(nodes - end, nodes)
        return _joined(feet, _held(tail, int(feet.node[-1]), 0.0))
    return feet


def with_tips(feet: Feet, base: Base) -> Feet:
    """The feet of a row, and its own chains where it turns back along them."""
    if not len(base.tips) or not len(feet.node):
        return feet
    node, at, _ = base.tips.T
    return _in_order(_joined(feet, _held(at, node, CHAIN_TO_CHAIN)))


def _in_order(found: Feet) -> Feet:
    """Feet by the node they belong to, and along the base."""
    order = np.lexsort((found.at, found.node))
    return Feet(
        found.node[order],
        found.at[order],
        found.gap[order],
        found.into[order],
        found.worked[order],
        found.reach[order],
    )


def _before(feet: Feet, at: Whole, node: int, reach: float) -> Feet:
    """Feet with others of one node before them."""
    return _joined(_held(at, node, reach), feet)


def _held(at: Whole, node: int | Whole, reach: float) -> Feet:
    """Feet of one node that are none of its own."""
    number = len(at)
    return Feet(
        np.full(number, node),
        at,
        np.zeros(number, dtype=bool),
        np.full(number, -1),
        at,
        np.full(number, reach),
    )


def _joined(one: Feet, other: Feet) -> Feet:
    return Feet(
        np.concatenate([one.node, other.node]),
        np.concatenate([one.at, other.at]),
        np.concatenate([one.gap, other.gap]),
        np.concatenate([one.into, other.into]),
        np.concatenate([one.worked, other.worked]),
        np.concatenate([one.reach, other.reach]),
    )
