"""Where do the nodes lie before a fabric comes to rest?

Rows lie on a straight grid, rounds on circles whose radius is the sum of the heights. What
is neither is unrolled without any start: each cell is turned so that it fits its neighbours
in the mean, and the nodes follow from the turned cells; two linear solves.
"""

from __future__ import annotations

import numpy as np
from scipy import sparse
from scipy.sparse.linalg import splu

from hookwright.shape.columns import Real, Whole
from hookwright.shape.energy import Complex, Elastic, elastic_of
from hookwright.shape.graph import FabricGraph, Laid
from hookwright.shape.relaxing import Factored


def start_of(graph: FabricGraph) -> Complex:
    """(n,) complex, a first place for every node, in widths of a stitch."""
    courses = graph.courses
    if len(courses) > 1 and all(not course.closed for course in courses):
        return on_a_grid(graph)
    if all(course.closed for course in courses):
        return on_circles(graph)
    return without_start(graph)


def on_a_grid(graph: FabricGraph) -> Complex:
    """Rows on straight lines, each shifted so that it stands on the row below."""
    position = np.zeros(graph.size, dtype=complex)
    under = _under(graph)
    level = 0.0
    for course in graph.courses:
        level += course.height
        along = -course.direction * np.arange(course.number, dtype=float)
        stands = under[course.nodes]
        known = np.flatnonzero(stands >= 0)
        if len(known):
            shift = position[stands[known]].real - along[known]
            along = along + float(shift.mean())
        position[course.nodes] = along + 1j * level
    return position


def on_circles(graph: FabricGraph) -> Complex:
    """Rounds on circles, each turned so that it stands on the round below."""
    position = np.zeros(graph.size, dtype=complex)
    under = _under(graph)
    radius = 0.0
    for course in graph.courses:
        if course.number == 1 and course.row == 0:
            continue
        if course.row == 0:
            radius = course.number / (2 * np.pi)
        radius += course.height or (0.5 if course.row else 0.0)
        turn = course.direction * 2 * np.pi * np.arange(course.number) / course.number
        turn = turn + _turned_by(position, under, course, turn)
        position[course.nodes] = radius * np.exp(1j * turn)
    return position


def _turned_by(position: Complex, under: Whole, course: Laid, turn: Real) -> float:
    """How far a round is turned against its own beginning."""
    stands = under[course.nodes]
    known = np.flatnonzero(stands >= 0)
    if not len(known):
        return 0.0
    mean = (position[stands[known]] * np.exp(-1j * turn[known])).sum()
    return float(np.angle(mean)) if abs(mean) > 1e-9 else 0.0


def _under(graph: FabricGraph) -> Whole:
    """(n,) a node of an earlier row that each node stands on; -1 for none."""
    low, high = graph.edge[:, 0], graph.edge[:, 1]
    climbs = graph.row[low] < graph.row[high]
    under = np.full(graph.size, -1)
    under[high[climbs][::-1]] = low[climbs][::-1]
    return under


def without_start(graph: FabricGraph, elastic: Elastic | None = None) -> Complex:
    """A layout that needs no start.

    Each cell is turned so that it fits its neighbours in the mean; one Poisson solve then
    gives the nodes. Source: the two steps of "as rigid as possible", begun with rotations
    found by angular synchronization (Singer 2011).
    """
    elastic = elastic or elastic_of(graph)
    if not graph.cells:
        return on_a_grid(graph)
    angle = _angles(graph)[graph.corner_cell]
    lead = _frame(graph)
    pull = elastic.fit.conj().T @ np.exp(1j * (angle + lead))
    way = pull / np.maximum(elastic.weight - elastic.spring, 1e-12)
    long = np.maximum(np.abs(way), 1e-9)
    pull = pull + elastic.spring * elastic.length * way / long
    return Factored(elastic)(elastic.incidence.T @ pull)


def _frame(graph: FabricGraph) -> Real:
    """(c,) the direction of the first edge of each corner, in the frame of its cell.

    Corners of a cell stand one behind the other: going round, the direction turns by the
    outer angle of each next corner.
    """
    outer = np.pi - graph.corner_angle
    firsts = np.append(True, np.diff(graph.corner_cell) != 0)
    turned = np.cumsum(outer)
    begun = np.flatnonzero(firsts)
    sides = np.diff(np.append(begun, len(outer)))
    return turned - np.repeat(turned[begun], sides)


def _angles(graph: FabricGraph) -> Real:
    """(cells,) how far each cell is turned, as angles are brought into step.

    The unknowns are unit numbers z, one a cell; where two cells share an edge, the one is
    the other turned by the difference of the directions that the edge has in them. The
    numbers that contradict this least belong to the smallest eigenvalue of a Hermitian
    matrix, which a few inverse iterations find.
    """
    out = graph.corner_edge[:, 0]
    lead = _frame(graph) + np.where(graph.corner_sign[:, 0] < 0, np.pi, 0.0)
    order = np.argsort(out, kind="stable")
    same = np.flatnonzero(np.diff(out[order]) == 0)
    one, other = order[same], order[same + 1]
    number = len(one)
    at = np.arange(number)
    rows = sparse.csr_matrix(
        (
            np.concatenate([np.ones(number), -np.exp(1j * (lead[other] - lead[one]))]),
            (
                np.concatenate([at, at]),
                np.concatenate([graph.corner_cell[one], graph.corner_cell[other]]),
            ),
        ),
        shape=(number, graph.cells),
    )
    matrix = rows.conj().T @ rows + _NUDGE * sparse.identity(graph.cells)
    solve = splu(
        matrix.tocsc(),
        permc_spec="MMD_AT_PLUS_A",
        diag_pivot_thresh=0.0,
        options={"SymmetricMode": True},
    ).solve
    # Any start will do that no symmetry makes blind for the one that is sought.
    turned = np.exp(1j * np.random.default_rng(1).uniform(0, 2 * np.pi, graph.cells))
    for _ in range(_ITERATIONS):
        turned = solve(turned)
        turned /= np.abs(turned).max()
    angle: Real = np.angle(turned)
    return angle


_NUDGE = 1e-9
"""Keeps the matrix of a piece that fits together everywhere from being singular."""
_ITERATIONS = 20
