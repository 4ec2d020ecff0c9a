"""How hard is a fabric strained, as it lies?

Every edge of the graph is a spring, and every corner of a cell holds its angle: two edges
that meet are compared with their rest vectors, turned together as they fit best. So a
ripple keeps its stitches square to its rows, where springs alone would let it shear away.
Equal strain costs equal energy for equal area, whatever the size of the stitches.

    E = sum over edges (1 - s) A_e / l_e^2 (|d_e| - l_e)^2
      + sum over corners s 2 A_c min over R of (|d_a - R r_a|^2 / l_a^2 + ... the same of b)

with s the share of stiffness against shear, A the areas, d edges as they lie, r and l as
they rest. Source: local/global deformation energies ("as rigid as possible", Sorkine and
Alexa 2007; "projective dynamics", Bouaziz and others 2014), weights by own trials.
"""

from __future__ import annotations

import numpy as np
from msgspec import Struct
from numpy.typing import NDArray
from scipy import sparse

from hookwright.shape.columns import Real, Whole
from hookwright.shape.graph import HOLE_SHARE, FabricGraph

Complex = NDArray[np.complex128]

MEASURING = 0.35
"""The share of shear at which a ripple comes out as worked ripples do."""
DRAWING = 0.6
"""The share that keeps pieces from folding over that cannot lie flat."""
_LEAST_AREA = 0.25
"""Of the median: edges without cells beside them are not without stiffness."""
_NEARLY_NOTHING = 1e-300


class Elastic(Struct, frozen=True, eq=False):
    """A graph with its stiffness; positions are complex numbers, x + iy, in widths.

    Attributes:
        first: (m,) one node of each edge.
        second: (m,) the other.
        length: (m,) the edges at rest.
        spring: (m,) the weight of each spring.
        weight: (m,) all weight on each edge: `incidence.T @ diag(weight) @ incidence` is
            the matrix of the whole, which never changes.
        incidence: (m, n) sparse, -1 and 1 at the nodes of an edge.
        corner_edge: (c, 2) the edges of each corner.
        corner_sign: (c, 2) 1 where they are told outwards.
        corner_rest: (c, 2) complex, these edges at rest.
        corner_weight: (c, 2) their weights.
        onto_edges: (m, 2c) sparse, the corners' pull gathered on the edges.
        stiffness: The energy of the whole if every length were wrong by itself: the scale.
    """

    first: Whole
    second: Whole
    length: Real
    spring: Real
    weight: Real
    incidence: sparse.csr_matrix
    spread: sparse.csr_matrix
    corner_edge: Whole
    corner_sign: Real
    corner_rest: Complex
    corner_weight: Real
    onto_edges: sparse.csr_matrix
    stiffness: float

    @property
    def laplacian(self) -> sparse.csc_matrix:
        """(n, n) the matrix of the whole."""
        weighted = sparse.diags(self.weight) @ self.incidence
        return sparse.csc_matrix(self.spread @ weighted)


def elastic_of(graph: FabricGraph, shear: float = MEASURING) -> Elastic:
    """A graph with its stiffness.

    Args:
        graph: The fabric.
        shear: The share of stiffness against shear, under 1; 0 for springs alone.
    """
    number, nodes = len(graph.edge), graph.size
    area = graph.edge_area
    if number:
        area = np.maximum(area, _LEAST_AREA * (float(np.median(area)) or 1.0))
    spring = (1 - shear) * area / graph.length**2
    length = graph.length[graph.corner_edge]
    share = np.where(graph.corner_solid, 1.0, HOLE_SHARE)
    corner_weight = (shear * 2 * graph.corner_area * share)[:, None] / length**2
    turn = np.exp(1j * graph.corner_angle)
    rest = np.stack([length[:, 0] + 0j, length[:, 1] * turn], axis=1)
    corners = graph.corner_edge.ravel()
    weight = spring + np.bincount(corners, corner_weight.ravel(), minlength=number)
    at = np.arange(number)
    incidence = sparse.csr_matrix(
        (
            np.concatenate([-np.ones(number), np.ones(number)]),
            (np.concatenate([at, at]), graph.edge.T.ravel()),
        ),
        shape=(number, nodes),
    )
    onto_edges = sparse.csr_matrix(
        (graph.corner_sign.ravel(), (corners, np.arange(len(corners)))),
        shape=(number, len(corners)),
    )
    return Elastic(
        first=np.ascontiguousarray(graph.edge[:, 0]),
        second=np.ascontiguousarray(graph.edge[:, 1]),
        length=graph.length,
        spring=spring,
        weight=weight,
        incidence=incidence,
        spread=incidence.T.tocsr(),
        corner_edge=graph.corner_edge,
        corner_sign=graph.corner_sign,
        corner_rest=rest,
        corner_weight=corner_weight,
        onto_edges=onto_edges,
        stiffness=float((weight * graph.length**2).sum()),
    )


def energy(elastic: Elastic, position: Complex) -> tuple[float, Complex]:
    """The energy of a fabric as it lies, and its gradient.

    Args:
        elastic: The fabric.
        position: (n,) complex.

    Returns:
        The energy, and (n,) complex: the derivative by x, and by y as imaginary part.
    """
    lies = position[elastic.second] - position[elastic.first]
    long = np.maximum(np.abs(lies), 1e-12)
    pull = elastic.spring * elastic.length / long * lies
    total = float((elastic.spring * (long - elastic.length) ** 2).sum())
    if len(elastic.corner_edge):
        own = elastic.corner_sign * lies[elastic.corner_edge]
        weight, rest = elastic.corner_weight, elastic.corner_rest
        fit = (weight * np.conj(rest) * own).sum(axis=1)
        size = np.maximum(np.abs(fit), _NEARLY_NOTHING)
        squares = np.abs(own) ** 2 + np.abs(rest) ** 2
        total += float((weight * squares).sum() - 2 * size.sum())
        turned = weight * rest * (fit / size)[:, None]
        pull = pull + elastic.onto_edges @ turned.ravel()
    slope = elastic.spread @ (elastic.weight * lies - pull)
    return total, np.asarray(2 * slope, dtype=np.complex128)


def strain(elastic: Elastic, position: Complex) -> Real:
    """(m,) by how much of itself each edge is longer than at rest."""
    lies = position[elastic.second] - position[elastic.first]
    return np.abs(lies) / elastic.length - 1


def strain_of(elastic: Elastic, position: Real) -> Real:
    """(m,) the same of a fabric in space, (n, 3)."""
    lies = position[elastic.second] - position[elastic.first]
    long: Real = np.linalg.norm(lies, axis=1)
    return long / elastic.length - 1


def flipped(elastic: Elastic, position: Complex) -> NDArray[np.bool_]:
    """(c,) which corners are turned over: the fabric is folded there."""
    lies = position[elastic.second] - position[elastic.first]
    own = elastic.corner_sign * lies[elastic.corner_edge]
    return (np.conj(own[:, 0]) * own[:, 1]).imag <= 0
