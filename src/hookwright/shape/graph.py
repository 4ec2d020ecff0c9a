"""The fabric as a graph: stitches, what joins them, and the cells between.

Lengths are in widths of a stitch, so that a graph says nothing of millimetres. A cell is
what lies between two neighbours of a row and the places they stand on: four nodes are solid
fabric, three an increase or a decrease, more the hole under a chain or over stitches that
are skipped. Its nodes go round it anticlockwise as the piece lies with its first row's
right side up: work from right to left, or anticlockwise about a centre, has the edge it
stands on at its left.
"""

from __future__ import annotations

from enum import IntEnum

import numpy as np
from msgspec import Struct
from scipy import sparse

from hookwright.shape.columns import Real, Truth, Whole

HOLE_SHARE = 0.2
"""How stiff the corners of a hole are beside those of fabric. With 0.03 to 0.08 arcs fold
into solid stitches, with 0.2 none did. Source: own trials on motifs and doilies."""
MOST_SIDES = 60
"""A larger hole, such as the opening for a sleeve, holds nothing in shape."""


class Joint(IntEnum):
    """What an edge of the graph is."""

    ROW = 0
    STITCH = 1


class Laid(Struct, frozen=True, eq=False):
    """A row or round in the graph.

    Attributes:
        first: Its first node.
        number: How many nodes it has.
        closed: Whether its last node is followed by the first.
        direction: 1 where it is worked as the first row was seen from its right side, -1
            where it is worked back.
        height: The height of its stitches in widths: the mean over those that stand.
        row: Its number among the rows of the piece, from 1; 0 for a foundation or ring.
        label: What the text calls it.
        own_chains: Of each chain of its own that it works back along, where it begins
            among its nodes, and how many chains it is.
        block: How long the sides of its square blocks are; 0 where it has none.
    """

    first: int
    number: int
    closed: bool
    direction: int
    height: float
    row: int
    label: str = ""
    own_chains: tuple[tuple[int, int], ...] = ()
    block: float = 0.0

    @property
    def nodes(self) -> Whole:
        """(number,) its nodes in working order."""
        return np.arange(self.first, self.first + self.number)


class FabricGraph(Struct, frozen=True, eq=False):
    """Stitches and what joins them, in working order.

    Attributes:
        names: The stitches that occur, each once.
        name: (n,) int64, which of the names each node is of.
        row: (n,) int64, the number of its row; 0 for a foundation or ring.
        span: (n, 2) int64, where its words stand in the text; -1 where none are known.
        edge: (m, 2) int64, the two nodes of an edge, the smaller first.
        length: (m,) float64, its length at rest, in widths of a stitch.
        joint: (m,) int64, a `Joint`.
        corner_edge: (c, 2) int64, its edges: to the next node, and to the one before.
        corner_sign: (c, 2) float64, 1 where that edge is told from the corner outwards.
        corner_angle: (c,) float64, its angle at rest, from the first edge anticlockwise.
        corner_area: (c,) float64, its share of the area of its cell, in square widths.
        corner_solid: (c,) bool, False in a hole.
        corner_cell: (c,) int64, the cell it is a corner of.
        cells: How many cells there are.
        edge_area: (m,) float64, half the area of the cells beside an edge.
        overlay: (o, 2) int64, tops of long stitches and the places rows down they go to.
        courses: Its rows, the foundation or ring first.
        is_chain: (n,) bool, whether a node is a chain.
        stands: (n,) bool, whether it is a beginning chain that stands for a stitch.
        yarns: The yarns that are named, each once.
        yarn: (n,) int64, which of the yarns each node is of; -1 where none is known.
        leg: (l, 2) int64, a stitch and a node that it is worked into, by the tops in
            working order; a stitch over several has one for each, and legs may cross.
        leg_into: (l,) int64, which part of that place the hook goes under, as in `PARTS` of
            `columns`; -1 where an end stitch is only drawn out over what lies beside it.
    """

    names: tuple[str, ...]
    name: Whole
    row: Whole
    span: Whole
    edge: Whole
    length: Real
    joint: Whole
    corner_edge: Whole
    corner_sign: Real
    corner_angle: Real
    corner_area: Real
    corner_solid: Truth
    corner_cell: Whole
    cells: int
    edge_area: Real
    overlay: Whole
    courses: tuple[Laid, ...]
    is_chain: Truth
    stands: Truth
    yarns: tuple[str, ...]
    yarn: Whole
    leg: Whole
    leg_into: Whole

    @property
    def size(self) -> int:
        """How many nodes it has."""
        return len(self.row)


class Polygons(Struct, frozen=True, eq=False):
    """Cells by their nodes, anticlockwise.

    Attributes:
        node: (s,) the nodes of all cells, one cell behind the other.
        sides: (c,) how many nodes each cell has.
        solid: (c,) whether a cell is fabric, not a hole.
        angle: (s,) its angle at each node at rest; NaN where its sides tell it.
        area: (c,) its area at rest; NaN where its sides tell it.
    """

    node: Whole
    sides: Whole
    solid: Truth
    angle: Real
    area: Real


