"""Strands as tubes of yarn in a depth buffer.

Strands weave over and under each other within one stitch, so no order in which whole ones
are painted is right. Each is sampled along and across, and of the samples that fall on a
point the nearest is kept: one whole number holds how near it is and which it is, and the
greatest number wins, in whatever order they come.
"""

from __future__ import annotations

from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from itertools import pairwise
from typing import Any

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

from hookwright.drawing.fabric.chance import about_zero
from hookwright.drawing.fabric.scene import Copies, Scene
from hookwright.drawing.fabric.strands import Real32, Sampled, sampled
from hookwright.shape.columns import Whole
from hookwright.shape.energy import Complex

_DENSITY = 1.0
"""Samples to a point of the picture along a strand: none is left out."""
_ACROSS = 1.13
"""The same across one, for some are thicker than the yarn at rest."""
_MOST_ACROSS = 63
_BLOCK = 100_000
"""Samples at a time: what a processor's cache holds."""
DEPTH_SCALE = 12_000.0
DEEPEST = 1.0
"""Depths are kept from a width behind the cloth on, in steps of a twelve-thousandth."""
_HIGHEST = 60_000
"""The highest step that the middle of a strand is kept at."""
_WORKERS = 2
_Piece = tuple[NDArray[Any], ...]
DEPTH_AT, CENTRE_AT = 36, 6
"""Where in a key the depth and the sample of the centre line begin, in bits."""
_TAPER = 0.16
"""Widths over which a cut end grows to its thickness, so that it never shows."""


class Frame(Struct, frozen=True):
    """What part of the plane is drawn, how large.

    Attributes:
        left: Its left side, in widths.
        top: Its upper side, in widths.
        scale: Points of the picture to a width.
        wide: Points across.
        high: Points down.
        mirrored: Whether it is seen in a mirror, as a left-hander works it.
    """

    left: float
    top: float
    scale: float
    wide: int
    high: int
    mirrored: bool = False

    def larger(self, times: int) -> Frame:
        """The same with so many times as many points each way."""
        return Frame(
            self.left,
            self.top,
            self.scale * times,
            self.wide * times,
            self.high * times,
            self.mirrored,
        )

    def placed(self, position: Complex) -> Complex:
        """Places of the plane as points of the picture, y down, before any mirror."""
        x = (position.real - self.left) * self.scale
        y = (self.top - position.imag) * self.scale
        return (x + 1j * y).astype(np.complex64)


class Lines(Struct, frozen=True, eq=False):
    """The centre lines of copies of a shape.

    Attributes:
        x: (n, m) points across.
        y: (n, m) points down.
        z: (n, m) widths towards the eye.
        samples: The shape they are copies of.
    """

    x: Real32
    y: Real32
    z: Real32
    samples: Sampled


class Tubes(Struct, frozen=True, eq=False):
    """A picture before it is lit.

    Attributes:
        key: (h, w) int64, see above; 0 where nothing lies.
        across: (t,) where across a strand its samples lie, from -1 to 1.
        radius: That of a strand, in points of the picture.
        normal_x: (g,) of each sample of a centre line: across the strand to the right.
        normal_y: (g,) the same down.
        slope: (g,) how steeply it comes towards the eye.
        along: (g,) how far along its yarn, in widths.
        yarn: (g,) the number of its yarn.
        grain: (g,) where its fibres begin in the table of noise.
        tone: (g,) how light it is: yarn is uneven from stitch to stitch, and along it.
    """

    key: Whole
    across: Real32
    radius: float
    normal_x: Real32
    normal_y: Real32
    slope: Real32
    along: Real32
    yarn: NDArray[np.int16]
    grain: NDArray[np.int32]
    tone: Real32


def across_of(radius: float) -> Real32:
    """Where across a strand its samples lie."""
    density = _ACROSS if radius > 3 else 1.25
    number = min(_MOST_ACROSS, max(3, int(np.ceil(2 * radius * density))))
    return ((np.arange(number) + 0.5) / number * 2 - 1).astype(np.float32) * np.float32(
        0.985
    )


