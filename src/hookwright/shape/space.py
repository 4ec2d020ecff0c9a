"""How does a small piece stand in space: cones, saddles, hyperbolic planes, balls?

The energy is that of the plane, with the best rotation of each corner into space, and one
of bending: at every node inside the fabric, the weighted sum of the ways to its neighbours.
The weights are chosen on the flat layout so that this sum is nothing there; so a fabric
that fits the plane lies in it. Soft ways to move make this much slower than the plane, and
without friction it buckles for any mismatch: it is for looking at motifs and samples, and
says nothing of whether they lie flat. Source: the polar factor of a 3 x 2 matrix in closed
form; quadratic bending after Bergou and others 2006, "A quadratic bending model".
"""

from __future__ import annotations

from collections.abc import Iterable

import numpy as np
from msgspec import Struct
from scipy import sparse
from scipy.sparse.linalg import splu

from hookwright.progress import Progress, stretch, stretches
from hookwright.shape.columns import Real, TooLarge, Truth, Whole
from hookwright.shape.energy import (
    MEASURING,
    NEARLY_NOTHING,
    SHORTEST,
    Complex,
    Elastic,
    elastic_of,
    strain_of,
)
from hookwright.shape.graph import FabricGraph
from hookwright.shape.relaxing import Task, descend, held, relax
from hookwright.shape.starts import on_circles, start_of

MOST_NODES = 6_000
FREE, FIRM = 0.05, 0.15
"""Bending of fabric 0.8 and 1.35 stitch widths thick: t^2/12, in square widths."""
_STEPS = 2_000
_TOLERANCE = 1e-5
"""Nothing looser: soft ways take long to settle, and the lowest waves are to be told."""
_FLATTENING = 0.1
"""The share of the time in which the flat layout is found."""
_SURROUNDED = 0.99 * np.pi


class Standing(Struct, frozen=True, eq=False):
    """A piece at rest in space.

    Attributes:
        position: (n, 3) x, y and z in widths of a stitch; z up off the table.
        energy: What strain and bending are left.
        strain: (m,) of each edge.
        waves: How many waves its start had; 0 for a start as a cone.
        settled: Whether it came to rest within the steps allowed.
    """

    position: Real
    energy: float
    strain: Real
    waves: int
    settled: bool


def stand(
    graph: FabricGraph,
    *,
    bending: float = FREE,
    stuffing: float = 0.0,
    waves: Iterable[int] = range(2, 6),
    progress: Progress | None = None,
) -> Standing:
    """Lets a piece come to rest in space, and keeps the best of several starts.

    A piece of rounds with room to spare begins as a cone; any other as it lies flat, lifted
    into so many waves round its rim.

    Args:
        graph: The piece.
        bending: How stiff it is against bending, in square widths.
        stuffing: How hard what is inside presses outwards, in energy a cubic width.
        waves: Numbers of waves to begin with.
        progress: Told before each step.

    Raises:
        TooLarge: With more than 6,000 nodes.
        Cancelled: When `progress` answers False.
    """
    if graph.size > MOST_NODES:
        raise TooLarge
    flat = relax(
        graph, start_of(graph), progress=stretch(progress, 0.0, _FLATTENING)
    ).position
    elastic = elastic_of(graph, MEASURING)
    bends = bending_of(elastic, flat, bending)
    plain = elastic.laplacian
    matrix = plain + held(plain) + bends
    solve = splu(
        sparse.csc_matrix(matrix),
        permc_spec="MMD_AT_PLUS_A",
        diag_pivot_thresh=0.0,
        options={"SymmetricMode": True},
    ).solve
    skin = skin_of(graph)
    energy = EnergyInSpace(elastic, bends)
    task: Task[Real] = Task(
        lambda there: _stuffed(energy(there), skin, stuffing, there),
        lambda slope: np.asarray(solve(np.ascontiguousarray(slope / 2))),
        elastic.stiffness,
    )
    cone = as_cone(graph)
    starts = [(0, cone)] if cone is not None else [(k, lifted(flat, k)) for k in waves]
    found: list[Standing] = []
    shares = stretches(stretch(progress, _FLATTENING, 1.0), [1] * len(starts))
    for (number, start), share in zip(starts, shares, strict=True):
        position, _, settled = descend(
            task, start, tolerance=_TOLERANCE, most=_STEPS, progress=share
        )
        left, _ = task.energy(position)
        found.append(
            Standing(position, left, strain_of(elastic, position), number, settled)
        )
    return min(found, key=lambda one: one.energy)


