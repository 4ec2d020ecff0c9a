"""Where do the nodes lie before a fabric comes to rest?

Rows lie on a straight grid, rounds on circles whose radius is the sum of the heights. What
is neither is unrolled without any start: each cell is turned so that it fits its neighbours
in the mean, and the nodes follow from the turned cells; two linear solves.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from scipy import sparse
from scipy.sparse.linalg import splu

from hookwright.shape.columns import Real, Whole
from hookwright.shape.energy import Complex, Elastic, elastic_of
from hookwright.shape.feet import CHAIN_TO_CHAIN
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
    under, _ = _under(graph)
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
    """Rounds on circles, each turned so that it stands on the round below.

    Stitches of lace stand on what they are worked into, and its chains arch outwards: a
    loop that lay inwards would stay so, and all that hangs on it would lie inside.
    """
    position = np.zeros(graph.size, dtype=complex)
    legs = _Legs(*_under(graph))
    radius = 0.0
    before: Laid | None = None
    for course in graph.courses:
        if course.number == 1 and course.row == 0:
            continue
        if course.row == 0:
            radius = course.number / (2 * np.pi)
        if before is not None and _is_lace(graph, before, course, legs):
            position[course.nodes] = _arched(position, legs, course)
        else:
            radius += course.height or (0.5 if course.row else 0.0)
            turn = course.direction * 2 * np.pi * np.arange(course.number) / course.number
            turn = turn + _turned_by(position, legs.under, course, turn)
            position[course.nodes] = radius * np.exp(1j * turn)
        radius = float(np.abs(position[course.nodes]).mean()) if course.number else radius
        before = course
    return position


class _Legs(NamedTuple):
    """Of each node one of an earlier row that it stands on, -1 for none, and how high."""

    under: Whole
    high: Real


def _is_lace(graph: FabricGraph, below: Laid, course: Laid, legs: _Legs) -> bool:
    """Whether a round has loops of chains, or stands on one that has."""
    stands = int((legs.under[course.nodes] >= 0).sum())
    chains = graph.is_chain[course.nodes].any() or graph.is_chain[below.nodes].any()
    return bool(chains) and stands > 1 and below.row > 0


def _arched(position: Complex, legs: _Legs, course: Laid) -> Complex:
    """A round of lace: its stitches over their places, the chains between them in arcs."""
    nodes, way = course.nodes, course.direction
    stands = np.flatnonzero(legs.under[nodes] >= 0)
    under = position[legs.under[nodes[stands]]]
    far = np.abs(under) + legs.high[nodes[stands]]
    angle = np.unwrap(way * np.angle(under))
    _, group = np.unique(legs.under[nodes[stands]], return_inverse=True)
    group = group.reshape(-1)
    middle = np.bincount(group, stands) / np.bincount(group)
    angle += (stands - middle[group]) * np.minimum(1 / far, 2 * np.pi / course.number)
    least = _LEAST_STEP * 2 * np.pi / course.number * stands
    angle = _never_back(angle - least) + least
    # Once more at the end, a turn on: chains after the last stitch lead to the first.
    at = np.append(stands, stands[0] + course.number)
    round_angle, round_far = np.append(angle, angle[0] + 2 * np.pi), np.append(far, far[0])
    every = stands[0] + np.arange(course.number)
    turn = np.interp(every, at, round_angle)
    out = np.interp(every, at, round_far)
    out += _arcs(at, round_angle, round_far, every)
    found = np.zeros(course.number, dtype=complex)
    found[every % course.number] = out * np.exp(1j * way * turn)
    return found


def _never_back(values: Real) -> Real:
    """The middle between the highest value so far and the lowest from there on."""
    lowest = np.minimum.accumulate(values[::-1])[::-1]
    found: Real = (np.maximum.accumulate(values) + lowest) / 2
    return found


_LEAST_STEP = 0.6
"""The shortest way along a round from node to node at the start, of the mean one."""
_LEAST_ARC = 0.2
"""Of its length, how far even a chain that is drawn tight goes outwards at the start."""


def _arcs(at: Whole, angle: Real, far: Real, every: Whole) -> Real:
    """How far beyond a straight way each node of a round lies: chains as arcs as long."""
    piece = np.minimum(np.searchsorted(at, every, side="right") - 1, len(at) - 2)
    long = CHAIN_TO_CHAIN * np.diff(at)
    ends = far * np.exp(1j * angle)
    chord = np.abs(np.diff(ends))
    high = np.sqrt(np.maximum(long**2 - chord**2, 0)) / 2
    high = np.where(np.diff(at) > 1, np.maximum(high, _LEAST_ARC * long), 0.0)
    share = (every - at[piece]) / np.maximum(np.diff(at), 1)[piece]
    arcs: Real = high[piece] * np.sin(np.pi * share)
    return arcs


def _turned_by(position: Complex, under: Whole, course: Laid, turn: Real) -> float:
    """How far a round is turned against its own beginning."""
    stands = under[course.nodes]
    known = np.flatnonzero(stands >= 0)
    if not len(known):
        return 0.0
    mean = (position[stands[known]] * np.exp(-1j * turn[known])).sum()
    return float(np.angle(mean)) if abs(mean) > 1e-9 else 0.0


def _under(graph: FabricGraph) -> tuple[Whole, Real]:
    """(n,) a node of an earlier row that each node stands on, -1 for none; and how high."""
    low, high = graph.edge[:, 0], graph.edge[:, 1]
    climbs = np.flatnonzero(graph.row[low] < graph.row[high])[::-1]
    under, tall = np.full(graph.size, -1), np.zeros(graph.size)
    under[high[climbs]] = low[climbs]
    tall[high[climbs]] = graph.length[climbs]
    return under, tall


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