def tubes_of(scene: Scene, frame: Frame) -> Iterator[Tubes | float]:
    """Lays all strands: tells how much of it is done, and at last what came of it.

    Two workers lay them in a buffer each: which is nearest does not depend on the order.
    """
    radius = scene.diameter / 2 * frame.scale
    across = across_of(radius)
    per_width = frame.scale * (_DENSITY if len(across) < _MOST_ACROSS else 1.0)
    sides = [np.zeros(frame.wide * frame.high, dtype=np.int64) for _ in range(_WORKERS)]
    pieces: list[_Piece] = []
    every = max(1, sum(copies.number for copies in scene.copies))
    done = before = 0
    with ThreadPoolExecutor(_WORKERS) as workers:
        for copies in scene.copies:
            lines = lines_of(copies, frame, sampled(copies.shape, per_width))
            laying = _Laying(copies, lines, frame, radius, across, before)
            pieces.append(laying.piece())
            list(workers.map(laying.lay, sides, range(_WORKERS)))
            before += lines.x.size
            done += copies.number
            yield done / every
    for other in sides[1:]:
        np.maximum(sides[0], other, out=sides[0])
    columns = [np.concatenate(column) for column in zip(*pieces, strict=True)]
    yield Tubes(sides[0].reshape(frame.high, frame.wide), across, radius, *columns)


def lines_of(copies: Copies, frame: Frame, samples: Sampled, uneven: float = 1.0) -> Lines:
    """The centre lines of copies of a shape."""
    shape = copies.shape
    j1, j2, j3, j4 = (uneven * about_zero(copies.seed, i)[:, None] for i in (1, 2, 3, 4))
    u = samples.u * (1 + np.float32(0.10) * j1) + np.float32(0.06) * j2
    fit = copies.fit[:, :, None]
    top_at = fit[:, 2] + u * fit[:, 3]
    top = frame.placed(copies.top)
    if shape.on_row:
        top_at *= _pulled_in(top)[:, None]
    point, way = on_curve(top, top_at)
    if shape.on_row:
        up = way / (np.abs(way) + np.float32(1e-6)) * np.complex64(-1j)
        lift = samples.a * np.float32(frame.scale) * (1 + np.float32(0.12) * j3)
        point += up * lift
    else:
        base = frame.placed(copies.base)
        foot, _ = on_curve(base, fit[:, 0] + u * fit[:, 1])
        axis = top[:, 1] - base[:, 1]
        axis /= np.abs(axis) + np.float32(1e-6)
        v = samples.v + np.float32(0.12) * j3 * samples.v * (1 - samples.v)
        point = foot * (1 - v) + point * v
        point += axis[:, None] * (samples.a * np.float32(frame.scale))
    z = samples.z * (1 + np.float32(0.15) * j4)
    z += copies.lift[:, None] + np.float32(0.03) * j2
    x: Real32 = np.ascontiguousarray(point.real, dtype=np.float32)
    if frame.mirrored:
        x = np.float32(frame.wide) - x
    y: Real32 = np.ascontiguousarray(point.imag, dtype=np.float32)
    return Lines(x, y, z, samples)


def _pulled_in(three: Complex) -> Real32:
    """Links are drawn in by up to an eighth where their row turns sharply."""
    before, behind = three[:, 1] - three[:, 0], three[:, 2] - three[:, 1]
    turn = np.abs(np.angle(behind * np.conj(before) + 1e-9))
    drawn: Real32 = (1 - 0.12 * np.clip((turn - 0.5) / 0.9, 0, 1)).astype(np.float32)
    return drawn


def on_curve(three: Complex, x: Real32) -> tuple[Complex, Complex]:
    """Points on the curves through rows at steps from a stitch, and the ways they go.

    Beyond half a step a curve goes straight on, for at sharp turns it would run wild.
    """
    left, own, right = (three[:, i, None] for i in range(3))
    middle = np.float32(0.125) * (left + right) + np.float32(0.75) * own
    first = np.float32(0.5) * (right - left)
    second = np.float32(0.5) * (left + right) - own
    held = np.clip(x, np.float32(-0.5), np.float32(0.5))
    way = first + np.float32(2) * second * held
    return middle + held * (first + second * held) + way * (x - held), way


