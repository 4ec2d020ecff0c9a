"""How does a garment lie that is worked from the neck down and divides for sleeves?

Its front is a flat piece: what stands between the middle of one sleeve and that of the
other, the body below it as far as the middles of the underarms. So the front comes to rest
on the plane by itself, folds at its sides, and shows where the sleeves are left.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from hookwright.shape.columns import Truth, Whole
from hookwright.shape.energy import DRAWING, Complex
from hookwright.shape.graph import FabricGraph, Joint, Laid
from hookwright.shape.relaxing import relax
from hookwright.shape.starts import without_start

_FEWEST_LEFT = 6
"""Stitches of a sleeve, at least: shorter stretches that are passed over are lace."""
_SHARE_LEFT = 0.06
"""The same of a round."""
_SLEEVES = 2
_SHORTEST = 3
"""Rounds of a yoke, at least, its neck among them."""
_ONCE = 1.6
_LEAST_GROWN, _MOST_GROWN = 1.2, 8.0
"""By how many times a yoke grows from the neck to the underarms, at least and at most."""


class Front(Struct, frozen=True, eq=False):
    """The upper layer of a garment that is laid double.

    Attributes:
        upper: (n,) bool, which stitches are of it.
        position: (n,) complex, where those lie, in widths of a stitch, the neck above;
            what goes on behind lies beside its fold.
        outline: (10,) complex, its corners, anticlockwise, the same on both sides: neck,
            upper and lower end of a sleeve, underarm, lower edge, and back up.
    """

    upper: Truth
    position: Complex
    outline: Complex


class _Sleeve(Struct, frozen=True):
    """A stretch of a round that is left for a sleeve.

    Attributes:
        course: The round.
        first: The number of its first stitch in the round.
        number: How many stitches it is.
    """

    course: int
    first: int
    number: int

    @property
    def middle(self) -> int:
        """The number of its middle stitch; it may be past the end of the round."""
        return self.first + self.number // 2


class _Fold(Struct, frozen=True, eq=False):
    """A side at which a garment is folded.

    Attributes:
        nodes: The node of each round at which it lies.
        corners: Of those and of the edge of the sleeve what are corners, from the neck.
        underarm: Half the chain of the underarm.
    """

    nodes: tuple[int, ...]
    corners: tuple[int, ...]
    underarm: tuple[int, ...]


def front_of(graph: FabricGraph) -> Front | None:
    """The front of a garment as it lies; None for a piece that leaves no two sleeves."""
    sleeves = _sleeves(graph)
    if len(sleeves) != _SLEEVES or sleeves[0].course != sleeves[1].course:
        return None
    if not _widens_from_a_neck(graph.courses[: sleeves[0].course + 1]):
        return None
    one, other = sleeves  # the round begins behind, so the front is between them
    folds = [_fold(graph, one, inwards=1), _fold(graph, other, inwards=-1)]
    upper = np.zeros(graph.size, dtype=bool)
    for course, begin, end in zip(
        graph.courses, folds[0].nodes, folds[1].nodes, strict=True
    ):
        upper[_between(course, begin, end)] = True
    for fold in folds:
        upper[list(fold.underarm)] = True
    piece, kept = _cut_out(graph, upper)
    if not piece.cells:
        return None
    lies = relax(piece, without_start(piece), shear=DRAWING).position
    position = np.zeros(graph.size, dtype=complex)
    position[kept] = _upright(piece, lies)
    _go_on_beside(graph, folds, position)
    return Front(upper, position, _outline(folds, position))


def _sleeves(graph: FabricGraph) -> list[_Sleeve]:
    """The stretches of rounds into which nothing is worked, though rounds go on."""
    worked = np.zeros(graph.size, dtype=bool)
    worked[graph.leg[:, 1]] = True
    worked[graph.edge[graph.joint == int(Joint.STITCH)].min(axis=1)] = True
    found: list[_Sleeve] = []
    for at, course in enumerate(graph.courses[:-1]):
        if not course.closed or not course.row or not graph.courses[at + 1].closed:
            continue
        fewest = max(_FEWEST_LEFT, _SHARE_LEFT * course.number)
        begun = worked[course.nodes]
        if not begun.any():
            return []
        found += [
            _Sleeve(at, first, number)
            for first, number in _runs(~begun)
            if number >= fewest
        ]
    return found


def _widens_from_a_neck(yoke: Sequence[Laid]) -> bool:
    """Whether rounds grow from an open ring: not those of a bag with holes for hands."""
    if len(yoke) < _SHORTEST:
        return False
    neck, first, last = yoke[0].number, yoke[1].number, yoke[-1].number
    once = first < _ONCE * neck  # a bag goes round both sides of its chain
    return once and _LEAST_GROWN < last / neck < _MOST_GROWN


def _runs(holds: Truth) -> Iterator[tuple[int, int]]:
    """Where something holds round a ring: where each stretch begins, and how long it is."""
    begins = int(np.flatnonzero(~holds)[0])
    turned = np.roll(holds, -begins).astype(np.int8)
    change = np.flatnonzero(np.diff(turned, prepend=0, append=0))
    for first, end in change.reshape(-1, 2):
        yield int(first) + begins, int(end - first)


def _fold(graph: FabricGraph, sleeve: _Sleeve, inwards: int) -> _Fold:
    """The fold at the middle of a sleeve; `inwards` is the way from there to the front."""
    courses = graph.courses
    at, course = sleeve.course, courses[sleeve.course]
    nodes = {at: _node(course, sleeve.middle)}
    under = _standing_on(graph)
    for lower in range(at - 1, -1, -1):
        nodes[lower] = _below(under, nodes[lower + 1], courses[lower + 1], courses[lower])
    bridge = _bridge(graph, sleeve, under)
    nodes[at + 1] = bridge[len(bridge) // 2]
    for upper in range(at + 2, len(courses)):
        nodes[upper] = _above(under, nodes[upper - 1], courses[upper - 1], courses[upper])
    last = sleeve.first + (sleeve.number - 1 if inwards > 0 else 0)
    middle = len(bridge) // 2
    half = bridge[middle:] if inwards > 0 else bridge[: middle + 1]
    line = tuple(nodes[number] for number in range(len(courses)))
    side = (
        line[0],
        line[at],
        _node(course, last),
        line[min(at + 2, len(line) - 1)],
        line[-1],
    )
    return _Fold(line, side, tuple(half))


def _node(course: Laid, number: int) -> int:
    return course.first + number % course.number


def _standing_on(graph: FabricGraph) -> Whole:
    """(n,) a node of an earlier round that each node stands on; -1 for none."""
    stitch = graph.edge[graph.joint == int(Joint.STITCH)]
    low, high = stitch.min(axis=1), stitch.max(axis=1)
    under = np.full(graph.size, -1)
    under[high[::-1]] = low[::-1]
    return under


def _below(under: Whole, node: int, own: Laid, lower: Laid) -> int:
    """Where a fold goes on in the round below."""
    found = int(under[node])
    if lower.first <= found < lower.first + lower.number:
        return found
    return _node(lower, round((node - own.first) * lower.number / own.number))


def _above(under: Whole, node: int, own: Laid, upper: Laid) -> int:
    """Where a fold goes on in the round above: at what stands nearest to it."""
    nodes = upper.nodes
    stands = under[nodes]
    known = (stands >= own.first) & (stands < own.first + own.number)
    if not known.any():
        return _node(upper, round((node - own.first) * upper.number / own.number))
    apart = np.abs(stands[known] - node)
    apart = np.minimum(apart, own.number - apart)
    return int(nodes[known][int(apart.argmin())])


def _bridge(graph: FabricGraph, sleeve: _Sleeve, under: Whole) -> list[int]:
    """The chain of the underarm, from the stitch before the sleeve to the one behind it."""
    below, course = graph.courses[sleeve.course], graph.courses[sleeve.course + 1]
    place = np.array(
        [
            (int(under[node]) - below.first - sleeve.first) % below.number
            if below.first <= under[node] < below.first + below.number
            else -1
            for node in course.nodes
        ]
    )
    known = np.flatnonzero(place >= 0)
    behind = known[place[known].argmin()]
    before = known[place[known].argmax()]
    number = int(behind - before) % course.number
    return [_node(course, int(before) + step) for step in range(number + 1)]


def _between(course: Laid, begin: int, end: int) -> Whole:
    """The nodes of a round from one fold to the other, the way the first rounds go."""
    if course.direction < 0:
        begin, end = end, begin
    number = (end - begin) % course.number
    found: Whole = (
        course.first + (begin - course.first + np.arange(number + 1)) % course.number
    )
    return found


def _cut_out(graph: FabricGraph, kept: Truth) -> tuple[FabricGraph, Whole]:
    """Some stitches of a piece, with what joins them and lies between them."""
    nodes = np.flatnonzero(kept)
    number = np.full(graph.size, -1)
    number[nodes] = np.arange(len(nodes))
    edges: Truth = kept[graph.edge[:, 0]] & kept[graph.edge[:, 1]]
    renumbered = np.cumsum(edges) - 1
    whole = np.ones(graph.cells, dtype=bool)
    sides = edges[graph.corner_edge[:, 0]] & edges[graph.corner_edge[:, 1]]
    whole[graph.corner_cell[~sides]] = False
    corners = whole[graph.corner_cell]
    cell = np.cumsum(whole) - 1
    legs = kept[graph.leg[:, 0]] & kept[graph.leg[:, 1]]
    return replace(
        graph,
        name=graph.name[nodes],
        row=graph.row[nodes],
        span=graph.span[nodes],
        edge=number[graph.edge[edges]],
        length=graph.length[edges],
        joint=graph.joint[edges],
        corner_edge=renumbered[graph.corner_edge[corners]],
        corner_sign=graph.corner_sign[corners],
        corner_angle=graph.corner_angle[corners],
        corner_area=graph.corner_area[corners],
        corner_solid=graph.corner_solid[corners],
        corner_cell=cell[graph.corner_cell[corners]],
        cells=int(whole.sum()),
        edge_area=graph.edge_area[edges],
        overlay=np.zeros((0, 2), dtype=np.int64),
        courses=(),
        is_chain=graph.is_chain[nodes],
        stands=graph.stands[nodes],
        yarn=graph.yarn[nodes],
        leg=number[graph.leg[legs]],
        leg_into=graph.leg_into[legs],
    ), nodes


def _upright(piece: FabricGraph, lies: Complex) -> Complex:
    """The piece turned so that its rounds go down."""
    stitch = piece.edge[piece.joint == int(Joint.STITCH)]
    low, high = stitch.min(axis=1), stitch.max(axis=1)
    way = (lies[high] - lies[low]).sum()
    turned: Complex = lies * (-1j * np.conj(way) / abs(way))
    return turned


def _go_on_beside(graph: FabricGraph, folds: list[_Fold], position: Complex) -> None:
    """Lays the stitches behind each fold a step beyond it, as the front goes on."""
    upper = position != 0
    for course, begin, end in zip(
        graph.courses, folds[0].nodes, folds[1].nodes, strict=True
    ):
        front = _between(course, begin, end)
        behind = np.setdiff1d(course.nodes[~upper[course.nodes]], front)
        if len(front) < 2 or not len(behind):
            continue
        to_first = (front[0] - behind) % course.number
        to_last = (behind - front[-1]) % course.number
        ends = 2 * position[front[[0, -1]]] - position[front[[1, -2]]]
        position[behind] = np.where(to_first < to_last, ends[0], ends[1])


def _outline(folds: list[_Fold], position: Complex) -> Complex:
    """The corners round the front, both sides brought to the same."""
    one, other = (position[list(fold.corners)] for fold in folds)
    middle = (one[-1].real + other[-1].real) / 2
    half = ((one - middle) - (other - middle).conj()) / 2
    side: Complex = np.concatenate([half, -half[::-1].conj()])
    return side
