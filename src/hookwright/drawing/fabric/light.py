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
    found: Real32 = summed(values, times, times) * np.float32(1 / times**2)
    return found


def summed(values: Real32, down: int, right: int) -> Real32:
    """The sums over so many points down and right; a point may be of several numbers."""
    rows = values[::down].copy()
    for step in range(1, down):
        rows += values[step::down]
    sums = rows[:, ::right].copy() if right > 1 else rows
    for step in range(1, right):
        sums += rows[:, step::right]
    return sums


def shade_of(height: Real32, cover: Real32, scale: float) -> Shade:
    """What light a picture gets.

    Args:
        height: (h, w) how high each point lies.
        cover: (h, w) how much of it is covered by yarn.
        scale: Points to a width.
    """
    near, far = blurred(height, _NEAR * scale), blurred(height, _FAR * scale)
    return Shade(near, far, _shadow(height, scale), table_of(cover, scale))


_COARSE = 3.0
"""Points that a blur spreads by, from which it is made of half as many points each way:
what is finer than that it takes away."""


def blurred(values: Real32, spread: float) -> Real32:
    """The mean about each point, weighted by a normal curve that spreads by some points."""
    if spread < _COARSE:
        return ndimage.gaussian_filter(values, spread, truncate=_CUT)
    high, wide = values.shape
    even = np.pad(values, ((0, high % 2), (0, wide % 2)), mode="edge")
    # Halving and doubling spread by about half a point each; the curve by the rest.
    rest = np.sqrt(spread**2 / 4 - 0.25)
    half = ndimage.gaussian_filter(smaller(even, 2), rest, truncate=_CUT)
    return _doubled(_doubled(half.T).T)[:high, :wide]


_CUT = 2.5
"""Spreads from the middle at which a curve is cut off."""


def _doubled(values: Real32) -> Real32:
    """Twice as many rows, each between two of the old ones, nearer to one of them."""
    above = np.concatenate([values[:1], values[:-1]])
    below = np.concatenate([values[1:], values[-1:]])
    found = np.zeros((2 * len(values), values.shape[1]), dtype=np.float32)
    near = np.float32(0.75) * values
    found[::2] = near + np.float32(0.25) * above
    found[1::2] = near + np.float32(0.25) * below
    return found


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
    cast = blurred(thrown, max(0.5, 0.28 * scale))
    around = blurred(cover, max(0.5, 0.5 * scale))
    light: Real32 = 1 - np.float32(0.42) * cast - np.float32(0.25) * around
    return light
