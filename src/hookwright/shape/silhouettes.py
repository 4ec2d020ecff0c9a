"""What shape is a piece, drawn with straight lines where it is straight?

Row ends that step in and out by less than a stitch are one edge; what runs level or upright
but for a stitch in many is level or upright. A round rim is a circle, one with corners has
straight sides between them. What stands up is laid double.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from msgspec import Struct

from hookwright.shape.columns import Real
from hookwright.shape.corners import corners_of
from hookwright.shape.energy import Complex
from hookwright.shape.fronts import Front
from hookwright.shape.graph import FabricGraph, Laid
from hookwright.shape.measuring import (
    boxed,
    hull_of,
    is_of_blocks,
    row_direction,
    runs_across,
)
from hookwright.shape.sides import first_way
from hookwright.shape.standing import rings_of
from hookwright.working.outcome import Outcome

Point = tuple[float, float]

_HALF = 0.5
_STITCH = 1.1
"""Widths of a stitch by which an edge may come and go, and be straight."""
_SHARE = 0.016
"""The same as a share of the piece."""
_ROUND = 0.03
"""How much the radius of a rim may vary, as a share, and be a circle."""
_LEVEL = 0.09
"""The steepest slope, and the furthest from upright, that is drawn level or upright."""
_NOTCH = 2
"""Rows, up and down, over which a short row is filled up."""


class Silhouette(Struct, frozen=True):
    """The shape of a piece.

    Attributes:
        corners: Its corners in widths of a stitch, anticlockwise, y up; of a circle many.
        circle: Whether it is one.
    """

    corners: tuple[Point, ...]
    circle: bool = False

    def sized(self, width: float, height: float) -> Silhouette:
        """The same, so wide and so high, its lower left corner at 0."""
        at = np.array(self.corners)
        low = at.min(axis=0)
        scale = np.array([width, height]) / np.maximum(np.ptp(at, axis=0), 1e-9)
        placed = ((at - low) * scale).tolist()
        return Silhouette(tuple((x, y) for x, y in placed), self.circle)


def silhouette_of(
    graph: FabricGraph,
    position: Complex | None,
    outcomes: Sequence[Outcome],
    front: Front | None = None,
) -> Silhouette:
    """The shape of a piece from its right side, its rows level.

    Args:
        graph: The piece.
        position: (n,) where it lies, y up; None for one that stands up.
        outcomes: Its rows as worked.
        front: The upper layer of what is laid double, where that has a shape of its own.
    """
    if front is not None:
        outline = front.outline if front.garment else _rounded(front.outline)
        return Silhouette(_as_points(outline))
    if position is None:
        return _doubled(graph)
    rims = [course for course in graph.courses if course.closed and course.number > 2]
    if rims:
        return _of_rim(position[rims[-1].nodes])
    if is_of_blocks(graph):
        return Silhouette(_as_points(straightened(boxed(position))))
    level = position * np.exp(-1j * row_direction(graph, position))
    if first_way(graph.courses, outcomes) < 0:
        level = -level.conj()
    across = [course for course in graph.courses if runs_across(course, level)]
    body = [course for course in graph.courses if course not in across]
    shape = _squared(_round_rows(body, level))
    if across and len(shape) == _FOUR:
        shape = _with_cuff(shape, level[np.concatenate([own.nodes for own in across])])
    elif across or _crosses_itself(shape):
        shape = straightened(hull_of(level))
    return Silhouette(_as_points(shape))


_FOUR = 4


def _with_cuff(shape: Complex, cuff: Complex) -> Complex:
    """A shape of four corners, and beside it the box of what goes on from its row ends."""
    low, high = float(cuff.imag.min()) - _HALF, float(cuff.imag.max()) + _HALF
    left, right = float(cuff.real.min()), float(cuff.real.max())
    low, high = max(low, float(shape.imag.min())), min(high, float(shape.imag.max()))
    at_right = right - shape.real.max() > shape.real.min() - left
    if not at_right:
        return -_with_cuff(-shape, -cuff)
    inner, outer = float(shape.real.max()), right
    step = np.array(
        [inner + 1j * low, outer + 1j * low, outer + 1j * high, inner + 1j * high]
    )
    below = shape[np.argsort(shape.imag)[:2]]
    first = int(np.flatnonzero(shape == below[below.real.argmax()])[0]) + 1
    found: Complex = np.concatenate([shape[:first], step, shape[first:]])
    return found


def _doubled(graph: FabricGraph) -> Silhouette:
    """The shape of a piece that stands up, laid double, its first round at the top.

    Each round is half as wide as it is long, as far down as the rounds before it are high
    together. Rows that it begins on are a band as wide as the first of them.
    """
    courses, down, right = graph.courses, 0.0, list[complex]()
    rings = rings_of(graph)
    if rings is not None and rings.deep:
        courses, down = tuple(ring.course for ring in rings.rings), rings.deep
        wide = courses[0].number / 4
        right = [complex(wide, 0), complex(wide, -down)]
    for course in courses:
        down += course.height
        if course.number > 1:
            right.append(complex(course.number / 4, -down))
    begins = [0j] if courses[0].number == 1 else list[complex]()
    side = _kept(np.array([*begins, *right]), _near(np.array([*right, 0j])))
    both = np.concatenate([-side[len(begins) :].conj(), side[::-1]])
    return Silhouette(_as_points(_squared(both)))


def _rounded(outline: Complex) -> Complex:
    """A dome without the corners that its rounds make; its rim stays as it is.

    Source: corner cutting, Chaikin, An algorithm for high-speed curve generation, 1974.
    """
    half = len(outline) // 2
    up = np.maximum.accumulate(outline.imag[half:])  # where a crown dips in the plane
    side = outline.real[half:] + 1j * up
    line: Complex = np.concatenate([side, -side[::-1].conj()])
    for _ in range(_CUTS):
        before, behind = line[:-1], line[1:]
        cut = np.stack([0.75 * before + 0.25 * behind, 0.25 * before + 0.75 * behind], 1)
        line = np.concatenate([line[:1], cut.ravel(), line[-1:]])
    return line


_CUTS = 3


def _of_rim(rim: Complex) -> Silhouette:
    """A circle, a shape with straight sides, or the rim as it is."""
    centre = complex(
        (rim.real.min() + rim.real.max()) / 2, (rim.imag.min() + rim.imag.max()) / 2
    )
    far = np.abs(rim - centre)
    corners, _ = corners_of(rim - centre)
    if corners:
        turn = (2 * np.arange(corners) + 1) * np.pi / corners - np.pi / 2  # a side below
        return Silhouette(_as_points(far.max() * np.exp(1j * turn)))
    if far.std() < _ROUND * far.mean():
        turn = np.linspace(0, 2 * np.pi, 120, endpoint=False)
        return Silhouette(_as_points(far.mean() * np.exp(1j * turn)), circle=True)
    return Silhouette(_as_points(rim - centre))


def _round_rows(courses: Sequence[Laid], position: Complex) -> Complex:
    """The line round a piece of rows, anticlockwise from the lower left."""
    rows = [position[course.nodes] for course in courses if course.number > 1]
    rows.sort(key=lambda row: float(row.imag.mean()))
    rows = [row if row[0].real < row[-1].real else row[::-1] for row in rows]
    level = np.array([row.imag.mean() for row in rows])
    right = _filled(np.array([row.real.max() for row in rows])) + _HALF
    left = -_filled(np.array([-row.real.min() for row in rows])) - _HALF
    foot, head = rows[0].copy(), rows[-1].copy()
    foot[0], foot[-1] = foot[0] - _HALF, foot[-1] + _HALF
    head[0], head[-1] = head[0] - _HALF, head[-1] + _HALF
    up, down = right + 1j * level, left + 1j * level
    near = _near(np.concatenate([up, down]))
    sides = [
        _kept(np.concatenate([foot[-1:], up[1:-1], head[-1:]]), near),
        _kept(np.concatenate([head[:1], down[1:-1][::-1], foot[:1]]), near),
    ]
    edges = [_kept(foot, _STITCH), _kept(head[::-1], _STITCH)]
    pieces = [edges[0], sides[0], edges[1], sides[1]]
    return np.concatenate([piece[:-1] for piece in pieces])


def _near(line: Complex) -> float:
    """How near to a straight line a point is on it."""
    size = float(max(np.ptp(line.real), np.ptp(line.imag)))
    return max(_STITCH, _SHARE * size)


def _crosses_itself(corners: Complex) -> bool:
    """Whether two sides of a closed line cross, as where rows run over each other."""
    begin, end = corners, np.roll(corners, -1)
    way = end - begin

    def side(points: Complex) -> Real:
        found: Real = (np.conj(way)[:, None] * (points[None, :] - begin[:, None])).imag
        return found

    apart = side(begin) * side(end) < 0
    return bool((apart & apart.T).any())


def _filled(far: Real) -> Real:
    """How far rows reach, single short ones filled up to those about them."""
    if len(far) < 2 * _NOTCH + 1:
        return far
    window = np.arange(-_NOTCH, _NOTCH + 1)
    at = np.clip(np.arange(len(far))[:, None] + window, 0, len(far) - 1)
    found: Real = far[at].max(axis=1)[at].min(axis=1)
    return found


def straightened(line: Complex) -> Complex:
    """A closed line with its corners only, in the order of its points.

    What is nearer to a straight line than a stitch is on it. Source: Douglas and Peucker,
    Algorithms for the reduction of the number of points, 1973.
    """
    near = _near(line)
    first = int(np.argmin(line.real + line.imag))
    line = np.roll(line, -first)
    half = int(np.argmax(np.abs(line - line[0])))
    one = _kept(line[: half + 1], near)
    other = _kept(np.append(line[half:], line[0]), near)
    return _squared(np.concatenate([one[:-1], other[:-1]]))


def _kept(line: Complex, near: float) -> Complex:
    """The points of an open line that are further off it than that, and its ends."""
    stack, kept = [(0, len(line) - 1)], {0, len(line) - 1}
    while stack:
        begin, end = stack.pop()
        if end - begin < 2:
            continue
        way = line[end] - line[begin]
        inner = line[begin + 1 : end] - line[begin]
        long = abs(way)
        off = np.abs((inner * np.conj(way)).imag) / long if long > 0 else np.abs(inner)
        most = int(np.argmax(off))
        if off[most] > near:
            at = begin + 1 + most
            kept.add(at)
            stack += [(begin, at), (at, end)]
    found: Complex = line[sorted(kept)]
    return found


def _squared(corners: Complex) -> Complex:
    """Corners with what is nearly level made level, and what is nearly upright upright."""
    x, y = corners.real.copy(), corners.imag.copy()
    for at in range(len(corners)):
        nxt = (at + 1) % len(corners)
        wide, high = abs(x[nxt] - x[at]), abs(y[nxt] - y[at])
        if high < _LEVEL * wide:
            _set_alike(y, at, nxt)
        elif wide < _LEVEL * high:
            _set_alike(x, at, nxt)
    found: Complex = x + 1j * y
    before, behind = found - np.roll(found, 1), np.roll(found, -1) - found
    turns = np.abs((np.conj(before) * behind).imag)
    bent: Complex = found[turns > _TINY * np.abs(before) * np.abs(behind)]
    return bent if len(bent) > 2 else found


_TINY = 1e-6


def _set_alike(values: Real, one: int, other: int) -> None:
    """Two values, and all that are the same as one of them already, become their mean."""
    alike = (values == values[one]) | (values == values[other])
    values[alike] = (values[one] + values[other]) / 2


def _as_points(line: Complex) -> tuple[Point, ...]:
    return tuple((float(point.real), float(point.imag)) for point in line)
