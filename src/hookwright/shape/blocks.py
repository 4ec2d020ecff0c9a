"""Which stitches of a row make a block?

Worked from corner to corner, a block is a chain that stands up and stitches beside it:
after a slip stitch into the side of a block below, or back along a chain of the row's own.
"""

from __future__ import annotations

import numpy as np
from msgspec import Struct

from hookwright.shape.columns import Columns, Truth, Whole
from hookwright.shape.feet import UPRIGHT, Base, begin_blocks, places_of_feet


class Blocks(Struct, frozen=True, eq=False):
    """The blocks of a row, by numbers of its nodes.

    Attributes:
        base: (k,) the first chain of its own that it stands on; where it has none, `up`.
        up: (k,) the first chain of its side.
        stitch: (k,) its first stitch.
        end: (k,) one past its last.
    """

    base: Whole
    up: Whole
    stitch: Whole
    end: Whole


def blocks_of(base: Base, columns: Columns, *, closed: bool) -> Blocks:
    """The blocks of a row that is laid on an edge."""
    found = [_on_own_chains(base, columns), _on_sides(base, columns, closed=closed)]
    each = np.concatenate([*found, _on_foundation(base, columns)])
    return Blocks(*each[np.argsort(each[:, 1], kind="stable")].T)


def _found(base: Whole, up: Whole, stitch: Whole, end: Whole) -> Whole:
    """(k, 4) of these the blocks: a chain that stands up, and stitches beside it."""
    each = np.stack([base, up, stitch, end], axis=1).reshape(-1, 4)
    kept: Truth = (stitch - up >= UPRIGHT) & (end > stitch)
    return each[kept]


def _next_stitch(columns: Columns, at: Whole) -> Whole:
    """The first stitch from each node on; the size of the row for none."""
    stitch = np.append(np.flatnonzero(~columns.is_chain), columns.size)
    found: Whole = stitch[np.searchsorted(stitch, at)]
    return found


def _on_own_chains(base: Base, columns: Columns) -> Whole:
    """Blocks on chains of the row's own, a stitch in each."""
    tip, _, long = base.tips.T
    stitch = _next_stitch(columns, tip + 1)
    end = np.minimum(stitch + long, _next_chain(columns, stitch))
    return _found(tip - long + 1, tip + 1, stitch, end)


def _next_chain(columns: Columns, at: Whole) -> Whole:
    chain = np.append(np.flatnonzero(columns.is_chain), columns.size)
    found: Whole = chain[np.searchsorted(chain, at)]
    return found


def _on_sides(base: Base, columns: Columns, *, closed: bool) -> Whole:
    """Blocks that a slip stitch begins: all their stitches stand in one place."""
    up = columns.slips[begin_blocks(columns), 0]
    up = up[up < columns.size]
    stitch = _next_stitch(columns, up)
    if not len(up):
        return _found(up, up, stitch, stitch)
    place = np.full(columns.size + 1, -1)
    place[columns.foot_node] = places_of_feet(base, columns, closed=closed)
    changes = np.append(np.flatnonzero(np.diff(place)) + 1, columns.size)
    end = changes[np.searchsorted(changes, stitch, side="right")]
    return _found(up, up, stitch, end)


def _on_foundation(base: Base, columns: Columns) -> Whole:
    """The first of all, worked back along the foundation, whose skipped chains stand up."""
    upright = int((base.nodes == base.nodes[0]).sum()) - 1 if len(base.nodes) else 0
    up = np.zeros(1, dtype=np.int64)
    stitch = _next_stitch(columns, up)
    end = _next_chain(columns, stitch)
    alone = (end == columns.size) & (stitch == upright) & (upright == columns.skipped)
    return _found(up[alone], up[alone], stitch[alone], end[alone])