class EnergyInSpace:
    """The energy of a fabric in space, for many positions one after the other."""

    def __init__(self, elastic: Elastic, bends: sparse.csr_matrix) -> None:
        """Take a fabric, and (n, n) the matrix of its bending."""
        self._elastic, self._bends = elastic, bends
        self._slack = elastic.spring * elastic.length
        # The columns of the 3 x 2 matrix M of each corner, all firsts before all seconds.
        self._fit = sparse.vstack([elastic.fit.real, -elastic.fit.imag]).tocsr()
        self._to_edges = self._fit.T.tocsr()
        self._to_nodes = elastic.incidence.T.tocsr()

    def __call__(self, position: Real) -> tuple[float, Real]:
        """The energy of a fabric as it stands, and its gradient.

        Args:
            position: (n, 3).

        Returns:
            The energy, and (n, 3) its gradient.
        """
        elastic = self._elastic
        lies = position[elastic.second] - position[elastic.first]
        square = _dots(lies, lies)
        long = np.maximum(np.sqrt(square), SHORTEST)
        turned, gained = nearest_turns(self._fit @ lies)
        gained += float(self._slack @ long)
        bent = self._bends @ position
        total = elastic.stiffness + float(elastic.weight @ square) - 2 * gained
        total += float(np.vdot(position, bent))
        lies *= (elastic.weight - self._slack / long)[:, None]
        lies -= self._to_edges @ turned
        slope = self._to_nodes @ lies
        slope += bent
        slope *= 2
        return total, np.asarray(slope)


