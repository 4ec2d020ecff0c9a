"""Ripples: how steep, how wide a repeat, how much a row takes up.

The trade's ripple: worsted, 5.5 mm, dc in the back loop, k = 6, P = 3.5 in, 4 rows = 2 in,
which by the closed form is a stitch of 0.2539 x 0.4307 in. Published ripple for comparison:
8 dc = 2 in at 5.0 mm (oocities.org/mwillsondesigns/Free/rusticripple.html).
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from fabrics_sketched import Bases, fabric, ripple_bases

from hookwright.shape.columns import Real
from hookwright.shape.energy import MEASURING, Complex
from hookwright.shape.forms import ripple, ripple_of_springs, stitch_of_ripple
from hookwright.shape.graph import FabricGraph
from hookwright.shape.relaxing import relax
from hookwright.shape.starts import on_a_grid

W, H = 0.2539, 0.4307
PLAIN, REPEATS, ROWS = 6, 5, 12


def relaxed_ripple(
    plain: int, shear: float = MEASURING, repeats: int = REPEATS, rows: int = ROWS
) -> tuple[FabricGraph, Complex]:
    """A ripple and where its nodes lie, in inches."""
    bases = ripple_bases(plain, repeats)
    graph = fabric([(bases, "dc")] * rows, {"dc": H / W}, foundation=len(bases))
    return graph, W * relax(graph, on_a_grid(graph), shear=shear, most=3000).position


def level(graph: FabricGraph, position: Complex) -> Complex:
    """Turned so that the rows run level."""
    course = graph.courses[len(graph.courses) // 2]
    way = position[course.first] - position[course.first + course.number - 1]
    turned: Complex = position * np.exp(-1j * np.angle(way))
    return turned


def repeat_and_pitch(
    graph: FabricGraph, position: Complex, plain: int
) -> tuple[float, float]:
    """P and V over the middle rows and repeats of a ripple."""
    lies = level(graph, position)
    each = 2 * plain + 4
    middle = len(graph.courses) // 2
    courses = graph.courses[middle - 2 : middle + 3]
    valleys = np.array(
        [lies[c.first + each : c.first + c.number - each : each] for c in courses]
    )
    wide: Real = np.abs(np.diff(valleys.real, axis=1))
    high: Real = np.abs(np.diff(valleys.imag, axis=0))
    return float(wide.mean()), float(high.mean())


def depth(graph: FabricGraph, position: Complex, row: int) -> float:
    """From peak to valley along a row, in the middle of the piece."""
    lies = level(graph, position)
    course = graph.courses[row]
    along = lies[course.nodes]
    order = np.argsort(along.real)
    sixth = len(order) // REPEATS
    inner = along[order][sixth:-sixth]
    return float(np.ptp(inner.imag))


def test_with_shear_the_ripple_of_the_trade_comes_out() -> None:
    repeat, pitch = repeat_and_pitch(*relaxed_ripple(PLAIN), PLAIN)
    assert repeat == pytest.approx(3.548, rel=0.01)  # own trial
    assert pitch == pytest.approx(0.4874, rel=0.01)  # own trial
    assert repeat == pytest.approx(3.5, rel=0.03)  # the trade's swatch
    assert pitch == pytest.approx(0.5, rel=0.03)  # the trade's swatch


def test_springs_alone_let_a_ripple_shear_away() -> None:
    # Source: plane geometry, see `ripple_of_springs`.
    graph, position = relaxed_ripple(PLAIN, shear=0)
    repeat, pitch = repeat_and_pitch(graph, position, PLAIN)
    closed = ripple_of_springs(W, H, PLAIN)
    assert math.degrees(closed.angle) == pytest.approx(17.14, abs=0.01)
    assert closed.repeat == pytest.approx(3.882, abs=1e-3)
    assert repeat == pytest.approx(closed.repeat, rel=1e-3)
    assert pitch == pytest.approx(0.4307, rel=1e-3)


def test_a_long_ripple_is_that_of_the_closed_form() -> None:
    # Source: geometry of the leaning columns, see `ripple`.
    closed = ripple(W, H, 48)
    repeat, pitch = repeat_and_pitch(*relaxed_ripple(48, repeats=4, rows=40), 48)
    assert repeat == pytest.approx(closed.repeat, rel=0.005)
    assert pitch == pytest.approx(closed.pitch, rel=0.005)


def test_a_measured_ripple_tells_its_stitch() -> None:
    found = stitch_of_ripple(3.5, 0.5, PLAIN)
    assert found == pytest.approx((0.2539, 0.4307), abs=1e-4)
    back = ripple(*found, PLAIN) if found else None
    assert back is not None
    assert (back.repeat, back.pitch) == pytest.approx((3.5, 0.5))
    assert stitch_of_ripple(4.1, 0.5, PLAIN) is None  # wider than (k + 2) V


SC = 0.95


def edged(rows: list[tuple[Bases, str]]) -> tuple[FabricGraph, Complex]:
    """The ripple with further rows along its last one."""
    bases = ripple_bases(PLAIN, REPEATS)
    heights = {"dc": H / W, "sc": SC}
    graph = fabric([*[(bases, "dc")] * ROWS, *rows], heights, foundation=len(bases))
    return graph, W * relax(graph, on_a_grid(graph)).position


def test_rows_one_to_one_blunt_the_peaks_and_widen_the_edge() -> None:
    # Sign only; own trial: depth 0.948 -> 0.819 in, P 3.54 -> 3.68 in.
    bare, lies = edged([])
    number = len(ripple_bases(PLAIN, REPEATS))
    with_rows, edged_lies = edged([([(i,) for i in range(number)], "sc")] * 3)
    assert depth(with_rows, edged_lies, ROWS + 3) < depth(bare, lies, ROWS) - 0.05
    assert edge_repeat(with_rows, edged_lies) > edge_repeat(bare, lies) + 0.05


def test_rows_that_follow_the_ripple_pull_its_edge_in() -> None:
    # Sign only; own trial: P 3.35, depth 1.21 in: sc is short, so its ripple is steeper.
    bare, lies = edged([])
    followed, followed_lies = edged([(ripple_bases(PLAIN, REPEATS), "sc")] * 3)
    assert depth(followed, followed_lies, ROWS + 3) > depth(bare, lies, ROWS) + 0.05
    assert edge_repeat(followed, followed_lies) < edge_repeat(bare, lies) - 0.05


@pytest.mark.parametrize(("narrow", "left"), [(True, 0.37), (False, 0.47)])
def test_one_graded_row_does_not_make_a_ripple_straight(
    left: float, *, narrow: bool
) -> None:
    # Graded evenly from sc on the peaks to tr, 2.85 w high, in the valleys. Own trial: 0.37 in
    # with tops w cos t wide, 0.47 in with whole ones. Source of the sense: a maker who filled
    # the end of a ripple with one row of sc, hdc and dc tells that some zigzag remained
    # (eidelweisshookery.blogspot.com/2013/02/squaring-off.html).
    bases = ripple_bases(PLAIN, REPEATS)
    each = 2 * PLAIN + 4
    far = each // 2
    tall = {f"grade {i}": SC + (2.85 - SC) * (1 - i / far) for i in range(far + 1)}
    kinds = [f"grade {min(i % each, each - i % each)}" for i in range(len(bases))]
    rows = [(bases, "dc")] * ROWS + [([(i,) for i in range(len(bases))], kinds)]
    slope = ripple(W, H, PLAIN).angle
    graph = fabric(
        rows,
        {"dc": H / W, **tall},
        foundation=len(bases),
        widths={ROWS + 1: math.cos(slope) if narrow else 1.0},
    )
    found = depth(graph, W * relax(graph, on_a_grid(graph)).position, ROWS + 1)
    assert 0.3 < found < 0.5
    assert found == pytest.approx(left, abs=0.01)


def edge_repeat(graph: FabricGraph, position: Complex) -> float:
    """The repeat along the last row, in the middle of the piece."""
    lies = level(graph, position)
    course = graph.courses[-1]
    each = 2 * PLAIN + 4
    valleys = lies[course.first + each : course.first + course.number - each : each]
    return float(np.abs(np.diff(valleys.real)).mean())
