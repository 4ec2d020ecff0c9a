"""A stitch as strands of yarn: curves through points of its own frame.

A point is (u, v, a, z) in widths of a stitch: u to the right along the row as it is seen, v
from the place it stands on (0) to its top (1), a further along the post, z to the eye.
A stitch seen from the side that the worker faced is `FRONT`, from the other one `BACK`. The
courses of the yarn follow from working the stitch with a hook: the legs begin below and
behind the top of the row underneath and come forward over it, so that rows interlock.
"""

from __future__ import annotations

from enum import StrEnum

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray

Real32 = NDArray[np.float32]
Point = tuple[float, float, float, float]


class Seen(StrEnum):
    """Which side of a row is seen."""

    FRONT = "front"
    BACK = "back"

    @property
    def way(self) -> int:
        """1 where a right-hander worked the row to the left as it is seen, else -1."""
        return 1 if self is Seen.FRONT else -1

    @property
    def other(self) -> Seen:
        """The other side."""
        return Seen.BACK if self is Seen.FRONT else Seen.FRONT


class Strand(Struct, frozen=True):
    """A piece of yarn.

    Attributes:
        points: Where it goes.
        thick: How thick it is, against the yarn at rest.
    """

    points: tuple[Point, ...]
    thick: float = 1.0


class Shape(Struct, frozen=True):
    """A stitch, or a part of one, as strands.

    Attributes:
        strands: Its strands.
        height: How high it stands at rest, in widths.
        on_row: Whether it lies along a row, with no place that it stands on.
    """

    strands: tuple[Strand, ...]
    height: float = 1.0
    on_row: bool = False


def strand(*points: Point, thick: float = 1.0) -> Strand:
    """A strand through some points."""
    return Strand(points, thick)


def leaning(
    strands: tuple[Strand, ...], seen: Seen, by: float = 0.07
) -> tuple[Strand, ...]:
    """Tops sit to one side of the posts: a little to the right from the front."""
    by *= seen.way
    return tuple(
        Strand(
            tuple(
                (u + by * (min(max(v, 0), 1) - 0.5), v, a, z) for u, v, a, z in one.points
            ),
            one.thick,
        )
        for one in strands
    )


class Sampled(Struct, frozen=True, eq=False):
    """A shape as samples of its centre lines, one strand behind the other.

    Attributes:
        u: (m,) to the right.
        v: (m,) up.
        a: (m,) further up, in widths.
        z: (m,) towards the eye.
        along: (m,) how far along its strand, in widths.
        thick: (m,) how thick.
        starts: (s + 1,) where each strand begins, and the end of the last.
    """

    u: Real32
    v: Real32
    a: Real32
    z: Real32
    along: Real32
    thick: Real32
    starts: tuple[int, ...]


def sampled(shape: Shape, per_width: float) -> Sampled:
    """Evenly spaced samples of a shape.

    Args:
        shape: The shape.
        per_width: How many samples a width of a stitch has.
    """
    pieces = [_even(one, shape.height, per_width) for one in shape.strands]
    joined = np.concatenate(pieces).astype(np.float32)
    ends = np.cumsum([0, *map(len, pieces)])
    u, v, a, z, along, thick = np.ascontiguousarray(joined.T)
    return Sampled(u, v, a, z, along, thick, tuple(int(end) for end in ends))


_FINE = 16
"""Steps to a piece of a curve while its length is taken."""


def _even(one: Strand, height: float, per_width: float) -> NDArray[np.float64]:
    """(n, 6) samples of a strand: u, v, a, z, how far along, how thick."""
    curve = through(np.array(one.points, dtype=float), _FINE)
    step = np.diff(curve, axis=0)
    up = step[:, 1] * height + step[:, 2]
    long = np.sqrt(step[:, 0] ** 2 + up**2 + 0.25 * step[:, 3] ** 2)
    along = np.concatenate([[0.0], np.cumsum(long)])
    number = max(5, int(np.ceil(along[-1] * per_width)) + 1)
    at = np.linspace(0, along[-1], number)
    columns = [np.interp(at, along, curve[:, i]) for i in range(4)]
    return np.column_stack([*columns, at, np.full(number, one.thick)])


def through(points: NDArray[np.float64], fine: int) -> NDArray[np.float64]:
    """A smooth curve through points, `fine` steps from one to the next.

    Source: Catmull and Rom, A class of local interpolating splines, 1974.
    """
    first, last = 2 * points[0] - points[1], 2 * points[-1] - points[-2]
    held = np.vstack([first, points, last])
    pieces = len(points) - 1
    at = np.linspace(0, pieces, fine * pieces + 1)
    piece = np.minimum(at.astype(int), pieces - 1)
    x = (at - piece)[:, None]
    p0, p1, p2, p3 = (held[piece + i] for i in range(4))
    curve: NDArray[np.float64] = 0.5 * (
        2 * p1
        + (p2 - p0) * x
        + (2 * p0 - 5 * p1 + 4 * p2 - p3) * x**2
        + (3 * p1 - p0 - 3 * p2 + p3) * x**3
    )
    return curve
