"""How does the upper layer of a piece lie that is laid double?

It is a piece of its own, cut out at the folds, and comes to rest on the plane by itself: of
a garment the front with its sleeves, of a hat a dome.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from hookwright.shape.columns import Truth, Whole
from hookwright.shape.energy import DRAWING, Complex
from hookwright.shape.folds import Fold, between, folds_of, standing_on
from hookwright.shape.graph import FabricGraph, Joint, Laid
from hookwright.shape.measuring import hull_of
from hookwright.shape.relaxing import relax
from hookwright.shape.starts import without_start


class Front(Struct, frozen=True, eq=False):
    """The upper layer of a piece that is laid double.

    Attributes:
        upper: (n,) bool, which stitches are of it.
        position: (n,) complex, where those lie, in widths of a stitch, the first rounds
            above; what goes on behind lies beside its fold.
        outline: (k,) complex, the line round it, anticlockwise, the same on both sides: of
            a garment neck, upper and lower end of a sleeve, underarm, lower edge, and back
            up; of another piece the ends of its rounds, from the first of them.
        garment: Whether it is the front of a garment.
    """

    upper: Truth
    position: Complex
    outline: Complex
    garment: bool


def front_of(graph: FabricGraph) -> Front | None:
    """The front of a piece that stands up; None for one that is not in rounds."""
    # Rows without stitches, as a line that only slips to a place, are folded nowhere.
    graph = replace(graph, courses=tuple(row for row in graph.courses if row.number))
    folds = folds_of(graph)
    if folds is None:
        return None
    upper = _upper_of(graph, folds)
    piece, kept = _cut_out(graph, upper)
    if not piece.cells:
        return None
    lies = relax(piece, without_start(piece), shear=DRAWING).position
    position = np.zeros(graph.size, dtype=complex)
    rounds = [course.row for course in graph.courses if course.closed]
    position[kept] = _upright(piece, rounds, lies)
    if graph.courses[0].number == 1:
        position[kept] = _closed_above(position[kept])
    _go_on_beside(graph, upper, position)
    garment = bool(folds[0].corners)
    return Front(upper, position, _outline(folds, position), garment)


def _upper_of(graph: FabricGraph, folds: tuple[Fold, Fold]) -> Truth:
    """(n,) which stitches lie between the folds; rows lie with what they are joined to."""
    begin, end = folds
    under = standing_on(graph)
    upper = np.zeros(graph.size, dtype=bool)
    for course, first, last in zip(graph.courses, begin.nodes, end.nodes, strict=True):
        if course.closed:
            upper[between(course, first, last)] = True
    for fold in folds:
        upper[list(fold.underarm)] = True
    ring = next(at for at, course in enumerate(graph.courses) if course.closed)
    for at in range(ring - 1, -1, -1):
        _with_above(graph, under, upper, at, ring)
    for course in graph.courses[ring:]:
        if not course.closed:
            stands = under[course.nodes]
            _with_known(course, stands >= 0, upper[stands], upper)
    return upper


def _with_above(graph: FabricGraph, under: Whole, upper: Truth, at: int, ring: int) -> None:
    """Lays a row, or a chain, with the stitches of the first round that stand on it.

    A row that no round stands on lies with the row above it.
    """
    course = graph.courses[at]
    for above in dict.fromkeys((ring, at + 1)):
        nodes = graph.courses[above].nodes
        own = nodes[(under[nodes] >= course.first) & (under[nodes] <= course.nodes[-1])]
        if len(own):
            known = np.isin(course.nodes, under[own])
            is_upper = np.isin(course.nodes, under[own[upper[own]]])
            _with_known(course, known, is_upper, upper)
            return


def _with_known(course: Laid, known: Truth, is_upper: Truth, upper: Truth) -> None:
    """Lays the stitches of a row of which some are known, each as the nearest of those."""
    places = np.flatnonzero(known)
    if len(places):
        nearest = np.abs(np.arange(course.number)[:, None] - places).argmin(axis=1)
        upper[course.nodes] = is_upper[places[nearest]]


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


def _upright(piece: FabricGraph, rounds: Sequence[int], lies: Complex) -> Complex:
    """The piece turned so that its rounds go down."""
    stitch = piece.edge[piece.joint == int(Joint.STITCH)]
    stitch = stitch[np.isin(piece.row[stitch.max(axis=1)], rounds)]
    low, high = stitch.min(axis=1), stitch.max(axis=1)
    way = (lies[high] - lies[low]).sum()
    turned: Complex = lies * (-1j * np.conj(way) / abs(way))
    return turned


def _closed_above(lies: Complex) -> Complex:
    """A crown without the notch that its two folds leave where they meet at the ring.

    What lies under the hull of the upper edge is drawn up to it, less the deeper it lies.
    """
    edges = np.linspace(lies.real.min(), lies.real.max(), _STEPS)
    near = np.abs(lies.real[:, None] - edges) < max(_NEAR, 2 * (edges[1] - edges[0]))
    top = np.where(near, lies.imag[:, None], lies.imag.min()).max(axis=0)
    hull = hull_of(edges + 1j * top)
    hull = hull[np.argsort(hull.real, kind="stable")]
    above = hull[hull.imag >= np.interp(hull.real, edges[[0, -1]], top[[0, -1]]) - 1e-9]
    # At its steep sides an edge has no top.
    middle = np.clip(1 - np.linspace(-1.4, 1.4, _STEPS) ** 2, 0, 1)
    lacks = middle * (np.interp(edges, above.real, above.imag) - top)
    deep = np.interp(lies.real, edges, top) - lies.imag
    found: Complex = lies + 1j * np.interp(lies.real, edges, lacks) * np.exp(-deep / _EASES)
    return found


_STEPS = 60
_NEAR = 0.7
"""Widths within which there is a stitch along an edge."""
_EASES = 4.0
"""Widths over which what is drawn up eases off."""


def _go_on_beside(graph: FabricGraph, upper: Truth, position: Complex) -> None:
    """Lays the stitches behind each fold a step beyond it, as the front goes on."""
    for course in graph.courses:
        front = np.flatnonzero(upper[course.nodes])
        behind = np.flatnonzero(~upper[course.nodes])
        if len(front) < 2 or not len(behind):
            continue
        steps = behind[:, None] - front
        if course.closed:
            steps = (steps + course.number // 2) % course.number - course.number // 2
        nearest = np.abs(steps).argmin(axis=1)
        way = np.sign(steps[np.arange(len(behind)), nearest])
        at = front[nearest]
        inner = np.clip(at - way, 0, course.number - 1) if not course.closed else at - way
        own = position[course.nodes]
        before = own[inner % course.number]
        before = np.where(upper[course.nodes][inner % course.number], before, own[at])
        position[course.nodes[behind]] = 2 * own[at] - before
    _go_on_below(graph, upper, position)


def _go_on_below(graph: FabricGraph, upper: Truth, position: Complex) -> None:
    """Lays what is wholly behind a stitch below or above the front that is joined to it."""
    stitch = graph.edge[graph.joint == int(Joint.STITCH)]
    both = np.concatenate([stitch, stitch[:, ::-1]])
    inner = both[upper[both].all(axis=1)]
    before = position.copy()
    before[inner[:, 0]] = position[inner[:, 1]]
    out = both[upper[both[:, 0]] & (position[both[:, 1]] == 0)]
    position[out[:, 1]] = 2 * position[out[:, 0]] - before[out[:, 0]]


def _outline(folds: tuple[Fold, Fold], position: Complex) -> Complex:
    """The line round the front, both sides brought to the same."""
    one, other = (position[list(fold.corners or fold.nodes)] for fold in folds)
    middle = (one[-1].real + other[-1].real) / 2
    half = ((one - middle) - (other - middle).conj()) / 2
    side: Complex = np.concatenate([half, -half[::-1].conj()])
    return side
