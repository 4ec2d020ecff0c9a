"""The picture strand by strand, for anything up to some thousand stitches."""

from __future__ import annotations

from collections.abc import Callable
from concurrent.futures import ThreadPoolExecutor

import numpy as np
from msgspec import Struct

from hookwright.drawing.fabric.chance import offsets
from hookwright.drawing.fabric.light import Shade, heights_in, shade_of, smaller, summed
from hookwright.drawing.fabric.scene import Scene
from hookwright.drawing.fabric.strands import Real32
from hookwright.drawing.fabric.tubes import Frame, Tubes, tubes_of
from hookwright.drawing.fabric.wool import Band, Look, lit, look_of
from hookwright.shape.columns import Whole

_BAND = 120_000
"""Points that are lit at a time."""
_FUZZ = 0.022
"""How far fibres stand out, in widths; at most so many points:"""
_MOST_FUZZ = 1.6
_ALL_FROM = 24.0
"""Points a stitch below which of two points side by side only the nearer one is lit."""
Told = Callable[[float], None]


class Drawn(Struct, frozen=True, eq=False):
    """A picture in linear light, without its table.

    Attributes:
        light: (h, w, 3) what comes from the yarn.
        cover: (h, w) how much of each point is covered, 0 to 1.
        table: (h, w) how light the table is there.
        height: (h, w) how high the yarn lies, in widths.
    """

    light: Real32
    cover: Real32
    table: Real32
    height: Real32


def drawn(scene: Scene, frame: Frame, colours: Whole, finer: int, told: Told) -> Drawn:
    """Draws all strands.

    Args:
        scene: The strands.
        frame: What part of the plane.
        colours: (c, 3) of the yarns, 0 to 255.
        finer: How many times finer it is drawn, each way, before points are averaged.
        told: Told how much is done, from 0 to 1.
    """
    large = frame.larger(finer)
    tubes = None
    for step in tubes_of(scene, large):
        if isinstance(step, Tubes):
            tubes = step
        else:
            told(0.6 * step)
    assert tubes is not None
    _close_pinholes(tubes.key)
    key = _fuzzy(tubes.key, large.scale)
    low = smaller(heights_in(key), finer)
    cover = smaller((key > 0).astype(np.float32), finer)
    shade = shade_of(low, cover, frame.scale)
    told(0.75)
    look = look_of(tubes, colours, scene.diameter)
    right = finer
    if finer == 2 and frame.scale < _ALL_FROM:
        key, right = np.maximum(key[:, ::2], key[:, 1::2]), 1
    light = _lit_in_bands(_Lighting(tubes, key, shade, look, finer, right), cover)
    told(1.0)
    return Drawn(light, cover, shade.table, low)


def _close_pinholes(key: Whole) -> None:
    """An empty point between two filled ones takes the nearer of its neighbours."""
    high, wide = key.shape
    flat = key.reshape(-1)
    empty = np.flatnonzero(flat == 0)
    row, column = np.divmod(empty, wide)
    empty = empty[(row > 0) & (row < high - 1) & (column > 0) & (column < wide - 1)]
    over, under = flat[empty - wide], flat[empty + wide]
    left, right = flat[empty - 1], flat[empty + 1]
    hole = ((over > 0) & (under > 0)) | ((left > 0) & (right > 0))
    nearest = np.maximum(np.maximum(over, under), np.maximum(left, right))
    flat[empty[hole]] = nearest[hole]


def _fuzzy(key: Whole, scale: float) -> Whole:
    """Fibres stand out a little: a point may show what lies near by, if that is nearer.

    What lies deeper is never shown instead, or pale yarn would be peppered with dark.
    """
    spread = 0.55 * min(_FUZZ * scale, _MOST_FUZZ)
    if spread < 0.25:
        return key
    down, right = offsets(round(spread, 2))
    high, wide = key.shape
    side = len(down)
    step = np.tile(down * wide + right, (1, -(-wide // side)))[:, :wide]
    step += np.arange(side * wide).reshape(side, wide)
    found = np.zeros_like(key)
    flat = key.ravel()
    for begin in range(0, high, side):
        own = slice(begin, min(high, begin + side))
        near = np.take(flat, step[: own.stop - begin] + begin * wide, mode="clip")
        np.maximum(key[own], near, out=found[own])
    return found


class _Lighting(Struct, frozen=True, eq=False):
    """What lights a picture.

    Attributes:
        tubes: The picture before it is lit.
        key: (H, W) what is seen, `down` times as many points down as are made of it, and
            `right` times as many across.
        shade: What light it gets.
        look: What its yarn looks like.
        down: See above.
        right: See above.
    """

    tubes: Tubes
    key: Whole
    shade: Shade
    look: Look
    down: int
    right: int


def _lit_in_bands(lighting: _Lighting, cover: Real32) -> Real32:
    """The light of a picture at its own size; `cover` is how much of it is covered."""
    high, wide = lighting.key.shape
    light = np.zeros((*cover.shape, 3), dtype=np.float32)
    rows = max(1, _BAND // wide // lighting.down) * lighting.down

    def one(begin: int) -> None:
        end = min(high, begin + rows)
        own = slice(begin // lighting.down, end // lighting.down)
        for channel, plane in enumerate(_lit_band(lighting, begin, end)):
            np.multiply(plane, cover[own], out=light[own, :, channel])

    with ThreadPoolExecutor(2) as workers:
        list(workers.map(one, range(0, high, rows)))
    return light


def _lit_band(lighting: _Lighting, begin: int, end: int) -> list[Real32]:
    """The mean light of what is seen at each point of a band, colour by colour."""
    down, right = lighting.down, lighting.right
    key = lighting.key[begin:end]
    high, wide = key.shape
    seen = np.flatnonzero(key)
    own = key.ravel()[seen]
    rows, columns = np.arange(begin, end) // down, np.arange(wide) // right
    at = (rows[:, None] * (wide // right) + columns).ravel()[seen]
    light = lit(
        Band(own, heights_in(own), at), lighting.tubes, lighting.shade, lighting.look
    )
    number = summed((key > 0).astype(np.float32), down, right)
    share = np.float32(1) / np.maximum(number, 1)
    found: list[Real32] = []
    plane = np.zeros(high * wide, dtype=np.float32)
    for colour in light:
        plane[seen] = colour
        found.append(summed(plane.reshape(high, wide), down, right))
        found[-1] *= share
    return found
