"""How hard is a fabric strained, as it lies?

Every edge of the graph is a spring, and every corner of a cell holds its angle: two edges
that meet are compared with their rest vectors, turned together as they fit best. So a
ripple keeps its stitches square to its rows, where springs alone would let it shear away.
Equal strain costs equal energy for equal area, whatever the size of the stitches.

    E = sum over edges (1 - s) A_e / l_e^2 (|d_e| - l_e)^2
      + sum over corners s 2 A_c min over R of (|d_a - R r_a|^2 / l_a^2 + ... the same of b)

with s the share of stiffness against shear, A the areas, d edges as they lie, r and l as
they rest. Squared out, a spring holds its edge, and a corner the weighted sum z of its two
edges, each turned back by its rest: with w all the weight on an edge the energy is

    E = sum of w |d|^2 + sum of w l^2 - 2 (sum of (1 - s) A_e / l_e |d_e| + sum of |z|).

Source: local/global deformation energies ("as rigid as possible", Sorkine and Alexa 2007;
"projective dynamics", Bouaziz and others 2014), weights by own trials.
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
NEARLY_NOTHING = 1e-300
SHORTEST = 1e-12


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
        fit: (c, m) sparse and complex: from edges as they lie to the sum z of each corner,
            whose angle is how far the corner is turned.
        stiffness: The energy of the whole if every length were wrong by itself: the scale.
    """

    first: Whole
    second: Whole
    length: Real
    spring: Real
    weight: Real
    incidence: sparse.csr_matrix
    fit: sparse.csr_matrix
    stiffness: float

    @property
    def laplacian(self) -> sparse.csc_matrix:
        """(n, n) the matrix of the whole."""
        weighted = sparse.diags(self.weight) @ self.incidence
        return sparse.csc_matrix(self.incidence.T.tocsr() @ weighted)


def elastic_of(graph: FabricGraph, shear: float = MEASURING) -> Elastic:
    """A graph with its stiffness.

    Args:
        graph: The fabric.
        shear: The share of stiffness against shear, under 1; 0 for springs alone.
    """
    number = len(graph.edge)
    area = graph.edge_area
    if number:
        area = np.maximum(area, _LEAST_AREA * (float(np.median(area)) or 1.0))
    spring = (1 - shear) * area / graph.length**2
    length = graph.length[graph.corner_edge]
    share = np.where(graph.corner_solid, 1.0, HOLE_SHARE)
    own = (shear * 2 * graph.corner_area * share)[:, None] / length**2
    held = np.bincount(graph.corner_edge.ravel(), own.ravel(), minlength=number)
    back = (length * own * graph.corner_sign).astype(np.complex128)
    back[:, 1] *= np.exp(-1j * graph.corner_angle)
    weight = spring + held
    return Elastic(
        first=np.ascontiguousarray(graph.edge[:, 0]),
        second=np.ascontiguousarray(graph.edge[:, 1]),
        length=graph.length,
        spring=spring,
        weight=weight,
        incidence=_two_a_row(np.tile([-1.0, 1.0], number), graph.edge, graph.size),
        fit=_two_a_row(back.ravel(), graph.corner_edge, number),
        stiffness=float((weight * graph.length**2).sum()),
    )


def _two_a_row(values: Real | Complex, at: Whole, columns: int) -> sparse.csr_matrix:
    """A sparse matrix with two values in each row."""
    begins = np.arange(0, 2 * len(at) + 1, 2)
    return sparse.csr_matrix((values, at.ravel(), begins), shape=(len(at), columns))


class Energy:
    """The energy of a fabric in the plane, for many positions one after the other.

    It keeps its room for arrays from one position to the next: to be given new room, and to
    give it back, takes several times as long as all that is computed in it.
    """

    def __init__(self, elastic: Elastic) -> None:
        self._elastic = elastic
        self._slack = elastic.spring * elastic.length
        self._to_nodes = elastic.incidence.T
        self._to_edges = elastic.fit.conj().T
        edges, corners = len(elastic.length), elastic.fit.shape[0]
        self._lies, self._from = np.zeros((2, edges), dtype=complex)
        self._long, self._square = np.zeros((2, edges))
        self._turned = np.zeros(corners)

    def __call__(self, position: Complex) -> tuple[float, Complex]:
        """The energy of a fabric as it lies, and its gradient.

        Args:
            position: (n,) complex.

        Returns:
            The energy, and (n,) complex: the derivative by x, and by y as imaginary part.
        """
        elastic, long, turned = self._elastic, self._long, self._turned
        lies = np.take(position, elastic.second, out=self._lies, mode="clip")
        lies -= np.take(position, elastic.first, out=self._from, mode="clip")
        fit = elastic.fit @ lies
        np.abs(lies, out=long)
        np.abs(fit, out=turned)
        gained = float(self._slack @ long) + float(turned.sum())
        total = elastic.stiffness - 2 * gained
        np.maximum(turned, NEARLY_NOTHING, out=turned)
        _pairs(fit)[...] /= turned[:, None]
        np.multiply(long, long, out=self._square)
        total += float(elastic.weight @ self._square)
        np.maximum(long, SHORTEST, out=long)
        np.divide(self._slack, long, out=long)
        np.subtract(elastic.weight, long, out=long)
        _pairs(lies)[...] *= long[:, None]
        lies -= self._to_edges @ fit
        slope = np.asarray(self._to_nodes @ _pairs(lies)).reshape(-1).view(complex)
        slope *= 2
        return total, slope


def _pairs(numbers: Complex) -> Real:
    """(n, 2) the parts of complex numbers, the same room in memory."""
    pairs: Real = numbers.view(np.float64).reshape(-1, 2)
    return pairs


def energy(elastic: Elastic, position: Complex) -> tuple[float, Complex]:
    """The energy of a fabric as it lies, and its gradient: see `Energy`."""
    return Energy(elastic)(position)


def strain(elastic: Elastic, position: Complex) -> Real:
    """(m,) by how much of itself each edge is longer than at rest."""
    lies = position[elastic.second] - position[elastic.first]
    return np.abs(lies) / elastic.length - 1


def strain_of(elastic: Elastic, position: Real) -> Real:
    """(m,) the same of a fabric in space, (n, 3)."""
    lies = position[elastic.second] - position[elastic.first]
    long: Real = np.linalg.norm(lies, axis=1)
    return long / elastic.length - 1


def flipped(graph: FabricGraph, position: Complex) -> NDArray[np.bool_]:
    """(c,) which corners are turned over: the fabric is folded there."""
    lies = position[graph.edge[:, 1]] - position[graph.edge[:, 0]]
    own = graph.corner_sign * lies[graph.corner_edge]
    return (np.conj(own[:, 0]) * own[:, 1]).imag <= 0
