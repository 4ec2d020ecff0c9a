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
from hookwright.shape.energy import MEASURING, Complex, Elastic, elastic_of, strain_of
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
_NOTHING = 1e-300


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
    matrix = elastic.laplacian + held(elastic) + bends
    solve = splu(
        sparse.csc_matrix(matrix),
        permc_spec="MMD_AT_PLUS_A",
        diag_pivot_thresh=0.0,
        options={"SymmetricMode": True},
    ).solve
    skin = skin_of(graph)
    task: Task[Real] = Task(
        lambda there: _stuffed(
            energy_in_space(elastic, bends, there), skin, stuffing, there
        ),
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


def energy_in_space(
    elastic: Elastic, bends: sparse.csr_matrix, position: Real
) -> tuple[float, Real]:
    """The energy of a fabric in space, and its gradient.

    Args:
        elastic: The fabric.
        bends: (n, n) sparse, the matrix of bending.
        position: (n, 3).

    Returns:
        The energy, and (n, 3) its gradient.
    """
    lies = position[elastic.second] - position[elastic.first]
    long = np.maximum(np.linalg.norm(lies, axis=1), 1e-12)
    pull = (elastic.spring * elastic.length / long)[:, None] * lies
    total = float((elastic.spring * (long - elastic.length) ** 2).sum())
    own = elastic.corner_sign[..., None] * lies[elastic.corner_edge]
    weight, rest = elastic.corner_weight, elastic.corner_rest
    one = ((weight * rest.real)[..., None] * own).sum(axis=1)
    other = ((weight * rest.imag)[..., None] * own).sum(axis=1)
    # The rotation nearest to the 3 x 2 matrix M of these two columns is M (M'M)^(-1/2).
    a, b, c = (one**2).sum(axis=1), (one * other).sum(axis=1), (other**2).sum(axis=1)
    area = np.sqrt(np.maximum(a * c - b * b, _NOTHING))
    trace = np.sqrt(a + c + 2 * area)
    root_a, root_b, root_c = (a + area) / trace, b / trace, (c + area) / trace
    scale = np.maximum(root_a * root_c - root_b**2, _NOTHING)[:, None]
    first = (one * root_c[:, None] - other * root_b[:, None]) / scale
    second = (other * root_a[:, None] - one * root_b[:, None]) / scale
    squares = (own**2).sum(axis=2) + np.abs(rest) ** 2
    total += float((weight * squares).sum() - 2 * (root_a + root_c).sum())
    turned = rest.real[..., None] * first[:, None] + rest.imag[..., None] * second[:, None]
    pull = pull + elastic.onto_edges @ (weight[..., None] * turned).reshape(-1, 3)
    bent = bends @ position
    total += float((position * bent).sum())
    slope = elastic.spread @ (elastic.weight[:, None] * lies - pull) + bent
    return total, np.asarray(2 * slope, dtype=np.float64)


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
    """Rounds stacked by their lengths; None where one is too long for its height."""
    if not all(course.closed for course in graph.courses):
        return None
    turn = np.angle(on_circles(graph))
    position = np.zeros((graph.size, 3))
    radius = level = 0.0
    for course in graph.courses:
        around = course.number / (2 * np.pi) if course.number > 1 else 0.0
        out = around - radius
        if course.row:
            if abs(out) >= course.height:
                return None
            level -= float(np.sqrt(course.height**2 - out**2))
        radius = around
        nodes = course.nodes
        position[nodes, 0] = around * np.cos(turn[nodes])
        position[nodes, 1] = around * np.sin(turn[nodes])
        position[nodes, 2] = level
    return position


_LIFT, _BOWL = 0.3, 0.05


def lifted(flat: Complex, waves: int) -> Real:
    """A flat layout lifted into waves round its rim, and a shallow bowl."""
    away = flat - flat.mean()
    far = np.abs(away) / np.abs(away).max()
    rise = far**2 * (_LIFT * np.cos(waves * np.angle(away)) + _BOWL) * np.abs(away).max()
    return np.column_stack([flat.real, flat.imag, rise])
