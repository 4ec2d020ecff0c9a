"""A stitch among its like as a small map, so that a blanket is laid of copies of few maps.

A map holds no light: normals, how open to the light each point is, and whether the yarn
there belongs to the row below, to the stitch, or to the row above, whose legs reach down.
So one map serves every angle that a stitch may lie at, and every colour.
"""

from __future__ import annotations

from functools import lru_cache

import numpy as np
from msgspec import Struct

from hookwright.drawing.fabric.light import heights_in, shade_of
from hookwright.drawing.fabric.scene import Copies, Scene
from hookwright.drawing.fabric.shapes import shape_of
from hookwright.drawing.fabric.strands import Real32, Seen
from hookwright.drawing.fabric.tubes import CENTRE_AT, DEPTH_AT, Frame, Tubes, tubes_of
from hookwright.drawing.fabric.wool import look_of, openness, surface
from hookwright.shape.columns import Whole
from hookwright.shape.energy import Complex

VARIANTS = 4
_POINTS = 40
"""Points to a width."""
_BESIDE = 4
"""Stitches beside those that are cut out."""
_RIBBON = 0.32
"""How far a chain reaches to either side of its row."""
_OVER_EDGE, _OVER_FREE = 0.36, 0.24
_DOWN_THE_POST = 0.45
BELOW, OWN, ABOVE = 0, 1, 2
RIDGE_BELOW, RIDGE_ABOVE = 1, 2


class Cell(Struct, frozen=True):
    """What a stitch and its surroundings look like.

    Attributes:
        form: The form of the stitch; "ch" for a chain.
        seen: Which side of it is seen.
        above: The form of what stands on it; "free" or "edge" for nothing.
        ridges: Whether loops are left free below it, above it.
        turned: Whether the rows about it are seen from their other side.
    """

    form: str
    seen: Seen
    above: str
    ridges: int = 0
    turned: bool = True


class Tile(Struct, frozen=True, eq=False):
    """A stitch as a map.

    Attributes:
        maps: (variants, 7, high, wide) the normal to the right, down and to the eye, how
            open to the light, and how much is of the yarn below, its own, and above; each
            times how much of the point is covered.
        low: Where its lower side lies, of the height of the stitch.
        high: Where its upper side lies.
    """

    maps: Real32
    low: float
    high: float


@lru_cache(maxsize=512)
def tile_of(cell: Cell, diameter: float) -> Tile:
    """The map of a stitch, with yarn of a diameter in widths."""
    number = VARIANTS + _BESIDE
    height = height_of(cell.form)
    low, high = _reach(cell, height)
    frame = Frame(
        0.0,
        high,
        _POINTS,
        _POINTS * (number - 1),
        max(2, round(_POINTS * (high - low))),
    )
    copies = tuple(_copies(cell, number, height))
    scene = Scene(copies, diameter, (0.0, number - 1.0, low, high))
    tubes = next(step for step in tubes_of(scene, frame) if isinstance(step, Tubes))
    maps = _maps(tubes, diameter)
    cut = [
        maps[:, :, (i + 1) * _POINTS + _POINTS // 2 : (i + 2) * _POINTS + _POINTS // 2]
        for i in range(VARIANTS)
    ]
    return Tile(np.ascontiguousarray(np.stack(cut)), low / height, high / height)


def height_of(form: str) -> float:
    """How high a form stands in a map, in widths; a chain lies along its row."""
    return 1.0 if form == "ch" else shape_of(form, Seen.FRONT).height or 0.3


def _reach(cell: Cell, height: float) -> tuple[float, float]:
    if cell.form == "ch":
        return -_RIBBON, _RIBBON
    over = {"edge": _OVER_EDGE, "free": _OVER_FREE}
    return 0.0, height + over.get(cell.above, 0.0)


def _copies(cell: Cell, number: int, height: float) -> list[Copies]:
    """The stitch over and over, with what lies below and above it."""
    other = cell.seen.other if cell.turned else cell.seen
    if cell.form == "ch":
        return [_row("ch", cell.seen, number, 0.0, 0.0, OWN)]
    found = [_row("top", other, number, 0.0, 0.0, BELOW, lift=-0.06)]
    if cell.ridges & RIDGE_BELOW:
        found.append(_row("ridge", other, number, 0.0, 0.0, BELOW))
    found.append(
        _row(cell.form, cell.seen, number, _foot(cell.form, 0.0, 1.9), height, OWN)
    )
    if cell.above in ("edge", "free"):
        lift = 0.04 if cell.above == "edge" else 0.0
        return [*found, _row(cell.above, cell.seen, number, height, height, OWN, lift=lift)]
    found.append(_row("top", cell.seen, number, height, height, OWN, lift=-0.06))
    upper = height + height_of(cell.above)
    foot = _foot(cell.above, height, height)
    found.append(_row(cell.above, other, number, foot, upper, ABOVE))
    if cell.ridges & RIDGE_ABOVE:
        found.append(_row("ridge", cell.seen, number, height, height, OWN))
    return found


def _foot(form: str, at: float, under: float) -> float:
    """Where a stitch begins: round a post, down the stitch below."""
    return at - _DOWN_THE_POST * under if form.startswith(("raised", "sunk")) else at


def _row(
    form: str,
    seen: Seen,
    number: int,
    base: float,
    top: float,
    yarn: int,
    lift: float = 0.0,
) -> Copies:
    at = np.arange(number)
    return Copies(
        form,
        seen,
        base=_threes(at, base),
        top=_threes(at, top),
        fit=np.tile(np.array([0, 1, 0, 1], dtype=np.float32), (number, 1)),
        yarn=np.full(number, yarn),
        seed=4 * (1000 + at) + yarn,
        lift=np.full(number, lift, dtype=np.float32),
        node=at,
    )


def _threes(at: Whole, level: float) -> Complex:
    return np.stack([at - 1, at, at + 1], axis=1) + 1j * level


def _maps(tubes: Tubes, diameter: float) -> Real32:
    """(7, high, wide) what is kept of a picture instead of light."""
    seen = tubes.key > 0
    key = tubes.key[seen]
    centre = (key >> CENTRE_AT) & ((1 << (DEPTH_AT - CENTRE_AT)) - 1)
    across = key & ((1 << CENTRE_AT) - 1)
    look = look_of(tubes, np.zeros((3, 3), dtype=np.int64), diameter)
    normal, _, crease = surface(tubes, look, centre, across, tubes.along[centre])
    height = heights_in(tubes.key)
    shade = shade_of(height, seen.astype(np.float32), float(_POINTS))
    open_ = openness(height[seen], shade.near[seen], shade.far[seen])
    maps = np.zeros((7, *tubes.key.shape), dtype=np.float32)
    for number, values in enumerate((*normal, open_ * crease * tubes.tone[centre])):
        maps[number][seen] = values
    for yarn in (BELOW, OWN, ABOVE):
        maps[4 + yarn][seen] = tubes.yarn[centre] == yarn
    return maps
