"""Which way up does a piece lie in its picture?

Rows run level. A piece of rounds lies in the smallest upright box there is for its last
one, so a square stands on a side; of the four ways that are left, its rounds begin at the
bottom. A piece at rest may lie at any angle: nothing holds it.
"""

from __future__ import annotations

import numpy as np

from hookwright.shape.energy import Complex
from hookwright.shape.graph import FabricGraph, Laid

_QUARTER = np.pi / 2
_STEPS = 90


def level(graph: FabricGraph, position: Complex) -> Complex:
    """(n,) where the nodes of a piece lie once it is turned level, about its middle."""
    rows = [course for course in graph.courses if course.row and course.number > 1]
    to_and_fro = [course for course in rows if not course.closed]
    if to_and_fro:
        turned = position * np.exp(-1j * _along(to_and_fro, position))
    elif rows:
        turned = _upright(rows, position)
    else:
        turned = position
    middle = complex(turned.real.mean(), turned.imag.mean()) if len(turned) else 0j
    found: Complex = turned - middle
    return found


def _along(rows: list[Laid], position: Complex) -> float:
    """The way rows run, from their left ends to their right ends."""
    whole = 0j
    for row in rows:
        way = position[row.first] - position[row.first + row.number - 1]
        whole += row.direction * way
    return float(np.angle(whole)) if abs(whole) > 1e-9 else 0.0


def _upright(rounds: list[Laid], position: Complex) -> Complex:
    """Rounds in the smallest upright box, begun at the bottom."""
    rim = position[rounds[-1].nodes]
    coarse = np.linspace(0, _QUARTER, _STEPS, endpoint=False)
    angle = _best(rim, coarse)
    step = _QUARTER / _STEPS
    angle = _best(rim, angle + np.linspace(-step, step, 41))
    turned = position * np.exp(1j * angle)
    begins = turned[rounds[0].first] - turned[rounds[0].nodes].mean()
    quarters = np.round((-_QUARTER - np.angle(begins)) / _QUARTER)
    found: Complex = turned * np.exp(1j * _QUARTER * quarters)
    return found


def _best(rim: Complex, angles: np.typing.NDArray[np.float64]) -> float:
    """The angle by which the points take up the smallest upright box."""
    turned = rim[None, :] * np.exp(1j * angles)[:, None]
    area = np.ptp(turned.real, axis=1) * np.ptp(turned.imag, axis=1)
    return float(angles[int(np.argmin(area))])
