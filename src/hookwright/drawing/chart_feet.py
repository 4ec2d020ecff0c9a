"""Where do the stems of a chart stand, and what is marked at their feet?

Several stitches in one place fan out from it; in a space their feet stand side by side over
its chains. A stitch in the gap between two stands between them, one that reaches rows down
stands where it goes in.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.drawing.row_ends import OUT, on_row_ends
from hookwright.drawing.strokes import CHAIN_BROAD
from hookwright.shape.columns import PARTS
from hookwright.shape.graph import FabricGraph, Laid
from hookwright.working.fabric import Into

OVER_CHAIN = CHAIN_BROAD + 0.07
IN_RING = 0.46
"""How far above a chain, and from the middle of a ring, stems begin, in widths."""
_LOOPS = {Into.BACK_LOOP: "back", Into.FRONT_LOOP: "front", Into.THIRD_LOOP: "third"}
_POSTS = {Into.FRONT_POST: "front", Into.BACK_POST: "back"}
_FREE = 0.13
"""How far apart stems that fan out stand where they begin."""
_BEYOND = 0.3
"""How far beyond the middle of its last chain the feet in a space are drawn."""


class Feet(Struct, frozen=True):
    """What a stitch stands on.

    Attributes:
        at: The point of each of its feet, in mm.
        loop: The loop it is worked into, as the words say it; "" for both.
        post: The post it goes round.
        keep: How much is left free above its feet, in mm.
        marked: Whether the loop is marked at it: of several in one place only at one.
        fan: Whether others stand in the same place, so that there is less room below.
    """

    at: tuple[complex, ...]
    loop: str = ""
    post: str = ""
    keep: float = 0.0
    marked: bool = True
    fan: bool = False


Leg = tuple[int, Into]


class _Ground(Struct, frozen=True):
    """What stitches stand on.

    Attributes:
        points: Where each node lies, in mm.
        unit: The width of a stitch.
        chain: Whether each node is a chain.
        row: The row of each node.
        shared: The stitches that stand on a place with no other foot, by the place.
        sides: Whether each stitch stands on the end of a row.
    """

    points: Sequence[complex]
    unit: float
    chain: Sequence[bool]
    row: Sequence[int]
    shared: Mapping[int, Sequence[int]]
    sides: Sequence[bool]

    def is_ring(self, node: int) -> bool:
        """Whether a node is the middle of a ring."""
        return not self.row[node] and not self.chain[node]

    def along(self, node: int) -> complex:
        """The way of its row at a chain, of length 1."""
        one, other = self.arc(node, 1)
        way = self.points[other] - self.points[one]
        return way / abs(way) if abs(way) > 1e-9 else 1 + 0j

    def arc(self, node: int, most: int = 99) -> tuple[int, int]:
        """The first and last of at most so many chains on either side of one."""
        first = last = node
        row = self.row[node]
        while first > max(0, node - most) and self._goes_on(first - 1, row):
            first -= 1
        while last < min(len(self.row) - 1, node + most) and self._goes_on(last + 1, row):
            last += 1
        return first, last

    def _goes_on(self, node: int, row: int) -> bool:
        return self.chain[node] and self.row[node] == row

    def over(self, at: complex, along: complex, top: complex) -> complex:
        """A point over a chain, on the side of a top."""
        up = 1j * along
        side = 1 if ((top - at) * up.conjugate()).real > 0 else -1
        return at + side * OVER_CHAIN * self.unit * up


def feet_of(graph: FabricGraph, points: Sequence[complex], unit: float) -> dict[int, Feet]:
    """The feet of every stitch that has any, by its top."""
    legs = _legs(graph)
    ground = _Ground(
        points,
        unit,
        graph.is_chain.tolist(),
        graph.row.tolist(),
        _shared(legs),
        on_row_ends(graph).tolist(),
    )
    found = {top: _feet(ground, top, own) for top, own in legs.items()}
    for course in graph.courses:
        if _is_behind(graph, course, legs):
            most = _BEHIND * (course.height or 1.0) * unit
            own = range(course.first, course.first + course.number)
            found.update(
                {t: _shortened(found[t], points[t], most) for t in own if t in legs}
            )
    return found


_BEHIND = 1.25
"""Of the height of its stitches: as long is a stem that goes behind other rounds."""


def _is_behind(graph: FabricGraph, course: Laid, legs: Mapping[int, Sequence[Leg]]) -> bool:
    """Whether a round stands on none of the round before it: it is worked behind that."""
    own = range(course.first, course.first + course.number)
    bases = [base for top in own for base, _ in legs.get(top, ())]
    below = max((int(graph.row[base]) for base in bases), default=course.row)
    return course.closed and below < course.row - 1


def _shortened(feet: Feet, top: complex, most: float) -> Feet:
    """Feet drawn no farther from their top than so much: what is behind is not seen."""
    at = tuple(
        top + min(1.0, most / max(abs(foot - top), 1e-9)) * (foot - top) for foot in feet.at
    )
    return replace(feet, at=at)


def _legs(graph: FabricGraph) -> dict[int, list[Leg]]:
    """The places that each top is worked into; one far down takes the place of the near."""
    found: dict[int, list[Leg]] = {}
    tops, bases = graph.leg[:, 0].tolist(), graph.leg[:, 1].tolist()
    for top, base, into in zip(tops, bases, graph.leg_into.tolist(), strict=True):
        if into >= 0:
            found.setdefault(top, []).append((base, PARTS[into]))
    deep: dict[int, list[int]] = {}
    for top, reached in graph.overlay.tolist():
        deep.setdefault(top, []).append(reached)
    for top, reached_by in deep.items():
        into = found[top][0][1] if top in found else Into.BOTH_LOOPS
        found[top] = [(reached, into) for reached in reached_by]
    return found


def _shared(legs: Mapping[int, Sequence[Leg]]) -> dict[int, list[int]]:
    found: dict[int, list[int]] = {}
    for top, own in legs.items():
        if len(own) == 1:
            found.setdefault(own[0][0], []).append(top)
    return found


def _feet(ground: _Ground, top: int, legs: Sequence[Leg]) -> Feet:
    base, into = legs[0]
    loop, post = _LOOPS.get(into, ""), _POSTS.get(into, "")
    if into is Into.BEFORE:
        middle = sum(ground.points[place] for place, _ in legs) / len(legs)
        return Feet((middle,))
    if len(legs) > 1:
        return Feet(tuple(_foot(ground, top, place) for place, _ in legs), loop, post)
    if ground.is_ring(base):
        keep = IN_RING * ground.unit
        return Feet((ground.points[base],), loop, post, keep, fan=True)
    if ground.sides[top]:
        return Feet((ground.points[base],), loop, post, OUT * ground.unit)
    beside = ground.shared[base]
    in_space = into is Into.WHOLE or (len(beside) > 1 and ground.row[base])
    if in_space and ground.chain[base]:
        return Feet((_in_space(ground, top, base),))
    foot = (_foot(ground, top, base),)
    if len(beside) == 1:
        return Feet(foot, loop, post)
    keep = _fanned(ground, top, base, beside)
    return Feet(foot, loop, post, keep, top == beside[len(beside) // 2], fan=True)


def _foot(ground: _Ground, top: int, base: int) -> complex:
    """The point of a foot: over a chain, on the top of a stitch."""
    at = ground.points[base]
    if not ground.chain[base]:
        return at
    return ground.over(at, ground.along(base), ground.points[top])


def _in_space(ground: _Ground, top: int, base: int) -> complex:
    """The foot of a stitch in a space: under its top, as far as the chains reach."""
    points = ground.points
    first, last = ground.arc(base)
    middle, way = (points[first] + points[last]) / 2, points[last] - points[first]
    out = points[top] - middle
    if abs(way) < 1e-9:
        way = 1j * out if abs(out) > 1e-9 else 1 + 0j
    along = way / abs(way)
    reach = abs(points[last] - points[first]) / 2 + _BEYOND * ground.unit
    inside = [n for node in range(first, last + 1) for n in ground.shared.get(node, ())]
    wanted = [((points[n] - middle) * along.conjugate()).real for n in inside]
    at = middle + _drawn_in((out * along.conjugate()).real, wanted, reach) * along
    near = min(range(first, last + 1), key=lambda node: abs(points[node] - at))
    level = points[near] - middle
    at += 1j * along * (level * (1j * along).conjugate()).real
    return ground.over(at, along, points[top])


def _drawn_in(own: float, wanted: Sequence[float], reach: float) -> float:
    """How far along a space one of several feet stands, so that all have room in it."""
    low, high = min(wanted), max(wanted)
    if low >= -reach and high <= reach:
        return own
    wide = min(high - low, 2 * reach)
    centre = max(wide / 2 - reach, min(reach - wide / 2, (low + high) / 2))
    share = wide / (high - low) if high > low else 0.0
    return centre + (own - (low + high) / 2) * share


def _fanned(ground: _Ground, top: int, base: int, beside: Sequence[int]) -> float:
    """How far up stems in one place begin, so that they do not run into one another."""
    points = ground.points
    rank = beside.index(top)
    others = [beside[at] for at in (rank - 1, rank + 1) if 0 <= at < len(beside)]
    apart = min(abs(points[other] - points[top]) for other in others)
    long = abs(points[top] - points[base])
    return min(0.3 * long, _FREE * ground.unit * long / max(apart, 1e-9))
