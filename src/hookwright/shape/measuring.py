"""How wide and high does a fabric lie, and what do its repeats and rows take up?

Figures are in widths of a stitch.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from msgspec import Struct

from hookwright.shape.columns import Whole
from hookwright.shape.energy import Complex
from hookwright.shape.graph import FabricGraph, Joint, Laid
from hookwright.shape.row_repeat import longest_repeat
from hookwright.shape.standing import Rings
from hookwright.working.outcome import Outcome


class Extent(Struct, frozen=True):
    """A piece as it lies, in widths of a stitch.

    Attributes:
        width: The way its rows run; the longer side of a piece in rounds.
        height: The other way.
        pitch: What a row takes up; None for less than two rows.
        repeat: How wide a repeat is; None where no row repeats.
        repeat_nodes: How many stitches and chains it has; 0 where there is none.
        angle: How steeply rows climb, in radians.
        folded: Whether it stands up, and the figures are of the piece laid double.
        bent: Whether it bends in the plane, and was measured along its rows.
        block: How long the side of a block is, of a piece worked from corner to corner.
    """

    width: float
    height: float
    pitch: float | None
    repeat: float | None
    repeat_nodes: int
    angle: float
    folded: bool = False
    bent: bool = False
    block: float = 0.0


def extent_of(graph: FabricGraph, position: Complex, outcomes: Sequence[Outcome]) -> Extent:
    """The measures of a piece that lies on the plane.

    Args:
        graph: The piece.
        position: (n,) complex, where its nodes lie.
        outcomes: Its rows as worked.
    """
    rows = [course for course in graph.courses if course.row]
    if all(course.closed for course in rows):
        return _round(graph, position)
    if is_of_blocks(graph):
        return _from_corner(position, rows)
    level = position * np.exp(-1j * row_direction(graph, position))
    body = [course for course in rows if not course.closed]
    bordered = len(body) < len(rows)
    across = any(runs_across(course, level) for course in body)
    middle = _middle(body)
    width = float(np.ptp(level.real)) if bordered or across else _width(level, body) + 1.0
    height = float(np.ptp(level.imag))
    bent = not bordered and _bends(position, body)
    nodes, repeat = _repeat(level, body, outcomes, bent=bent)
    if bent:
        return _straightened(graph, position, body, nodes, repeat)
    return Extent(width, height, _pitch(level, middle), repeat, nodes, _angle(graph, level))


def runs_across(course: Laid, level: Complex) -> bool:
    """Whether a row runs upright, worked along the ends of level ones, as of a cuff."""
    if not course.row or course.number < _SEVERAL:
        return False
    way = level[course.first + course.number - 1] - level[course.first]
    return bool(abs(way.imag) > 2 * abs(way.real))


_SEVERAL = 2


def is_of_blocks(graph: FabricGraph) -> bool:
    """Whether a piece is worked from corner to corner in square blocks."""
    rows = [course for course in graph.courses if course.row]
    return len(rows) > 1 and all(course.block for course in rows)


def _from_corner(position: Complex, rows: Sequence[Laid]) -> Extent:
    """A piece from corner to corner: its sides, and what a block takes of each."""
    width, height = _box(position)
    block = float(np.mean([row.block for row in rows]))
    return Extent(width, height, block, block, 0, np.pi / 4, block=block)


def row_direction(graph: FabricGraph, position: Complex) -> float:
    """The way the rows run, as an angle: from their left ends to their right ends."""
    ways = [
        course.direction
        * complex(position[course.first] - position[course.first + course.number - 1])
        for course in graph.courses
        if not course.closed and course.number > 1
    ]
    whole = way_of_most(ways)
    return float(np.angle(whole)) if abs(whole) > 0 else 0.0


def way_of_most(ways: Sequence[complex]) -> complex:
    """The way that rows run together, without those that stand across the first ones.

    Rows along the ends of others, as of a cuff, run across them and tell nothing of how
    these lie.
    """
    first = next((way for way in ways if abs(way) > 0), 0j)
    alike = [
        way for way in ways if (way * first.conjugate()).real > _ALIKE * abs(way * first)
    ]
    long = sum(map(abs, alike))
    return sum(alike if long > sum(map(abs, ways)) / 2 else ways)


_ALIKE = 0.5
"""The cosine of 60 degrees."""


def _width(level: Complex, rows: Sequence[Laid]) -> float:
    """How wide a piece lies: its usual row, where most rows are as wide as that.

    So a lace is not measured at the plain rows it begins on, which spread below it.
    """
    wide = np.array([np.ptp(level[row.nodes].real) for row in rows if row.number > 1])
    if not len(wide):
        return float(np.ptp(level.real))
    low, middle, high = np.quantile(wide, [0.25, 0.5, 0.75])
    alike = high - low < _SPREAD * middle
    return float(middle) if alike else float(np.ptp(level.real))


_SPREAD = 0.08
"""The middle half of the rows of a straight piece differ by less than that."""


def _bends(position: Complex, rows: Sequence[Laid]) -> bool:
    """Whether rows of about one length run in a bow: a narrow strip with uneven edges."""
    counts = [row.number for row in rows]
    if min(counts) < _FEWEST or max(counts) > _ONE_LENGTH * min(counts):
        return False
    turned = 0j
    for row in rows:
        lies = position[row.nodes]
        third = row.number // 3
        turned += (lies[-1] - lies[-1 - third]) * np.conj(lies[third] - lies[0])
    return bool(abs(np.angle(turned)) > _BOW)


_BOW = 0.35
"""From so much on, in radians, from the first to the last third of a row."""
_FEWEST, _ONE_LENGTH = 9, 1.5


def _straightened(
    graph: FabricGraph,
    position: Complex,
    rows: Sequence[Laid],
    nodes: int,
    repeat: float | None,
) -> Extent:
    """A piece measured along its rows, and as high as its area then makes it."""
    long = [_along(position, row, nodes) for row in rows]
    width = float(np.mean([smooth for smooth, _ in long]))
    steep = float(np.mean([smooth / max(whole, 1e-9) for smooth, whole in long]))
    height = abs(_area(graph, position)) / max(width, 1e-9)
    return Extent(
        width + 1.0,
        height,
        height / len(rows),
        repeat,
        nodes,
        float(np.arccos(min(1.0, steep))),
        bent=True,
    )


def _along(position: Complex, row: Laid, nodes: int) -> tuple[float, float]:
    """How long a row is over its repeats, and from stitch to stitch."""
    each = max(1, min(nodes or row.number // 12, row.number // 3))
    at = np.append(np.arange(0, row.number - 1, each), row.number - 1)
    lies = position[row.nodes]
    smooth = float(np.abs(np.diff(lies[at])).sum())
    return smooth, float(np.abs(np.diff(lies)).sum())


def _area(graph: FabricGraph, position: Complex) -> float:
    """The area of all cells as they lie. Source: the shoelace formula."""
    ends = graph.edge[graph.corner_edge[:, 0]]
    ahead = graph.corner_sign[:, 0] > 0
    node = np.where(ahead, ends[:, 0], ends[:, 1])
    following = np.where(ahead, ends[:, 1], ends[:, 0])
    return float((np.conj(position[node]) * position[following]).imag.sum()) / 2


def _middle(rows: Sequence[Laid]) -> list[Laid]:
    """The rows of the middle, of those that are as long as most."""
    counts = np.array([row.number for row in rows])
    values, often = np.unique(counts, return_counts=True)
    alike = [row for row in rows if row.number == values[often.argmax()]]
    quarter = len(alike) // 4
    return alike[quarter : len(alike) - quarter]


def _pitch(level: Complex, rows: Sequence[Laid]) -> float | None:
    if len(rows) < 2 or rows[0].row == rows[-1].row:
        return None
    first = float(level[rows[0].nodes].imag.mean())
    last = float(level[rows[-1].nodes].imag.mean())
    return abs(last - first) / (rows[-1].row - rows[0].row)


def _angle(graph: FabricGraph, level: Complex) -> float:
    """The usual slope of the rows: the median over their steps."""
    open_rows = [c.row for c in graph.courses if not c.closed and c.row]
    along = graph.joint == int(Joint.ROW)
    along &= np.isin(graph.row[graph.edge[:, 0]], open_rows)
    way = level[graph.edge[along, 1]] - level[graph.edge[along, 0]]
    if not len(way):
        return 0.0
    return float(np.median(np.arctan2(np.abs(way.imag), np.abs(way.real))))


def _repeat(
    level: Complex, rows: Sequence[Laid], outcomes: Sequence[Outcome], *, bent: bool
) -> tuple[int, float | None]:
    """The repeat of the row nearest the middle that has one, and how wide it lies."""
    by_row = {number + 1: outcome for number, outcome in enumerate(outcomes)}
    middle = len(rows) / 2
    for course in sorted(rows, key=lambda row: abs(row.row - middle)):
        outcome = by_row.get(course.row)
        found = longest_repeat(outcome) if outcome is not None else None
        if found is None:
            continue
        start, nodes, times = found
        at = course.first + start + np.arange(nodes * (times - 1))
        if at[-1] + nodes >= course.first + course.number + 1:
            continue
        steps = level[at + nodes] - level[at]
        wide = np.abs(steps if bent else steps.real)
        return nodes, float(wide.mean())
    return 0, None


def _round(graph: FabricGraph, position: Complex) -> Extent:
    """A piece in rounds that lies flat: the sides of the smallest box about it."""
    width, height = _box(position)
    rows = [course for course in graph.courses if course.row]
    return Extent(width, height, _ring_pitch(position, rows), None, 0, 0.0)


def _ring_pitch(position: Complex, rows: Sequence[Laid]) -> float | None:
    """How much farther out each round lies, over the outer half: by the area it adds."""
    if len(rows) < 2:
        return None
    inner, outer = rows[(len(rows) - 1) // 2], rows[-1]
    if inner.row == outer.row:
        return None
    (area, around), (other_area, other) = (
        _hull_measures(position[row.nodes]) for row in (outer, inner)
    )
    if around + other <= 0:
        return None
    return abs(area - other_area) / ((around + other) / 2) / (outer.row - inner.row)


def _hull_measures(position: Complex) -> tuple[float, float]:
    """The area and the way round of the convex hull of some points."""
    hull = position[_hull(position)]
    following = np.roll(hull, -1)
    area = float((np.conj(hull) * following).imag.sum()) / 2
    return abs(area), float(np.abs(following - hull).sum())


def _box(position: Complex) -> tuple[float, float]:
    """The longer and shorter side of the box of least area about some points."""
    level = boxed(position)
    return float(np.ptp(level.real)), float(np.ptp(level.imag))


def boxed(position: Complex) -> Complex:
    """The hull of some points, turned so that its box is least, the longer side level."""
    hull = hull_of(position)
    sides = np.roll(hull, -1) - hull
    turned = hull[None, :] * np.exp(-1j * np.angle(sides))[:, None]
    wide, high = np.ptp(turned.real, axis=1), np.ptp(turned.imag, axis=1)
    best = int(np.argmin(wide * high))
    found: Complex = turned[best] * (1 if wide[best] >= high[best] else 1j)
    return found


def hull_of(position: Complex) -> Complex:
    """The corners of the convex hull of some points, anticlockwise."""
    found: Complex = position[_hull(position)]
    return found


def _hull(position: Complex) -> Whole:
    """The corners of the convex hull, by Andrew's monotone chain, a loop over points."""
    order = np.lexsort((position.imag, position.real))
    points = [(float(position[i].real), float(position[i].imag), int(i)) for i in order]
    chains: list[list[tuple[float, float, int]]] = []
    for way in (points, points[::-1]):
        chain: list[tuple[float, float, int]] = []
        for point in way:
            while len(chain) > 1 and _turn(chain[-2], chain[-1], point) <= 0:
                chain.pop()
            chain.append(point)
        chains.append(chain[:-1])
    return np.array([i for chain in chains for *_, i in chain], dtype=np.int64)


def _turn(
    a: tuple[float, float, int], b: tuple[float, float, int], c: tuple[float, float, int]
) -> float:
    return (b[0] - a[0]) * (c[1] - a[1]) - (b[1] - a[1]) * (c[0] - a[0])


def standing_extent(rings: Rings, outline: Complex | None = None) -> Extent:
    """A cap, tube or ball laid double: half its widest round, and all its heights.

    A garment is told by the line round its front, which lies flat.
    """
    width, height = rings.laid_double if outline is None else _box(outline)
    heights = [ring.course.height for ring in rings.rings]
    pitch = float(np.mean(heights)) if heights else None
    return Extent(width, height, pitch, None, 0, 0.0, folded=True)
