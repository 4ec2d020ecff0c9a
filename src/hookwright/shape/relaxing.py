"""How does a fabric lie once it has come to rest?

The energy falls along quasi-Newton steps. Their first guess of the curvature is the
constant matrix of the energy, factored once; without any memory a step would be one of
alternating local rotations and a global solve. From one start the result is the same to
the last bit.
Source: L-BFGS, Nocedal and Wright, Numerical Optimization, 7.2; as a first Hessian the
Laplacian of projective dynamics, Liu, Bouaziz and Kavan 2017.
"""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Callable
from functools import cached_property
from typing import Generic, TypeVar

import numpy as np
from msgspec import Struct
from scipy import sparse
from scipy.sparse.csgraph import connected_components
from scipy.sparse.linalg import splu

from hookwright.progress import Progress, tell
from hookwright.shape.columns import Real
from hookwright.shape.energy import (
    MEASURING,
    Complex,
    Elastic,
    Energy,
    elastic_of,
    energy,
    flipped,
    strain,
)
from hookwright.shape.graph import FabricGraph

TOLERANCE = 1e-5
"""Of the stiffness: leaves nodes three thousandths of a stitch from their place."""
MOST_STEPS = 600
_MEMORY = 8
_ENOUGH = 1e-4
"""Armijo's share of the fall that is promised."""
_SHORTEST = 1e-6
_NO_STRAIN = 1e-12
"""Of the stiffness: below it there is nothing left to fall but rounding."""


class Factored:
    """The constant matrix of a fabric, held where it would float away.

    It is factored when it is first needed: what lies without strain never needs it.
    """

    def __init__(self, elastic: Elastic) -> None:
        self._elastic = elastic

    @cached_property
    def _solve(self) -> Callable[[Real], Real]:
        matrix = self._elastic.laplacian
        matrix = (matrix + held(matrix)).tocsc()
        return splu(
            matrix,
            permc_spec="MMD_AT_PLUS_A",
            diag_pivot_thresh=0.0,
            options={"SymmetricMode": True},
        ).solve

    def __call__(self, right: Complex) -> Complex:
        """Solves for complex right-hand sides, (n,) or (n, d)."""
        both = np.ascontiguousarray(np.column_stack([right.real, right.imag]))
        found = self._solve(both)
        half = found.shape[1] // 2
        result = found[:, :half] + 1j * found[:, half:]
        return result[:, 0] if right.ndim == 1 else result


class Relaxed(Struct, frozen=True, eq=False):
    """A fabric at rest.

    Attributes:
        position: (n,) complex, x + iy in widths of a stitch.
        energy: What strain is left.
        stiffness: The scale of that.
        strain: (m,) of each edge.
        flipped: (c,) which corners are turned over.
        steps: How many steps it took.
        settled: Whether it came to rest within the steps allowed.
    """

    position: Complex
    energy: float
    stiffness: float
    strain: Real
    flipped: np.typing.NDArray[np.bool_]
    steps: int
    settled: bool


def held(matrix: sparse.csc_matrix) -> sparse.dia_matrix:
    """(n, n) half the mean of the diagonal at one node of all that hangs together."""
    _, which = connected_components(matrix, directed=False)
    hold = np.zeros(matrix.shape[0])
    _, first = np.unique(which, return_index=True)
    hold[first] = float(matrix.diagonal().mean()) / 2 or 1.0
    return sparse.diags(hold)


def relax(
    graph: FabricGraph,
    start: Complex,
    *,
    shear: float = MEASURING,
    tolerance: float = TOLERANCE,
    most: int = MOST_STEPS,
    progress: Progress | None = None,
) -> Relaxed:
    """Lets a fabric come to rest on the plane.

    Args:
        graph: The fabric.
        start: (n,) complex, where its nodes lie at first, in widths.
        shear: The share of stiffness against shear.
        tolerance: How near to rest, as a share of the stiffness.
        most: Steps at most.
        progress: Told before each step.

    Raises:
        Cancelled: When `progress` answers False.
    """
    elastic = elastic_of(graph, shear)
    solve = Factored(elastic)
    position, steps, settled = descend(
        Task(
            Energy(elastic),
            lambda slope: solve(slope / 2),
            elastic.stiffness,
        ),
        start,
        tolerance=tolerance,
        most=most,
        progress=progress,
    )
    return Relaxed(
        position,
        energy(elastic, position)[0],
        elastic.stiffness,
        strain(elastic, position),
        flipped(graph, position),
        steps,
        settled,
    )


