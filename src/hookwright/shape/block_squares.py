"""How do blocks lie that are worked from corner to corner?

Each block stands on the side of another, so that what is the height of the one is the width
of the next. They can only lie side by side as squares: the stitches give way half in their
height and half in their width.
"""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from hookwright.shape.blocks import Blocks
from hookwright.shape.columns import Real, Truth, Whole, ranges

Complex = NDArray[np.complex128]

_CHAIN_WIDTH = 0.5
"""The width that the upright chain takes up, in stitches. With it a block of three dc and a
chain of 3 is 2.7 stitches wide, as five of them in 4 in are at 14 dc to 4 in; common
practice, no source."""
_LONGEST = 3.0
"""A row of stitches so many times as wide as high lies as a row does, not as a block."""


class Square(Struct, frozen=True, eq=False):
    """The blocks of a row that lie as squares, and how large they are.

    Attributes:
        blocks: The blocks.
        side: (k,) how long their sides are.
    """

    blocks: Blocks
    side: Real

    @property
    def column(self) -> Real:
        """(k,) how wide a stitch is; the chain beside them takes half of that."""
        found: Real = self.side / (self.blocks.end - self.blocks.stitch + _CHAIN_WIDTH)
        return found

    @property
    def link(self) -> Real:
        """(k,) how long a link is: the stitches of the next block stand on all of them."""
        blocks = self.blocks
        share = (blocks.end - blocks.stitch) / (blocks.stitch - blocks.up)
        found: Real = self.column * share
        return found

    @property
    def above(self) -> Real:
        """(k,) how far the last link lies below the corner, where the slip stitch is."""
        found: Real = (self.column + self.link) / 2
        return found

    @property
    def own(self) -> Truth:
        """(k,) which stand on chains of the row's own."""
        found: Truth = self.blocks.base < self.blocks.up
        return found


def squares_of(blocks: Blocks, tall: Real) -> Square:
    """Those of the blocks that lie as squares; `tall` is the height of each node."""
    wide = blocks.end - blocks.stitch + _CHAIN_WIDTH
    total = np.append(0.0, np.cumsum(tall))
    high = (total[blocks.end] - total[blocks.stitch]) / (blocks.end - blocks.stitch)
    kept = wide <= _LONGEST * high
    columns = (blocks.base, blocks.up, blocks.stitch, blocks.end)
    return Square(Blocks(*(each[kept] for each in columns)), ((wide + high) / 2)[kept])


def squared(square: Square, tall: Real, along: Real) -> tuple[Real, Real]:
    """A row with its blocks square.

    Lengths are those between the middles of stitches and chains in squares that lie side by
    side: columns of one width, the chain half a column, its links under the stitches of the
    next block.

    Args:
        square: Its blocks.
        tall: (n,) how high its stitches are.
        along: (n,) how far it is from each node to the next.

    Returns:
        Both, as they are in the squares.
    """
    if not len(square.side):
        return tall, along
    base, up = square.blocks.base, square.blocks.up
    stitch, end = square.blocks.stitch, square.blocks.end
    own, column, link = square.own, square.column, square.link
    high = square.side + np.where(own, 0, column / 4)
    tall, along = tall.copy(), along.copy()
    tall[ranges(stitch, end - stitch)] = np.repeat(high, end - stitch)
    _set(along, base, up - 1, column)
    _set(along, up, stitch - 1, link)
    _set(along, stitch, end - 1, column)
    onto = np.hypot(0.75 * column, link / 2)
    _set(along, base - 1, base, np.where(own, np.hypot(column, column) / 2, onto))
    _set(along, up - 1, up, onto)
    _set(along, stitch - 1, stitch, np.hypot(0.75 * column, square.above))
    return tall, along


def _set(along: Real, first: Whole, last: Whole, value: Real) -> None:
    """Sets stretches to a value each; one that begins before the row is left out."""
    number = np.where(first >= 0, np.maximum(last - first, 0), 0)
    along[ranges(first, number)] = np.repeat(value, number)


def slip_of(square: Square, otherwise: float) -> float:
    """How far a slip stitch holds a block from the side of the next one."""
    if not len(square.side):
        return otherwise
    return float(np.hypot(square.column / 2 + square.above, square.column / 4).mean())


class Shapes(Struct, frozen=True, eq=False):
    """Cells whose shape at rest is told.

    Attributes:
        cell: (c,) which cells.
        angle: (s,) the angles at their corners: of each the tops in order, then the places.
        sides: (c,) how many corners each has.
        area: (c,) their areas.
    """

    cell: Whole
    angle: Real
    sides: Whole
    area: Real


