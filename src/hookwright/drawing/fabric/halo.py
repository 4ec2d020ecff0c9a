"""Single fibres that stand out of the yarn, where stitches are large enough to see them."""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from msgspec.structs import replace

from hookwright.drawing.fabric.chance import about_zero, chance
from hookwright.drawing.fabric.full import Drawn
from hookwright.drawing.fabric.scene import Copies, Scene
from hookwright.drawing.fabric.strands import Real32, sampled
from hookwright.drawing.fabric.tubes import Frame, Lines, lines_of
from hookwright.drawing.fabric.wool import as_linear
from hookwright.shape.columns import Whole

_A_WIDTH = 9
"""Fibres to a width of yarn."""
_LONG = 0.22
"""How long they are, in widths, in the mean."""
_STRENGTH = 0.30
_SAMPLES = 12.0
"""Samples of the yarn to a width, from which they begin."""


def with_halo(picture: Drawn, scene: Scene, frame: Frame, colours: Whole) -> Drawn:
    """A picture with its fibres drawn over it.

    Args:
        picture: What has been drawn.
        scene: The strands.
        frame: What part of the plane.
        colours: (c, 3) of the yarns, 0 to 255.
    """
    number = frame.wide * frame.high
    cover = np.zeros(number)
    light = np.zeros((number, 3))
    linear = as_linear(colours)
    for copies in scene.copies:
        for point, strength, yarn in _fibres(copies, scene, frame, picture.height):
            _spread(cover, light, point, strength, linear[yarn], frame)
    share = np.clip(cover, 0, 0.6).reshape(frame.high, frame.wide).astype(np.float32)
    mean = np.clip(1.05 * light / np.maximum(cover, 1e-6)[:, None] + 0.02, 0, 1)
    mean *= (cover > 0)[:, None]
    own = mean.reshape(frame.high, frame.wide, 3).astype(np.float32)
    return replace(
        picture,
        light=picture.light * (1 - share[..., None]) + own * share[..., None],
        cover=picture.cover * (1 - share) + share,
    )


def _fibres(
    copies: Copies, scene: Scene, frame: Frame, height: Real32
) -> Iterator[tuple[np.typing.NDArray[np.complex64], Real32, Whole]]:
    """Points of fibres that are not hidden, how strong each is, and of which yarn."""
    samples = sampled(copies.shape, _SAMPLES)
    if not len(samples.u):
        return
    lines = lines_of(copies, frame, samples)
    long = sum(float(samples.along[end - 1]) for end in samples.starts[1:])
    each = max(3, int(long * _A_WIDTH))
    steps = int(min(72, max(16, 0.9 * frame.scale)))
    which = np.repeat(np.arange(copies.number), each)
    seed = np.repeat(copies.seed, each) * 131 + np.tile(np.arange(each), copies.number)
    path, near, turn = _paths(lines, which, seed, steps, scene.diameter, frame.scale)
    x = np.clip(path.real.astype(int), 0, frame.wide - 1)
    y = np.clip(path.imag.astype(int), 0, frame.high - 1)
    seen = height[y, x] <= near
    step = np.linspace(0, 1, steps, dtype=np.float32)
    strength = _STRENGTH * np.sqrt(1 - step) * min(1.0, frame.scale / 60)
    strong = np.broadcast_to(strength, path.shape) * turn[:, None]
    yarn = np.broadcast_to(copies.yarn[which][:, None], path.shape)
    yield path[seen], strong[seen].astype(np.float32), yarn[seen]


def _paths(
    lines: Lines, which: Whole, seed: Whole, steps: int, diameter: float, scale: float
) -> tuple[np.typing.NDArray[np.complex64], Real32, Real32]:
    """(f, steps) the way of each fibre, how near it is, and (f,) how dense its points."""
    last = lines.x.shape[1] - 2
    at = 1 + (chance(seed, 41) * (last - 1)).astype(int)
    here = lines.x[which, at] + 1j * lines.y[which, at]
    ahead = lines.x[which, at + 1] + 1j * lines.y[which, at + 1]
    back = lines.x[which, at - 1] + 1j * lines.y[which, at - 1]
    way = (ahead - back) / (np.abs(ahead - back) + 1e-6)
    side = np.clip(1.7 * (about_zero(seed, 42) + about_zero(seed, 43)), -0.99, 0.99)
    forward = np.where(chance(seed, 44) < 0.5, 1.0, -1.0)
    lean = (0.45 + 0.9 * about_zero(seed, 45)) * np.sign(side)
    long = _LONG / 1.9 * -np.log(np.maximum(chance(seed, 46) * chance(seed, 47), 1e-3))
    bend = 4.0 * about_zero(seed, 48)
    step = np.linspace(0, 1, steps, dtype=np.float32)
    angle = lean[:, None] + bend[:, None] * step
    reach = (long * scale / steps)[:, None]
    along = np.cumsum(np.cos(angle), axis=1) * reach * forward[:, None]
    out = np.cumsum(np.sin(angle), axis=1) * reach
    start = here + way * 1j * side * (diameter / 2 * scale)
    path = start[:, None] + way[:, None] * (along + 1j * out)
    round_ = diameter / 2 * np.sqrt(1 - side * side)
    near = (lines.z[which, at] + round_ + 0.03)[:, None] + 0.10 * step
    return (
        path.astype(np.complex64),
        near.astype(np.float32),
        reach[:, 0].astype(np.float32),
    )


def _spread(
    cover: np.typing.NDArray[np.float64],
    light: np.typing.NDArray[np.float64],
    point: np.typing.NDArray[np.complex64],
    strength: Real32,
    colour: Real32,
    frame: Frame,
) -> None:
    """Spreads points over the four points of the picture about each."""
    x, y = point.real - 0.5, point.imag - 0.5
    left, top = np.floor(x).astype(int), np.floor(y).astype(int)
    right_share, low_share = x - left, y - top
    for down in (0, 1):
        for over in (0, 1):
            share = right_share if over else 1 - right_share
            share = share * (low_share if down else 1 - low_share) * strength
            column, row = left + over, top + down
            inside = (column >= 0) & (column < frame.wide) & (row >= 0) & (row < frame.high)
            at = (row * frame.wide + column)[inside]
            own = share[inside]
            cover += np.bincount(at, own, len(cover))
            for channel in range(3):
                light[:, channel] += np.bincount(
                    at, own * colour[inside, channel], len(cover)
                )