Array = TypeVar("Array", Complex, Real)


class Task(Struct, Generic[Array], frozen=True, eq=False):
    """What is to come to rest.

    Attributes:
        energy: The energy of a position, and its gradient.
        solve: The first guess of a step against a gradient, without its sign.
        stiffness: The scale of the energy.
    """

    energy: Callable[[Array], tuple[float, Array]]
    solve: Callable[[Array], Array]
    stiffness: float


Memory = deque[tuple[Array, Array, float]]


def descend(
    task: Task[Array],
    start: Array,
    *,
    tolerance: float = TOLERANCE,
    most: int = MOST_STEPS,
    progress: Progress | None = None,
) -> tuple[Array, int, bool]:
    """Goes down to rest: where, in how many steps, and whether it got there.

    Raises:
        Cancelled: When `progress` answers False.
    """
    position = start
    value, slope = task.energy(position)
    memory: Memory[Array] = deque(maxlen=_MEMORY)
    aim = tolerance**2 * task.stiffness
    way_down = _WayDown(aim)
    if value < _NO_STRAIN * task.stiffness:
        tell(progress, 1.0)
        return position, 0, True
    for step in range(1, most + 1):
        way = _direction(slope, memory, task)
        fall = _dot(slope, way)
        if fall >= 0:
            memory.clear()
            way = -task.solve(slope)
            fall = _dot(slope, way)
        tell(progress, way_down.share(-fall))
        if -fall < aim:
            return position, step, True
        taken = _line(task, position, way, value, fall)
        if taken is None:
            return position, step, -fall < aim * _NEARLY
        share, new_value, new_slope = taken
        moved, bent = share * way, new_slope - slope
        curve = _dot(moved, bent)
        if curve > 0:
            memory.append((moved, bent, 1 / curve))
        position, value, slope = position + moved, new_value, new_slope
    return position, most, False


class _WayDown(Struct):
    """How much of the way to rest is behind, by the falls so far.

    A fall shrinks by about the same factor from step to step, so its logarithm is a measure
    of the way. It goes up now and then; what is done stays done.
    """

    aim: float
    first: float = 0.0
    done: float = 0.0

    def share(self, fall: float) -> float:
        """The share that is done, 1 at rest."""
        if fall <= self.aim:
            return 1.0
        self.first = self.first or fall
        whole = math.log(self.first / self.aim)
        if whole > 0:
            self.done = max(self.done, math.log(self.first / fall) / whole)
        return self.done


_NEARLY = 1e4
"""Times the aim at which a fall is lost in the rounding, and the work is done as well."""


def _direction(slope: Array, memory: Memory[Array], task: Task[Array]) -> Array:
    """The way down by the two-loop recursion."""
    left = slope.copy()
    shares: list[float] = []
    for moved, bent, scale in reversed(memory):
        share = scale * _dot(moved, left)
        shares.append(share)
        left -= share * bent
    way = task.solve(left)
    for (moved, bent, scale), share in zip(memory, reversed(shares), strict=True):
        way += (share - scale * _dot(bent, way)) * moved
    return -way


def _line(
    task: Task[Array], position: Array, way: Array, value: float, fall: float
) -> tuple[float, float, Array] | None:
    """The longest halved step that falls enough; None where none does."""
    share = 1.0
    while share >= _SHORTEST:
        new_value, new_slope = task.energy(position + share * way)
        if new_value <= value + _ENOUGH * share * fall + 1e-14 * task.stiffness:
            return share, new_value, new_slope
        share /= 2
    return None


def _dot(one: Array, other: Array) -> float:
    return float(np.vdot(one, other).real)
