"""Does a piece stand up as a cap, tube or ball does, and how large is it then?

What goes round is told by its lengths: a round of length f lies f / 2 pi from the axis, and
takes up what its height leaves beside the way outwards. So a cap, a ball and a vase have
their measures without any layout. Source: surfaces of revolution. Figures are in widths of
a stitch.
"""

from __future__ import annotations

import numpy as np
from msgspec import Struct

from hookwright.shape.columns import Real
from hookwright.shape.graph import FabricGraph, Joint, Laid

STANDS_UP = -0.3
"""By counts alone: no piece that short at its rim lies flat, so it is not laid out so."""
_GOES_ON = 0.6
"""Of the round before: a row as long as that goes round most of the piece, left open."""
_TUBE = 0.6
"""Of the way round some rows: a round shorter than that is no border of them."""
_ROUNDED = 0.08
"""A round that much too long is flat: counts are whole, and blocking takes it up."""
_ALONG = 0.5
"""Of the stitches of a round: so many stand on the last row of what goes on as a tube."""


class Ring(Struct, frozen=True):
    """A round of a piece, or a row that goes most of the way round it.

    Attributes:
        course: The row.
        length: How long it is.
        radius: How far from the axis it stands.
        level: How far down from the beginning it stands.
        slope: How steeply the fabric falls to it from the one before, in radians: 0 for a
            flat disc, a right angle for a tube, more where it draws in; None where it is
            too long for its room, and ruffles.
        curvature: How much all fabric inside it is bent, in radians: 0 for a disc, 2 pi for
            a cap with upright sides, 4 pi for a ball, below 0 for what ruffles. Source:
            Gauss-Bonnet, with the growth of a round over its height for its turning.
    """

    course: Laid
    length: float
    radius: float
    level: float
    slope: float | None
    curvature: float


class Rings(Struct, frozen=True):
    """What goes round in a piece.

    Attributes:
        rings: Its rounds.
        deep: How deep the rows are that it begins on; 0 for a ring or chain.
    """

    rings: tuple[Ring, ...]
    deep: float

    @property
    def across(self) -> float:
        """How wide it stands, at its widest."""
        return max((2 * ring.radius for ring in self.rings), default=0.0)

    @property
    def tall(self) -> float:
        """How tall it stands."""
        return self.deep + (self.rings[-1].level if self.rings else 0.0)

    @property
    def laid_double(self) -> tuple[float, float]:
        """Its width and height as it is laid double."""
        widest = max((ring.length / 2 for ring in self.rings), default=0.0)
        return widest, self.deep + sum(ring.course.height for ring in self.rings)


def row_lengths(graph: FabricGraph) -> Real:
    """(rows + 1,) how long each row is, half a stitch at open ends; foundation first."""
    along = graph.joint == int(Joint.ROW)
    row = graph.row[graph.edge[along, 1]]
    number = max((course.row for course in graph.courses), default=0) + 1
    lengths: Real = np.bincount(row, graph.length[along], minlength=number).astype(float)
    for course in graph.courses:
        if course.number and (not course.closed or course.number < 3):
            lengths[course.row] += 1.0
    return lengths


def rings_of(graph: FabricGraph) -> Rings | None:
    """What goes round in a piece; None for one of rows, with or without a border."""
    rows = [course for course in graph.courses if course.row and course.number]
    if not rows:
        return None
    lengths = row_lengths(graph)
    if rows[0].closed and not rows[-1].closed and _grows_open(rows, lengths):
        return None
    if rows[0].closed:
        return Rings(_stacked(graph, _going_round(rows, lengths), lengths), 0.0)
    first = next((number for number, row in enumerate(rows) if row.closed), None)
    if first is None or not _is_tube(rows[:first], rows[first], lengths):
        return None
    deep = _deep(graph, rows[:first], rows[first], lengths)
    return Rings(_stacked(graph, _going_round(rows[first:], lengths), lengths), deep)


def _grows_open(rows: list[Laid], lengths: Real) -> bool:
    """Whether most of a piece is rows that grow and stay open: a fan, as a shawl is."""
    left_open = [row for row in rows if not row.closed]
    begun = float(lengths[left_open[0].row])
    grows = float(lengths[left_open[-1].row]) > _GROWS * begun
    return grows and len(left_open) > len(rows) / 2


_GROWS = 1.5


def _going_round(rows: list[Laid], lengths: Real) -> list[Laid]:
    """The rows that go round: closed ones, and open ones as long as most of a round."""
    found: list[Laid] = []
    for row in rows:
        if row.closed or (found and lengths[row.row] >= _GOES_ON * lengths[found[-1].row]):
            found.append(row)
    return found


def _is_tube(body: list[Laid], first: Laid, lengths: Real) -> bool:
    """Whether a round goes on from one side of some rows, and does not border them all."""
    long = float(np.mean([lengths[row.row] for row in body]))
    around = 2 * (long + sum(row.height for row in body))
    return bool(lengths[first.row] < _TUBE * around)


def _deep(graph: FabricGraph, body: list[Laid], first: Laid, lengths: Real) -> float:
    """How deep rows are along the axis of the tube that goes on from them."""
    legs = graph.edge[graph.joint == int(Joint.STITCH)]
    own = legs[graph.row[legs[:, 1]] == first.row]
    on_last = graph.row[own[:, 0]] == body[-1].row
    if len(own) and float(on_last.mean()) >= _ALONG:
        return sum(row.height for row in body)
    return float(np.mean([lengths[row.row] for row in body]))


def _stacked(graph: FabricGraph, rows: list[Laid], lengths: Real) -> tuple[Ring, ...]:
    """Rounds one below the other by their lengths."""
    start = graph.courses[0]
    before = 0.0
    if rows and rows[0].row > 1:
        before = float(lengths[rows[0].row])
    elif start.number > 1:
        before = float(start.number * (1 if start.closed else 2))
    level = 0.0
    found: list[Ring] = []
    for row in rows:
        length = float(lengths[row.row])
        out, tall = (length - before) / (2 * np.pi), row.height or 1e-9
        cosine = out / tall
        level += tall * float(np.sqrt(max(0.0, 1 - cosine**2)))
        fits = cosine <= 1 + _ROUNDED
        slope = float(np.arccos(np.clip(cosine, -1.0, 1.0))) if fits else None
        curvature = 2 * np.pi * (1 - cosine)
        found.append(Ring(row, length, length / (2 * np.pi), level, slope, curvature))
        before = length
    return tuple(found)


def by_counts(graph: FabricGraph) -> float | None:
    """The surplus of the last round by its length alone; None for a piece not in rounds.

    It is held against the circle as far out as the rounds are high together: for a disc of
    m increases that is m w / (2 pi h) - 1, and a polygon has more. About a chain it is an
    oval, which goes along both its sides.
    """
    found = rings_of(graph)
    if found is None or not found.rings:
        return None
    if found.deep:
        return -1.0
    start = graph.courses[0]
    chain = start.number * (1 if start.closed else 2) if start.number > 1 else 0
    around = chain + 2 * np.pi * sum(ring.course.height for ring in found.rings)
    return found.rings[-1].length / around - 1 if around else None
