"""Which symbols of a chart lie on one another? By the boxes that their ink takes up."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from numpy.typing import NDArray

from hookwright.drawing.chart_row import Mark
from hookwright.drawing.overlapping import meet

Complex = NDArray[np.complex128]


def overlaps(marks: Sequence[Mark]) -> list[tuple[Mark, Mark]]:
    """Pairs of symbols whose boxes lie on one another."""
    owner = np.array([at for at, mark in enumerate(marks) for _ in mark.glyph.boxes])
    quads = np.array([quad for mark in marks for quad in mark.glyph.boxes])
    found: set[tuple[int, int]] = set()
    for pair in near(quads):
        one, other = pair[:, owner[pair[0]] != owner[pair[1]]]
        hit = meet(quads[one], quads[other])
        pairs = np.sort(np.stack([owner[one[hit]], owner[other[hit]]], axis=1), axis=1)
        found |= {(int(a), int(b)) for a, b in pairs}
    return [(marks[one], marks[other]) for one, other in sorted(found)]


def near(quads: Complex) -> list[NDArray[np.int64]]:
    """(2, p) pairs of boxes whose upright boxes meet, some at a time."""
    left, right = quads.real.min(axis=1), quads.real.max(axis=1)
    top, bottom = quads.imag.min(axis=1), quads.imag.max(axis=1)
    order = np.argsort(top)
    ends = np.searchsorted(top[order], bottom[order], side="right")
    found = []
    for begin in range(0, len(order), 500):
        rank = np.arange(begin, min(begin + 500, len(order)))
        many = np.maximum(ends[rank] - rank - 1, 0)
        one = np.repeat(rank, many)
        other = np.arange(many.sum()) - np.repeat(np.cumsum(many) - many, many) + one + 1
        one, other = order[one], order[other]
        beside = (left[one] < right[other]) & (left[other] < right[one])
        found.append(np.stack([one[beside], other[beside]]))
    return found
