"""Rectangles: a stitch wide and a stitch high, whatever the start."""

from __future__ import annotations

import numpy as np
import pytest
from fabrics_sketched import fabric

from hookwright.progress import Cancelled
from hookwright.shape.graph import FabricGraph
from hookwright.shape.mesh import Mesh
from hookwright.shape.relaxing import relax
from hookwright.shape.starts import on_a_grid, without_start


def rectangle(stitches: int, rows: int, height: float) -> FabricGraph:
    one_each = [(i,) for i in range(stitches)]
    return fabric([(one_each, "sc")] * rows, {"sc": height}, foundation=stitches)


@pytest.mark.parametrize("size", [(60, 40), (300, 300), (315, 400)])
def test_a_rectangle_is_its_stitches_wide_and_its_rows_high(size: tuple[int, int]) -> None:
    # Source: plane geometry, n - 1 steps of w between the end stitches, m heights.
    stitches, rows = size
    graph = rectangle(stitches, rows, 0.95)
    relaxed = relax(graph, 1.3 * on_a_grid(graph))
    assert np.ptp(relaxed.position.real) == pytest.approx(stitches - 1, abs=1e-6)
    assert np.ptp(relaxed.position.imag) == pytest.approx(0.95 * rows, abs=1e-6)
    assert np.abs(relaxed.strain).max() < 1e-6


def test_a_rectangle_comes_out_of_noise() -> None:
    graph = rectangle(60, 40, 0.95)
    random = np.random.default_rng(7)
    noise = random.standard_normal((2, graph.size)) * 20
    relaxed = relax(graph, noise[0] + 1j * noise[1], tolerance=1e-6)
    assert np.abs(relaxed.strain).max() < 1e-4
    assert not relaxed.flipped.any()


def test_a_rectangle_needs_no_start() -> None:
    graph = rectangle(60, 40, 1.9)
    position = without_start(graph)
    lies = position[graph.edge[:, 1]] - position[graph.edge[:, 0]]
    assert np.abs(lies) == pytest.approx(graph.length, rel=1e-6)


def test_the_same_twice_is_the_same_to_the_last_bit() -> None:
    one, other = (
        relax(graph, 1.3 * on_a_grid(graph)).position
        for graph in (rectangle(60, 40, 0.95), rectangle(60, 40, 0.95))
    )
    assert one.tobytes() == other.tobytes()


def test_progress_is_told_and_may_stop_the_work() -> None:
    graph = rectangle(20, 10, 0.95)
    start = np.random.default_rng(1).standard_normal(graph.size).astype(complex)
    told: list[float] = []

    def keep(done: float, _doing: str) -> bool:
        told.append(done)
        return done < 0.5

    with pytest.raises(Cancelled):
        relax(graph, start, progress=keep)
    assert told == sorted(told)
    assert 0.5 <= told[-1] < 1


def test_pieces_that_do_not_hang_together_come_to_rest_all_the_same() -> None:
    mesh = Mesh()
    mesh.foundation(5)
    mesh.foundation(4)
    start = (np.arange(9) * 1.5).astype(np.complex128)
    relaxed = relax(mesh.graph(), start)
    assert np.abs(relaxed.strain).max() < 1e-6
