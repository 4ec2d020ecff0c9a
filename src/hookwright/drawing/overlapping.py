"""Which symbols of a chart lie on one another?

It is asked of the slender boxes that the ink of each symbol takes up.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np

from hookwright.drawing.chart_row import Mark
from hookwright.drawing.strokes import Quad
from hookwright.shape.columns import Truth, Whole
from hookwright.shape.energy import Complex

TOUCH = 0.01
"""Millimetres by which boxes may reach into one another: much less than a line is wide."""
_AT_ONCE = 500


def overlapping(marks: Sequence[Mark]) -> list[tuple[int, int]]:
    """Pairs of symbols that lie on one another, by their numbers, the smaller first."""
    owner = np.array([at for at, mark in enumerate(marks) for _ in mark.glyph.boxes])
    quads = np.array([quad for mark in marks for quad in mark.glyph.boxes])
    found: set[tuple[int, int]] = set()
    for one, other in _near(quads) if len(quads) else ():
        apart = owner[one] != owner[other]
        pair = np.stack([one[apart], other[apart]])
        hit = pair[:, meet(quads[pair[0]], quads[pair[1]])]
        found |= set(zip(*np.sort(owner[hit], axis=0).tolist(), strict=True))
    return sorted(found)


def _near(quads: Complex) -> Iterator[tuple[Whole, Whole]]:
    """Pairs of boxes whose upright boxes meet, some at a time."""
    left, right = quads.real.min(axis=1), quads.real.max(axis=1)
    top, bottom = quads.imag.min(axis=1), quads.imag.max(axis=1)
    order = np.argsort(top, kind="stable")
    ends = np.searchsorted(top[order], bottom[order], side="right")
    for begin in range(0, len(order), _AT_ONCE):
        rank = np.arange(begin, min(begin + _AT_ONCE, len(order)))
        many = np.maximum(ends[rank] - rank - 1, 0)
        one = np.repeat(rank, many)
        other = np.arange(many.sum()) - np.repeat(np.cumsum(many) - many, many) + one + 1
        one, other = order[one], order[other]
        beside = (left[one] < right[other]) & (left[other] < right[one])
        yield one[beside], other[beside]


def meet(one: Complex, other: Complex) -> Truth:
    """Whether boxes lie on one another, pair by pair: no straight line parts them.

    Source: the separating axis theorem for convex shapes.

    Args:
        one: (p, 4) complex, the corners of boxes.
        other: (p, 4) complex, likewise.
    """
    together = np.ones(len(one), dtype=bool)
    for quads in (one, other):
        for side in (quads[:, 1] - quads[:, 0], quads[:, 2] - quads[:, 1]):
            long = np.abs(side)
            for way in (side, 1j * side):
                axis = (way / np.maximum(long, 1e-9)).conj()[:, None]
                a, b = (one * axis).real, (other * axis).real
                parted = a.max(axis=1) - TOUCH <= b.min(axis=1)
                parted |= b.max(axis=1) - TOUCH <= a.min(axis=1)
                together &= ~(parted & (long > 1e-9))
    return together


def inside(start: complex, end: complex, quad: Quad, margin: float) -> tuple[float, float]:
    """Which share of a line lies in a box, or as near it as a margin; (0, 0) for none.

    Source: clipping of a line at the half-planes of a convex shape (Cyrus and Beck, 1978).

    Args:
        start: Where the line begins, in mm.
        end: Where it ends.
        quad: The box.
        margin: How near counts as in it, in mm.
    """
    along, across = quad[1] - quad[0], quad[3] - quad[0]
    if abs(along) < abs(across):
        along, across = across, along
    if abs(along) < 1e-9:
        along = 1 + 0j
    way = along / abs(along)
    turned = [(p * way.conjugate()) for p in quad]
    one, other = start * way.conjugate(), end * way.conjugate()
    low, high = 0.0, 1.0
    for at, step, least, most in (
        (one.real, other.real - one.real, *_reach([p.real for p in turned], margin)),
        (one.imag, other.imag - one.imag, *_reach([p.imag for p in turned], margin)),
    ):
        if abs(step) < 1e-9:
            if not least < at < most:
                return 0.0, 0.0
            continue
        first, last = sorted(((least - at) / step, (most - at) / step))
        low, high = max(low, first), min(high, last)
    return (low, high) if low < high else (0.0, 0.0)


def _reach(values: Sequence[float], margin: float) -> tuple[float, float]:
    return min(values) - margin, max(values) + margin