class _Laying:
    """Copies of a shape on their way into depth buffers."""

    def __init__(
        self,
        copies: Copies,
        lines: Lines,
        frame: Frame,
        radius: float,
        across: Real32,
        before: int,
    ) -> None:
        starts = lines.samples.starts
        right, down, near = (_along(v, starts) for v in (lines.x, lines.y, lines.z))
        long = np.sqrt(right * right + down * down) + np.float32(1e-6)
        self._copies, self._frame, self._across, self._before = (
            copies,
            frame,
            across,
            before,
        )
        self._samples = lines.samples
        self._slope = near * np.float32(frame.scale) / long
        self._normal = down / long, -right / long
        self._thick = _thickness(copies.seed, lines.samples, radius)
        steps = np.clip(
            (lines.z + np.float32(DEEPEST)) * np.float32(DEPTH_SCALE), 0, _HIGHEST
        )
        self._line = lines.x, lines.y, steps

    def lay(self, key: Whole, worker: int) -> None:
        """Lays the share of a worker in its buffer, block by block."""
        number, samples = self._thick.shape
        block = max(1, _BLOCK // (samples * len(self._across)))
        to_steps = np.float32(DEPTH_SCALE / self._frame.scale)
        for begin in range(worker * block, number, _WORKERS * block):
            own = slice(begin, min(number, begin + block))
            thick = self._thick[own]
            centre = self._before + samples * np.arange(own.start, own.stop)[:, None]
            _keep_nearest(
                key,
                (self._line[0][own], self._line[1][own], self._line[2][own]),
                (self._normal[0][own] * thick, self._normal[1][own] * thick),
                thick * to_steps,
                centre + np.arange(samples),
                self._across,
                self._frame,
            )

    def piece(self) -> _Piece:
        """What is to be known of each sample, as `Tubes` keeps it."""
        seed, samples = self._copies.seed, self._thick.shape[1]
        along = self._samples.along + (5 * about_zero(seed, 9) + 5.5)[:, None]
        tone = np.float32(0.05) * np.sin(along * np.float32(1.7))
        tone += (1 + 0.07 * about_zero(seed, 11))[:, None]
        return (
            self._normal[0].ravel(),
            self._normal[1].ravel(),
            self._slope.ravel(),
            along.astype(np.float32).ravel(),
            np.repeat(self._copies.yarn.astype(np.int16), samples),
            np.repeat(((seed * 37) & 0xFFFF).astype(np.int32), samples),
            tone.astype(np.float32).ravel(),
        )


def _along(values: Real32, starts: tuple[int, ...]) -> Real32:
    """(n, m) twice how much values change from one sample of a strand to the next."""
    change = np.zeros_like(values)
    change[:, 1:-1] = values[:, 2:] - values[:, :-2]
    for begin, end in pairwise(starts):
        change[:, begin] = 2 * (values[:, begin + 1] - values[:, begin])
        change[:, end - 1] = 2 * (values[:, end - 1] - values[:, end - 2])
    return change


def _thickness(seed: Whole, samples: Sampled, radius: float) -> Real32:
    """(n, m) the radius at each sample, in points: yarn is uneven, and its ends taper."""
    columns = []
    for number, (begin, end) in enumerate(pairwise(samples.starts)):
        along = samples.along[begin:end]
        from_end = np.minimum(along, along[-1] - along) / np.float32(_TAPER)
        taper = 0.5 + 0.5 * np.clip(from_end, 0, 1) ** np.float32(0.6)
        own = radius * samples.thick[begin] * (1 + 0.10 * about_zero(seed * 31 + number, 7))
        columns.append((own[:, None] * taper).astype(np.float32))
    return np.concatenate(columns, axis=1)


def _keep_nearest(
    key: Whole,
    line: tuple[Real32, Real32, Real32],
    offset: tuple[Real32, Real32],
    deep: Real32,
    centre: Whole,
    across: Real32,
    frame: Frame,
) -> None:
    """Keeps of all samples across some lines the nearest at each point.

    Args:
        key: The depth buffer.
        line: (n, m) points across and down, and depths in their steps.
        offset: (n, m) how far across and down the side of the strand lies.
        deep: (n, m) how far its middle comes forward, in steps of depth.
        centre: (n, m) the numbers of the samples.
        across: (t,) where across the strand there are samples.
        frame: What part of the plane.
    """
    x = (line[0][:, :, None] + offset[0][:, :, None] * across).astype(np.int32)
    y = (line[1][:, :, None] + offset[1][:, :, None] * across).astype(np.int32)
    bulge = np.sqrt(1 - across * across)
    keys = (line[2][:, :, None] + deep[:, :, None] * bulge).astype(np.int64)
    keys <<= DEPTH_AT
    keys |= (centre << CENTRE_AT)[:, :, None] | np.arange(len(across))
    reach = float(deep.max()) * frame.scale / DEPTH_SCALE + 1
    low = min(float(line[0].min()), float(line[1].min())) - reach
    right, bottom = float(line[0].max()) + reach, float(line[1].max()) + reach
    if low < 0 or right >= frame.wide or bottom >= frame.high:
        inside = (x >= 0) & (x < frame.wide) & (y >= 0) & (y < frame.high)
        x, y, keys = x[inside], y[inside], keys[inside]
    y *= np.int32(frame.wide)
    y += x
    np.maximum.at(key, y.ravel(), keys.ravel())