class Parts(Struct, frozen=True, eq=False):
    """What a graph is put together from, before its edges are told apart."""

    names: tuple[str, ...]
    name: Whole
    row: Whole
    span: Whole
    edge: Whole
    length: Real
    joint: Whole
    polygons: Polygons
    overlay: Whole
    courses: tuple[Laid, ...]
    is_chain: Truth
    stands: Truth
    yarns: tuple[str, ...]
    yarn: Whole
    leg: Whole
    leg_into: Whole


def graph_of(parts: Parts) -> FabricGraph:
    """The graph: each edge once, and the corners of cells whose sides are all edges."""
    edge, first = _each_once(parts.edge, len(parts.row))
    length, joint = parts.length[first], parts.joint[first]
    corners = _corners(_clean(parts.polygons), edge, length, len(parts.row))
    area = np.zeros(len(edge))
    for number, sides in enumerate(corners.side_edges):
        own = np.repeat(corners.areas[number] / 2, sides.shape[1])
        area += np.bincount(sides.ravel(), own, minlength=len(edge))
    return FabricGraph(
        names=parts.names,
        name=parts.name,
        row=parts.row,
        span=parts.span,
        edge=edge,
        length=length,
        joint=joint,
        corner_edge=corners.edge,
        corner_sign=corners.sign,
        corner_angle=corners.angle,
        corner_area=corners.area,
        corner_solid=corners.solid,
        corner_cell=corners.cell,
        cells=corners.cells,
        edge_area=area,
        overlay=parts.overlay,
        courses=parts.courses,
        is_chain=parts.is_chain,
        stands=parts.stands,
        yarns=parts.yarns,
        yarn=parts.yarn,
        leg=parts.leg,
        leg_into=parts.leg_into,
    )


def _each_once(edge: Whole, nodes: int) -> tuple[Whole, Whole]:
    """Each edge once with its smaller node first, and where it was met first.

    They are put in order as the entries of a sparse matrix are, without comparisons.
    """
    low, high = edge.reshape(-1, 2).min(axis=1), edge.reshape(-1, 2).max(axis=1)
    at = np.arange(len(low))
    ordered = sparse.csr_matrix((at, (low, high)), shape=(nodes, nodes))
    first = ordered.data
    if ordered.nnz < len(low):  # some are met twice, and their places were added up
        first = np.unique(low * nodes + high, return_index=True)[1]
    apart = low[first] != high[first]
    first = first[apart]
    return np.stack([low[first], high[first]], axis=1), first


def _clean(polygons: Polygons) -> Polygons:
    """Cells without nodes that are the same as the next one; too small or large ones go."""
    number = len(polygons.sides)
    cell = np.repeat(np.arange(number), polygons.sides)
    keep = polygons.node != polygons.node[_next_in_cell(polygons.sides)]
    sides = np.bincount(cell[keep], minlength=number)
    fits = (sides > 2) & (sides <= MOST_SIDES)
    keep &= fits[cell]
    return Polygons(
        polygons.node[keep],
        sides[fits],
        polygons.solid[fits],
        polygons.angle[keep],
        polygons.area[fits],
    )


def _next_in_cell(sides: Whole) -> Whole:
    """For each node of each cell, where the next one round the cell stands."""
    ends = np.cumsum(sides)
    following = np.arange(int(ends[-1]) if len(ends) else 0) + 1
    full = ends[sides > 0]
    following[full - 1] = (ends - sides)[sides > 0]
    return following


class _Corners(Struct, frozen=True, eq=False):
    edge: Whole
    sign: Real
    angle: Real
    area: Real
    solid: Truth
    cell: Whole
    cells: int
    side_edges: tuple[Whole, ...]
    areas: tuple[Real, ...]


