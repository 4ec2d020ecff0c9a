"""A photo of balls of yarn that nobody took: light from a window, shadows, strands, noise.

The scene is worked out in linear light: balls that lie on a grained table, each shaded by
how its strands are turned to the window, all darker away from it and towards the corners of the
picture, shadows beside the balls, the noise of a sensor, and a JPEG of it.

Source: Lambert's law for what is matt; the transfer curve of sRGB, IEC 61966-2-1.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from io import BytesIO

import numpy as np
from numpy.typing import NDArray
from PIL import Image

Floats = NDArray[np.float64]

WIDE, HIGH = 800, 560
_WINDOW = np.array([-0.55, -0.6, 0.58])
_SKY = 0.42
"""How much of the light comes from everywhere, so that the far side is not black."""


_LIGHTEST = 0.85
"""The light that a camera lets the lightest places have."""


def rgb(code: str) -> Floats:
    """A colour of six hex digits in linear light."""
    channels = [int(code[at : at + 2], 16) / 255 for at in (1, 3, 5)]
    return _linear(np.array(channels))


def _linear(values: Floats) -> Floats:
    return np.where(values <= 0.04045, values / 12.92, ((values + 0.055) / 1.055) ** 2.4)


def _encoded(values: Floats) -> Floats:
    kept = np.clip(values, 0, 1)
    return np.where(kept <= 0.0031308, kept * 12.92, 1.055 * kept ** (1 / 2.4) - 0.055)


def photographed(codes: Sequence[str], *, seed: int = 1, noise: float = 0.02) -> bytes:
    """A JPEG of balls in so many colours on a table, in two rows.

    Args:
        codes: Six hex digits each: the colour where a strand faces the window.
        seed: Of the noise and of where the balls lie.
        noise: Of the sensor, as a part of full light.
    """
    chance = np.random.default_rng(seed)
    x, y = np.meshgrid(np.arange(float(WIDE)), np.arange(float(HIGH)))
    places = list(_places(len(codes), chance))
    scene = _table(x, y)
    for place in places:
        scene = scene * _shadow(x, y, place)[..., None]
    for code, place in zip(codes, places, strict=True):
        scene = _with_ball(scene, x, y, place, rgb(code))
    scene = scene * _falloff(x, y)[..., None]
    scene = scene * (_LIGHTEST / np.quantile(scene, 0.995))
    scene = scene + chance.normal(0, noise, scene.shape) * np.sqrt(scene + 0.02)
    image = Image.fromarray((_encoded(scene) * 255).round().astype(np.uint8), "RGB")
    kept = BytesIO()
    image.save(kept, "JPEG", quality=85)
    return kept.getvalue()


Place = tuple[float, float, float]
"""Where the middle of a ball is seen, and how large."""


def _places(number: int, chance: np.random.Generator) -> Iterator[Place]:
    across = -(-number // 2)
    for at in range(number):
        column, row = at % across, at // across
        yield (
            (column + 0.5) * WIDE / across + chance.uniform(-10, 10),
            (row + 0.5) * HIGH / 2 + chance.uniform(-14, 14),
            min(WIDE / across, HIGH / 2) * chance.uniform(0.34, 0.42),
        )


def _table(x: Floats, y: Floats) -> Floats:
    """Brown boards with a grain along them."""
    grain = 1 + 0.12 * np.sin(y * 0.55 + 3 * np.sin(x * 0.006)) + 0.06 * np.sin(y * 1.9)
    return np.asarray(grain[..., None] * rgb("#7d5f45"))


def _shadow(x: Floats, y: Floats, place: Place) -> Floats:
    """What is left of the light beside a ball, away from the window."""
    cx, cy, radius = place
    off = np.hypot((x - cx - 0.45 * radius) / 1.15, y - cy - 0.5 * radius) / radius
    return np.asarray(1 - 0.55 / (1 + np.exp((off - 1) * 9)))


def _with_ball(scene: Floats, x: Floats, y: Floats, place: Place, colour: Floats) -> Floats:
    """A ball of yarn, its strands wound askew, lit from the window and from all around."""
    cx, cy, radius = place
    u, v = (x - cx) / radius, (y - cy) / radius
    inside = u * u + v * v < 1
    up = np.sqrt(np.clip(1 - u * u - v * v, 0, 1))
    strand = np.sin((u * 0.8 + v * 0.6 + 0.25 * np.sin(4 * u)) * 34)
    lit = np.clip(u * _WINDOW[0] + v * _WINDOW[1] + up * _WINDOW[2], 0, 1)
    light = (_SKY + (1 - _SKY) * lit) * (0.86 + 0.14 * strand)
    return np.where(inside[..., None], light[..., None] * colour, scene)


def _falloff(x: Floats, y: Floats) -> Floats:
    """Light that grows less away from the window, and towards the corners."""
    away = 1.05 - 0.4 * x / WIDE - 0.12 * y / HIGH
    corner = np.hypot(x - WIDE / 2, y - HIGH / 2) / np.hypot(WIDE / 2, HIGH / 2)
    return np.asarray(away * (1 - 0.25 * corner**2))
