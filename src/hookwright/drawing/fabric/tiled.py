"""The picture of a blanket, laid of copies of small maps: see `tiles`.

Each stitch is a cell between two curves, and the cells cover the fabric exactly. A map is
brought to one and a half points of its own to a point of the picture, laid on all cells of
its kind at once, and lit in the frame of each.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from msgspec import Struct
from scipy import ndimage

from hookwright.drawing.fabric.chance import about_zero, chance
from hookwright.drawing.fabric.cloth import Cloth
from hookwright.drawing.fabric.full import Drawn, Told
from hookwright.drawing.fabric.light import LIGHT, table_of
from hookwright.drawing.fabric.scene import Lie, bases_of, forms_of_legs, ridges_of
from hookwright.drawing.fabric.strands import Real32, Seen
from hookwright.drawing.fabric.tiles import (
    RIDGE_ABOVE,
    RIDGE_BELOW,
    VARIANTS,
    Cell,
    Tile,
    height_of,
    tile_of,
)
from hookwright.drawing.fabric.tubes import Frame, on_curve
from hookwright.drawing.fabric.wool import as_linear
from hookwright.shape.columns import Real, Truth, Whole
from hookwright.shape.energy import Complex

_OVER = 1.5
"""Points of a map to a point of the picture, each way."""
_AMID = 0.72
_AT_A_TIME = 400_000
_BRIGHT = np.float32(0.88)
"""Light above which a pale yarn would be nothing but white."""
_THIN, _SPARSE = 0.55, 0.30
"""Cover below which a point takes the mean of those about it, if these have as much."""


class Cells(Struct, frozen=True, eq=False):
    """Cells of one kind.

    Attributes:
        cell: What they look like.
        base: (n, 3) the place each stands on, with those beside it.
        top: (n, 3) its top, likewise.
        fit: (n, 4) the middle and width at the base, and at the top, in steps.
        yarn: (n, 3) the numbers of the yarns of the row below, its own, and above.
        seed: (n,) what it is told apart by.
    """

    cell: Cell
    base: Complex
    top: Complex
    fit: Real32
    yarn: Whole
    seed: Whole


def cells_of(lie: Lie) -> Iterator[Cells]:
    """The cells of a piece, those of one kind together."""
    cloth = lie.cloth
    top, under = cloth.leg[:, 0], cloth.leg[:, 1]
    standing = np.full(cloth.size, -1)
    standing[under[::-1]] = np.arange(len(under))[::-1]
    above = standing[top]
    forms = forms_of_legs(cloth)
    over = np.where(above >= 0, forms[above], _bare(lie, top))
    ridges = _ridge_bits(lie, top, under)
    in_space = cloth.is_chain[under] | cloth.rings[under]
    below = np.where(in_space, cloth.yarn[top], cloth.yarn[under])
    highest = np.where(above >= 0, cloth.yarn[top[above]], cloth.yarn[top])
    yarn = np.stack([below, cloth.yarn[top], highest], axis=1)
    turned = cloth.front[under] != cloth.front[top]
    base, fit = bases_of(lie, level=True), _fits(cloth)
    front = cloth.front[top]
    kinds, which = np.unique(
        np.stack([forms, over, ridges.astype(str), turned.astype(str), front.astype(str)]),
        axis=1, return_inverse=True,
    )  # fmt: skip
    for number in range(kinds.shape[1]):
        own = np.flatnonzero(which.reshape(-1) == number)
        form, on_it, bits, is_turned, is_front = kinds[:, number]
        seen = Seen.FRONT if is_front == "True" else Seen.BACK
        cell = Cell(str(form), seen, str(on_it), int(bits), is_turned == "True")
        yield Cells(
            cell, base[own], lie.threes[top[own]], fit[own], yarn[own], lie.seed[top[own]]
        )
    chains = np.flatnonzero(cloth.is_chain & cloth.shown & (cloth.row > 0))
    yield Cells(
        Cell("ch", Seen.FRONT, "edge", 0, turned=False),
        lie.threes[chains],
        lie.threes[chains],
        np.tile(np.array([0, 1, 0, 1], dtype=np.float32), (len(chains), 1)),
        np.repeat(cloth.yarn[chains][:, None], 3, axis=1),
        lie.seed[chains],
    )


def _bare(lie: Lie, top: Whole) -> np.typing.NDArray[np.str_]:
    """Whether the tops that nothing stands on are of the last row, or lie within."""
    cloth = lie.cloth
    rows = np.bincount(cloth.row, lie.used, int(cloth.row.max(initial=0)) + 1)
    return np.where(rows[cloth.row[top]] > 0, "free", "edge")


def _ridge_bits(lie: Lie, top: Whole, under: Whole) -> Whole:
    bare = np.zeros(lie.cloth.size, dtype=bool)
    bare[ridges_of(lie)] = True
    bits: Whole = RIDGE_BELOW * bare[under] + RIDGE_ABOVE * bare[top]
    return bits


def _fits(cloth: Cloth) -> Real32:
    """(l, 4) the share of its place and of its top that each leg covers."""
    under = cloth.leg[:, 1]
    shares, feet = cloth.leg_shares.astype(float), cloth.feet.astype(float)
    off = cloth.leg_order - (shares - 1) / 2
    in_space = cloth.is_chain[under] & (cloth.row[under] > 0)
    middle: Real = np.where(in_space, 0.42 * off, off / shares)
    wide: Real = np.where(in_space, 0.6, 1 / shares)
    ring = cloth.rings[under]
    middle, wide = np.where(ring, 0.0, middle), np.where(ring, 1.0, wide)
    at_top = (cloth.foot_order - (feet - 1) / 2) / feet
    return np.stack([middle, wide, at_top, 1 / feet], axis=1).astype(np.float32)


def drawn_tiled(
    lie: Lie, diameter: float, frame: Frame, colours: Whole, told: Told
) -> Drawn:
    """Draws a piece of small maps.

    Args:
        lie: The piece.
        diameter: That of its yarn, in widths.
        frame: What part of the plane.
        colours: (c, 3) of the yarns, 0 to 255.
        told: Told how much is done, from 0 to 1.
    """
    sums = np.zeros((4, frame.wide * frame.high))
    linear = as_linear(colours)
    done, every = 0, max(1, len(lie.cloth.leg) + int(lie.cloth.is_chain.sum()))
    for cells in cells_of(lie):
        tile = tile_of(cells.cell, diameter)
        for some in _blocks(cells, tile, frame):
            _add(sums, some, frame, linear)
        done += len(cells.seed)
        told(0.9 * done / every)
    return _finished(sums, frame)


class _Some(Struct, frozen=True, eq=False):
    """Some cells of one kind with one variant of their map, at the size it is laid in.

    Attributes:
        cells: The kind.
        at: Which of them.
        maps: (7, points) the map.
        u: (nu,) where its points lie, to the right of the middle.
        v: (nv,) how high up.
        height: That of the map, in heights of the stitch.
    """

    cells: Cells
    at: Whole
    maps: Real32
    u: Real32
    v: Real32
    height: float


def _blocks(cells: Cells, tile: Tile, frame: Frame) -> Iterator[_Some]:
    reach = tile.high - tile.low
    height = height_of(cells.cell.form)
    wide = min(tile.maps.shape[-1], max(2, int(np.ceil(_OVER * frame.scale))))
    high = max(2, int(np.ceil(_OVER * frame.scale * height * reach)))
    high = min(tile.maps.shape[-2], high)
    maps = _averaged(tile.maps, high, wide).reshape(VARIANTS, 7, -1)
    u = ((np.arange(wide) + 0.5) / wide - 0.5).astype(np.float32)
    v = (tile.high - (np.arange(high) + 0.5) / high * reach).astype(np.float32)
    variant = (chance(cells.seed, 21) * VARIANTS).astype(int)
    # From top to bottom, so that a block touches but a stripe of the picture.
    order = np.argsort(-cells.top[:, 1].imag, kind="stable")
    many = max(1, _AT_A_TIME // (wide * high))
    for number in range(VARIANTS):
        own = order[variant[order] == number]
        for begin in range(0, len(own), many):
            yield _Some(cells, own[begin : begin + many], maps[number], u, v, reach)


def _averaged(maps: Real32, high: int, wide: int) -> Real32:
    """Maps brought to another size, each point the mean of what it covers."""
    for axis, number in ((-2, high), (-1, wide)):
        own = maps.shape[axis]
        sums = np.cumsum(maps, axis=axis, dtype=np.float64)
        sums = np.concatenate([np.zeros_like(np.take(sums, [0], axis)), sums], axis)
        at = np.linspace(0, own, number + 1)
        low = np.floor(at).astype(int)
        part = at - low
        shape = (-1, 1) if axis == -2 else (-1,)
        upper = np.take(sums, np.minimum(low + 1, own), axis)
        held = np.take(sums, low, axis) * (1 - part.reshape(shape))
        maps = np.diff(held + upper * part.reshape(shape), axis=axis) * (number / own)
    return maps.astype(np.float32)


def _add(sums: Real, some: _Some, frame: Frame, linear: Real32) -> None:
    """Adds the light of some cells to the sums of red, green, blue and cover."""
    point, area, right = _placed(some, frame)
    cells, maps = some.cells, some.maps
    cover = maps[4:7].sum(axis=0)
    share = 1 / np.maximum(cover, np.float32(1e-3))
    light = _light(maps[:4] * share, right, mirrored=frame.mirrored)
    weight = area / len(cover) * (1 + 0.07 * about_zero(cells.seed[some.at], 11))
    light *= weight[:, None].astype(np.float32)
    pixel = point.imag.astype(np.int32) * frame.wide + point.real.astype(np.int32)
    pixel = np.clip(pixel, 0, frame.wide * frame.high - 1).ravel()
    first = int(pixel.min())
    pixel -= first
    number = int(pixel.max()) + 1
    own = slice(first, first + number)
    yarn = cells.yarn[some.at]
    for channel in range(3):
        colour = linear[:, channel][yarn] @ maps[4:7]
        sums[channel, own] += np.bincount(pixel, (light * colour).ravel(), number)
    covered = weight[:, None].astype(np.float32) * cover
    sums[3, own] += np.bincount(pixel, covered.ravel(), number)


def _placed(some: _Some, frame: Frame) -> tuple[Complex, Real, Complex]:
    """Where the points of maps fall, how large the cells are, and which way is right."""
    cells = some.cells
    fit = cells.fit[some.at][:, :, None]
    top, way = on_curve(frame.placed(cells.top[some.at]), fit[:, 2] + fit[:, 3] * some.u)
    middle = len(some.u) // 2
    if cells.cell.form == "ch":
        up = way / (np.abs(way) + np.float32(1e-6)) * np.complex64(-1j * frame.scale)
        point = top[:, None, :] + up[:, None, :] * some.v[:, None]
        area = np.abs(way[:, middle]) * frame.scale * some.height
        right = way[:, middle]
    else:
        base, _ = on_curve(
            frame.placed(cells.base[some.at]), fit[:, 0] + fit[:, 1] * some.u
        )
        point = base[:, None, :] + (top - base)[:, None, :] * some.v[:, None]
        across = np.abs(top[:, -1] - top[:, 0]) + np.abs(base[:, -1] - base[:, 0])
        across *= 0.5 * len(some.u) / (len(some.u) - 1)
        axis = top[:, middle] - base[:, middle]
        area = across * np.abs(axis) * some.height
        right = axis * np.complex64(1j)
    x = np.clip(point.real, 0, frame.wide - 1)
    return x + 1j * np.clip(point.imag, 0, frame.high - 1), area, right


def _light(surface: Real32, right: Complex, *, mirrored: bool) -> Real32:
    """(n, points) how light each point of each cell is, as each lies to the light.

    A piece that is seen in a mirror is lit from the other side before it is turned over.
    """
    x, y, z = -LIGHT[0] if mirrored else LIGHT[0], LIGHT[1], LIGHT[2]
    unit = right / (np.abs(right) + 1e-6)
    ways = np.stack(
        [
            x * unit.real + y * unit.imag,
            y * unit.real - x * unit.imag,
            np.full(len(unit), z),
        ],
        axis=1,
    )
    light = ways.astype(np.float32) @ surface[:3]
    light += np.float32(0.30)
    light *= np.float32(1 / 1.30)
    np.clip(light, 0, 1, out=light)
    open_ = surface[3]
    # Of what was averaged the contrast is less than of single strands; it is given back.
    light *= np.float32(0.95 * 0.93) * (np.float32(0.35) + np.float32(0.65) * open_)
    light += np.float32(0.30) * open_
    light *= np.float32(1.12 * 1.41)
    light -= np.float32(0.32 * 0.72 - 0.02)
    over = np.maximum(light - _BRIGHT, 0)
    light -= np.float32(0.6) * over
    found: Real32 = np.maximum(light, np.float32(0.05), out=light)
    return found


def _finished(sums: Real, frame: Frame) -> Drawn:
    """A picture from its sums; thin points take the mean of those about them."""
    shape = frame.high, frame.wide
    cover = sums[3].reshape(shape).astype(np.float32)
    around = ndimage.uniform_filter(cover, 3)
    thin: Truth = (cover < _THIN) & (around > _SPARSE)
    light = np.zeros((*shape, 3), dtype=np.float32)
    whole = np.where(thin, around, cover)
    for channel in range(3):
        own = sums[channel].reshape(shape).astype(np.float32)
        own = np.where(thin, ndimage.uniform_filter(own, 3), own)
        light[..., channel] = own / np.maximum(whole, np.float32(1e-3))
    # Amid fabric no table shows between cells that do not quite meet.
    amid = ndimage.uniform_filter(np.minimum(cover, 1), 5) > _AMID
    cover = np.where(amid, 1, np.clip(np.float32(1.25) * whole, 0, 1)).astype(np.float32)
    light *= cover[..., None]
    if frame.mirrored:
        light, cover = light[:, ::-1], cover[:, ::-1]
    return Drawn(light, cover, table_of(cover, frame.scale), np.zeros(shape, np.float32))