def _corners(polygons: Polygons, edge: Whole, length: Real, nodes: int) -> _Corners:
    """The corners of all cells, those of one number of sides at a time."""
    keys = edge[:, 0] * nodes + edge[:, 1]
    starts = np.cumsum(polygons.sides) - polygons.sides
    columns: list[tuple[Whole, Real, Real, Real, Truth, Whole]] = []
    side_edges: list[Whole] = []
    areas: list[Real] = []
    cells = 0
    for sides in np.flatnonzero(np.bincount(polygons.sides)):
        mine = np.flatnonzero(polygons.sides == sides)
        at = starts[mine][:, None] + np.arange(sides)
        node = polygons.node[at]
        following = np.roll(node, -1, axis=1)
        key = np.minimum(node, following) * nodes + np.maximum(node, following)
        found = np.minimum(np.searchsorted(keys, key), len(keys) - 1)
        whole = (keys[found] == key).all(axis=1)
        node, found, following = node[whole], found[whole], following[whole]
        solid = polygons.solid[mine][whole]
        angle, area = rest_shape(length[found], solid)
        told = polygons.angle[at][whole], polygons.area[mine][whole]
        angle = np.where(np.isnan(told[0]), angle, told[0])
        area = np.where(np.isnan(told[1]), area, told[1])
        number = len(node)
        sign = np.where(node < following, 1.0, -1.0)
        columns.append(
            (
                np.stack([found, np.roll(found, 1, axis=1)], axis=-1).reshape(-1, 2),
                np.stack([sign, -np.roll(sign, 1, axis=1)], axis=-1).reshape(-1, 2),
                angle.ravel(),
                np.repeat(area / sides, sides),
                np.repeat(solid, sides),
                np.repeat(np.arange(cells, cells + number), sides),
            )
        )
        side_edges.append(found)
        areas.append(area)
        cells += number
    if not columns:
        none = np.zeros(0)
        ints = np.zeros((0, 2), dtype=np.int64)
        return _Corners(
            ints, none.reshape(0, 2), none, none, none > 0, ints[:, 0], 0, (), ()
        )
    return _Corners(
        np.concatenate([column[0] for column in columns]),
        np.concatenate([column[1] for column in columns]),
        np.concatenate([column[2] for column in columns]),
        np.concatenate([column[3] for column in columns]),
        np.concatenate([column[4] for column in columns]),
        np.concatenate([column[5] for column in columns]),
        cells,
        tuple(side_edges),
        tuple(areas),
    )


def rest_shape(length: Real, solid: Truth) -> tuple[Real, Real]:
    """The angles and the area at rest of cells with given sides.

    Fabric between two stitches on two stitches is square at its corners, a triangle follows
    from its sides, and a hole takes the shape in which all its corners lie on one circle.

    Args:
        length: (c, s) the sides, each from a node to the next one round the cell.
        solid: (c,) False for a hole.

    Returns:
        (c, s) the angle at each node, in radians, and (c,) the area.
    """
    sides = length.shape[1]
    if sides == 3:
        return _triangles(length)
    if sides != 4:
        return _on_a_circle(length)
    angle = np.full(length.shape, np.pi / 2)
    area: Real = (length[:, 0] + length[:, 2]) * (length[:, 1] + length[:, 3]) / 4
    if not solid.all():
        angle[~solid], area[~solid] = _on_a_circle(length[~solid])
    return angle, area


_STRAIGHTEST = 0.98
"""The cosine of the sharpest corner of a triangle whose sides fit no triangle."""


def _triangles(length: Real) -> tuple[Real, Real]:
    out, back = length, np.roll(length, 1, axis=1)
    across = np.roll(length, -1, axis=1)
    cosine = (out**2 + back**2 - across**2) / (2 * out * back)
    angle = np.arccos(np.clip(cosine, -_STRAIGHTEST, _STRAIGHTEST))
    return angle, (out * back * np.sin(angle)).mean(axis=1) / 2


def _on_a_circle(length: Real) -> tuple[Real, Real]:
    """The cyclic polygon with given sides, by bisection of its radius."""
    kinds, which = np.unique(np.round(length, 9), axis=0, return_inverse=True)
    which = which.reshape(-1)
    at = np.arange(len(kinds))
    longest = kinds.argmax(axis=1)
    rest = kinds.sum(axis=1) - kinds[at, longest]
    kinds = kinds.copy()
    kinds[at, longest] = np.minimum(kinds[at, longest], _STRAIGHTEST * rest)
    widest = kinds.max(axis=1)
    outside = 2 * np.arcsin(np.clip(kinds / widest[:, None], 0, 1)).sum(axis=1) < 2 * np.pi
    sign = np.ones_like(kinds)
    sign[at[outside], kinds.argmax(axis=1)[outside]] = -1
    low, high = widest / 2, 1e4 * kinds.sum(axis=1)
    for _ in range(100):
        radius = np.sqrt(low * high)
        turn = _turns(kinds, sign, radius).sum(axis=1)
        # With the centre outside the sides turn too little on small circles: the longest
        # side takes its share away.
        larger = np.where(outside, turn < 0, turn > 2 * np.pi)
        low, high = np.where(larger, radius, low), np.where(larger, high, radius)
    turns = _turns(kinds, sign, high)
    turned = np.where(sign < 0, 2 * np.pi + turns, turns)  # the long way round
    angle = np.pi - (turned + np.roll(turned, 1, axis=1)) / 2
    area = (high**2 / 2)[:, None] * np.sin(turned)
    return angle[which], area.sum(axis=1)[which]


def _turns(kinds: Real, sign: Real, radius: Real) -> Real:
    """The angle at the centre over each side."""
    return 2 * sign * np.arcsin(np.clip(kinds / (2 * radius[:, None]), -1, 1))