def nearest_turns(columns: Real) -> tuple[Real, float]:
    """The rotation nearest to each matrix M of two columns in space: M (M'M)^(-1/2).

    Args:
        columns: (2c, 3), the first columns of all before the second ones.

    Returns:
        (2c, 3) those of the rotations, and the sum of all singular values.
    """
    one, other = columns[: len(columns) // 2], columns[len(columns) // 2 :]
    a, b, c = _dots(one, one), _dots(one, other), _dots(other, other)
    area = np.sqrt(np.maximum(a * c - b * b, NEARLY_NOTHING))
    trace = np.sqrt(a + c + 2 * area)
    scale = 1 / (trace * area)
    across = (b * scale)[:, None]
    turned = np.concatenate(
        [
            one * ((c + area) * scale)[:, None] - other * across,
            other * ((a + area) * scale)[:, None] - one * across,
        ]
    )
    return turned, float(trace.sum())


def _dots(one: Real, other: Real) -> Real:
    """(c,) the product of each two vectors."""
    products: Real = np.einsum("ij,ij->i", one, other)
    return products


def skin_of(graph: FabricGraph) -> Whole:
    """(t, 3) triangles that close a piece: its cells, and the opening of its last round."""
    first = np.append(True, np.diff(graph.corner_cell) != 0)
    ahead = graph.corner_sign[:, 0] > 0
    ends = graph.edge[graph.corner_edge[:, 0]]
    node = np.where(ahead, ends[:, 0], ends[:, 1])
    following = np.where(ahead, ends[:, 1], ends[:, 0])
    apex = node[first][graph.corner_cell]
    fans = np.column_stack([apex, node, following])
    last = graph.courses[-1]
    rim = last.nodes
    over = np.column_stack([np.full(last.number, rim[0]), np.roll(rim, -1), rim])
    whole = np.concatenate([fans, over[:: last.direction]])
    apart = (whole[:, 0] != whole[:, 1]) & (whole[:, 0] != whole[:, 2])
    skin: Whole = whole[apart]
    return skin


def _stuffed(
    found: tuple[float, Real], skin: Whole, stuffing: float, position: Real
) -> tuple[float, Real]:
    """An energy and gradient, less what the stuffing gains by more room."""
    if not stuffing:
        return found
    energy, slope = found
    volume, more = volume_of(skin, position)
    return energy - stuffing * volume, slope - stuffing * more


def volume_of(skin: Whole, position: Real) -> tuple[float, Real]:
    """What a closed skin holds, and (n, 3) by how much more as its nodes move.

    Source: the divergence theorem, a sixth of the determinants of its triangles.
    """
    a, b, c = (position[skin[:, corner]] for corner in range(3))
    across = np.cross(b, c) / 6
    more = np.zeros_like(position)
    np.add.at(more, skin[:, 0], across)
    np.add.at(more, skin[:, 1], np.cross(c, a) / 6)
    np.add.at(more, skin[:, 2], np.cross(a, b) / 6)
    return float((a * across).sum()), more


def bending_of(elastic: Elastic, flat: Complex, bending: float) -> sparse.csr_matrix:
    """(n, n) the matrix of bending, which nothing that lies as `flat` does feels.

    At each node that its neighbours surround, the weights of the ways d to them begin as
    1/|d| and are changed as little as makes their sum nothing; their scale is that of a
    Laplacian, for which the sum of w |d|^2 is 2.
    """
    nodes = len(flat)
    centre = np.concatenate([elastic.first, elastic.second])
    near = np.concatenate([elastic.second, elastic.first])
    way = flat[near] - flat[centre]
    weight = 1 / np.maximum(np.abs(way), 1e-9)
    # Two sums of products of ways, for a 2 x 2 system at each node.
    xx = np.bincount(centre, weight * way.real**2, minlength=nodes)
    xy = np.bincount(centre, weight * way.real * way.imag, minlength=nodes)
    yy = np.bincount(centre, weight * way.imag**2, minlength=nodes)
    x = np.bincount(centre, weight * way.real, minlength=nodes)
    y = np.bincount(centre, weight * way.imag, minlength=nodes)
    area = np.where(np.abs(xx * yy - xy**2) > 1e-12, xx * yy - xy**2, 1.0)
    right, up = (yy * x - xy * y) / area, (xx * y - xy * x) / area
    weight = weight * (1 - right[centre] * way.real - up[centre] * way.imag)
    size = np.bincount(centre, weight * np.abs(way) ** 2, minlength=nodes)
    total = np.bincount(centre, weight, minlength=nodes)
    inside = _surrounded(centre, way, nodes) & (size > 0) & (total > 0)
    kept = inside[centre]
    scaled = 2 * weight / np.where(size > 0, size, 1.0)[centre]
    rows = sparse.csr_matrix(
        (scaled[kept], (centre[kept], near[kept])), shape=(nodes, nodes)
    )
    own = np.asarray(rows.sum(axis=1)).ravel()
    rows = rows - sparse.diags(own)
    return sparse.csr_matrix(bending * (rows.T @ rows))


def _surrounded(centre: Whole, way: Complex, nodes: int) -> Truth:
    """(n,) whether the ways from a node leave no gap of half a turn."""
    angle = np.angle(way)
    order = np.lexsort((angle, centre))
    whose, turn = centre[order], angle[order]
    often = np.bincount(centre, minlength=nodes)
    begins = np.cumsum(often) - often
    following = np.arange(len(order)) + 1
    last = (begins + often - 1)[often > 0]
    following[last] = begins[often > 0]
    gap = turn[following] - turn
    gap[last] += 2 * np.pi
    widest = np.zeros(nodes)
    np.maximum.at(widest, whose, gap)
    return (often > 2) & (widest < _SURROUNDED)


def as_cone(graph: FabricGraph) -> Real | None:
    """Rounds stacked by their lengths; None where they are too long for their heights.

    A few rounds may be: rounding to whole stitches makes them so near the pole of a ball.
    """
    if not all(course.closed for course in graph.courses):
        return None
    rows = [course for course in graph.courses if course.row]
    around = np.array([c.number / (2 * np.pi) for c in rows])
    first = graph.courses[0]
    start = first.number / (2 * np.pi) if first.number > 1 else 0.0
    out = np.abs(np.diff(around, prepend=start))
    tall = np.array([course.height for course in rows])
    beyond = np.maximum(out - tall, 0.0)
    if float(beyond.sum()) > _BEYOND * float(tall.sum()):
        return None
    drop = np.sqrt(np.maximum(tall**2 - out**2, (_LEAST_DROP * tall) ** 2))
    turn = np.angle(on_circles(graph))
    position = np.zeros((graph.size, 3))
    for course, radius, level in zip(rows, around, -np.cumsum(drop), strict=True):
        nodes = course.nodes
        position[nodes, 0] = radius * np.cos(turn[nodes])
        position[nodes, 1] = radius * np.sin(turn[nodes])
        position[nodes, 2] = level
    if start:
        nodes = first.nodes
        position[nodes, 0] = start * np.cos(turn[nodes])
        position[nodes, 1] = start * np.sin(turn[nodes])
    return position


_BEYOND = 0.03
"""Of all heights: by so much rounds may be too long together, and still stand as a cone."""
_LEAST_DROP = 0.1
"""Of its height: so far each round lies below the last, so that none lies in a plane."""

_LIFT, _BOWL = 0.3, 0.05


def lifted(flat: Complex, waves: int) -> Real:
    """A flat layout lifted into waves round its rim, and a shallow bowl."""
    away = flat - flat.mean()
    far = np.abs(away) / np.abs(away).max()
    rise = far**2 * (_LIFT * np.cos(waves * np.angle(away)) + _BOWL) * np.abs(away).max()
    return np.column_stack([flat.real, flat.imag, rise])
