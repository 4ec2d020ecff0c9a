"""Where daylight does not come: the hollows of a fabric, and what lies in its own shadow.

The light comes from the upper left. Hollows are dark by how far they lie below the mean
height about them, near by and farther off (unsharp masking of the depth buffer: Luft,
Colditz and Deussen, 2006).
"""

from __future__ import annotations

import numpy as np
from msgspec import Struct
from scipy import ndimage

from hookwright.drawing.fabric.strands import Real32
from hookwright.drawing.fabric.tubes import DEEPEST, DEPTH_AT, DEPTH_SCALE
from hookwright.shape.columns import Whole

_LIGHT = np.array([-0.50, -0.62, 0.62])
LIGHT: tuple[float, float, float] = tuple(
    float(value) for value in _LIGHT / np.linalg.norm(_LIGHT)
)  # type: ignore[assignment] # three of them
"""Towards the light: right, down, towards the eye."""
TABLE = -0.45
"""How deep the table lies under a fabric, in widths."""
_NEAR, _FAR = 0.10, 0.34
_REACHES = (0.12, 0.22, 0.34)
"""How far off, in widths, something may stand that casts a shadow."""


class Shade(Struct, frozen=True, eq=False):
    """What light a picture gets, at the size it is made for.

    Attributes:
        near: (h, w) the mean height about each point, near by, in widths.
        far: (h, w) the same farther off.
        shadow: (h, w) how much of it lies in shadow, 0 to 1.
        table: (h, w) how light the table is.
    """

    near: Real32
    far: Real32
    shadow: Real32
    table: Real32


def heights_in(key: Whole) -> Real32:
    """(h, w) how high each point lies, in widths; that of the table where nothing does."""
    high = (key >> DEPTH_AT).astype(np.float32)
    high *= np.float32(1 / DEPTH_SCALE)
    high -= np.float32(DEEPEST)
    high[key == 0] = TABLE
    return high


def smaller(values: Real32, times: int) -> Real32:
    """The means over squares of points."""
    if times == 1:
        return values
    high, wide = values.shape
    squares = values.reshape(high // times, times, wide // times, times)
    found: Real32 = squares.mean((1, 3), dtype=np.float32)
    return found


def shade_of(height: Real32, cover: Real32, scale: float) -> Shade:
    """What light a picture gets.

    Args:
        height: (h, w) how high each point lies.
        cover: (h, w) how much of it is covered by yarn.
        scale: Points to a width.
    """
    near = ndimage.gaussian_filter(height, _NEAR * scale, truncate=2.5)
    far = ndimage.gaussian_filter(height, _FAR * scale, truncate=2.5)
    return Shade(near, far, _shadow(height, scale), table_of(cover, scale))


def _shadow(height: Real32, scale: float) -> Real32:
    right, down, up = LIGHT
    flat = float(np.hypot(right, down))
    shadow = np.zeros_like(height)
    for reach in _REACHES:
        step = round(down * reach * scale), round(right * reach * scale)
        if step == (0, 0):
            continue
        above = moved(height, step) - height - np.float32(0.8 * reach * up / flat)
        np.maximum(shadow, above / np.float32(0.14), out=shadow)
    np.clip(shadow, 0, 1, out=shadow)
    found: Real32 = ndimage.gaussian_filter(shadow, 0.03 * scale + 0.4)
    return found


def moved(values: Real32, step: tuple[int, int]) -> Real32:
    """What lies a step down and to the right of each point; past the border its last."""
    high, wide = values.shape
    rows = np.clip(np.arange(high) + step[0], 0, high - 1)
    columns = np.clip(np.arange(wide) + step[1], 0, wide - 1)
    return values[rows[:, None], columns]


def table_of(cover: Real32, scale: float) -> Real32:
    """How light the table is, beside a fabric and through its holes."""
    right, down, _ = LIGHT
    step = round(0.55 * down * scale), round(0.55 * right * scale)
    thrown = moved(cover, step)
    cast = ndimage.gaussian_filter(thrown, max(0.5, 0.28 * scale), truncate=2.5)
    around = ndimage.gaussian_filter(cover, max(0.5, 0.5 * scale), truncate=2.5)
    light: Real32 = 1 - np.float32(0.42) * cast - np.float32(0.25) * around
    return light