def beside_chains(square: Square, one: Whole, other: Whole, along: Whole) -> Shapes:
    """The strips between the chain of a block and its first stitch.

    Args:
        square: The blocks of a row.
        one: (c,) the first top of each cell.
        other: (c,) its last.
        along: (c,) how many places it lies over.
    """
    at, which = _meets(square.blocks.stitch, other)
    up = square.blocks.up[which]
    fits = (along[at] == 0) & (one[at] <= up) & (up - one[at] <= 1)
    return _shapes(square, at[fits], which[fits], one[at[fits]], _strip)


def _strip(square: Square, which: int, one: int) -> tuple[Complex, Complex]:
    """The corners of a strip, in a block whose base goes to the right from 0."""
    blocks, column = square.blocks, square.column[which]
    link, own = square.link[which], bool(square.own[which])
    chain = column / 4 + 1j * link * (
        0.5 + np.arange(blocks.stitch[which] - blocks.up[which])
    )
    alone = one == blocks.up[which]
    foot = column if own else square.above[which] - 1j * column / 4
    before = [] if alone else [foot if own else -column / 2]
    first = column + 1j * square.side[which]
    return np.array([*before, *chain, first]), np.array([foot], dtype=complex)


def beside_blocks(square: Square, node: Whole, along: Whole, slipped: Truth) -> Shapes:
    """The slits between the last stitch of a block and the tops of the block beside it.

    Args:
        square: The blocks of a row.
        node: (c,) the top of each cell.
        along: (c,) how many places it lies over.
        slipped: (c,) whether a slip stitch holds it at their other end.
    """
    at, which = _meets(square.blocks.end - 1, node)
    stitches = square.blocks.end[which] - square.blocks.stitch[which]
    fits = slipped[at] & (along[at] == stitches + 1)
    return _shapes(square, at[fits], which[fits], node[at[fits]], _slit)


def _slit(square: Square, which: int, _: int) -> tuple[Complex, Complex]:
    """The corners of a slit, with the tops of the block beside it going to the left."""
    blocks, column, side = square.blocks, square.column[which], square.side[which]
    tops = column * np.arange(blocks.end[which] - blocks.stitch[which], 0, -1)
    own, half = bool(square.own[which]), square.link[which] / 2
    foot = side + 0.5j * column if own else side + column / 4 + 1j * half
    chain = column / 4 - 1j * square.above[which]
    return np.array([0.5j * column]), np.array([foot, *tops, chain])


def _meets(mine: Whole, cells: Whole) -> tuple[Whole, Whole]:
    """Which cells are at one of the nodes, and at which of them."""
    if not len(mine):
        return mine, mine
    found = np.minimum(np.searchsorted(mine, cells), len(mine) - 1)
    at = np.flatnonzero(mine[found] == cells)
    return at, found[at]


def _shapes(
    square: Square,
    cell: Whole,
    which: Whole,
    one: Whole,
    corners: Callable[[Square, int, int], tuple[Complex, Complex]],
) -> Shapes:
    """The shapes of some cells; blocks that are alike have one shape."""
    blocks = square.blocks
    like = np.stack(
        [blocks.up - blocks.base, blocks.stitch - blocks.up, blocks.end - blocks.stitch],
        axis=1,
    )[which]
    like = np.column_stack([like, blocks.up[which] - one, np.round(square.side[which], 6)])
    _, first, kind = np.unique(like, axis=0, return_index=True, return_inverse=True)
    kind = kind.reshape(-1)
    told = [_shape(corners(square, int(which[at]), int(one[at]))) for at in first.tolist()]
    sides = np.array([len(angle) for angle, _ in told], dtype=np.int64)
    areas = np.array([area for _, area in told], dtype=float)
    angles = np.concatenate([np.zeros(0), *(angle for angle, _ in told)])
    each = ranges((np.cumsum(sides) - sides)[kind], sides[kind])
    return Shapes(cell, angles[each], sides[kind], areas[kind])


def _shape(corner: tuple[Complex, Complex]) -> tuple[Real, float]:
    """The angles of a cell, tops and then places, and its area. Corners may be doubled."""
    tops, places = corner
    round_it = np.append(tops, places[::-1])
    way = np.roll(round_it, -1) - round_it
    apart = np.abs(way) > _TINY
    kept, way = round_it[apart], way[apart]
    area = float((np.conj(kept) * np.roll(kept, -1)).imag.sum()) / 2
    turn = -np.roll(way, 1) / way
    angle = np.angle(turn if area > 0 else np.conj(turn)) % (2 * np.pi)
    every = np.zeros(len(round_it))
    every[apart] = angle
    return np.append(every[: len(tops)], every[len(tops) :][::-1]), abs(area)


_TINY = 1e-9
