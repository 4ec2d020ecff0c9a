"""Discs and motifs: flat, cupped or ruffled, and how large."""

from __future__ import annotations

import numpy as np
import pytest
from fabrics_sketched import disc, polygon

from hookwright.shape.columns import Real
from hookwright.shape.energy import DRAWING, Complex
from hookwright.shape.facts import Degree, Lie
from hookwright.shape.lying import surplus_of, tilt_of, verdict_of
from hookwright.shape.relaxing import relax
from hookwright.shape.starts import start_of, without_start

ROUNDS = 20


@pytest.mark.parametrize(
    ("increases", "height", "across"),
    [(6, 0.955, 0.991), (8, 1.27, 0.995), (12, 1.91, 0.997)],
)
def test_the_increases_of_the_trade_lie_flat(
    increases: int, height: float, across: float
) -> None:
    # Source: 6 sc, 8 hdc, 12 dc a round (garturstitchfarmshop.com, flat circle); 2 pi h / w.
    graph = disc(increases, ROUNDS, height)
    relaxed = relax(graph, start_of(graph))
    tilt = tilt_of(graph, relaxed)
    assert abs(tilt.tilt) < 0.02
    last = graph.courses[-1].nodes
    rim = np.abs(relaxed.position[last] - relaxed.position[0]).mean()
    assert 0.99 <= rim / (ROUNDS * height) <= 1.0
    assert rim / (ROUNDS * height) == pytest.approx(across, abs=2e-3)  # own trial
    assert not relaxed.flipped.any()


@pytest.mark.parametrize(
    ("increases", "height", "tilt", "lie", "degree"),
    [
        (5, 0.955, 0.156, Lie.CUPS, Degree.BLOCKS_OUT),
        (7, 0.955, -0.099, Lie.RUFFLES, Degree.BLOCKS_OUT),
        (10, 1.91, 0.153, Lie.CUPS, Degree.BLOCKS_OUT),
        (14, 1.91, -0.115, Lie.RUFFLES, Degree.STRONG),
    ],
)
def test_too_few_cup_and_too_many_ruffle(
    increases: int, height: float, tilt: float, lie: Lie, degree: Degree
) -> None:
    # Own trial, to a tenth. e = m w / (2 pi h) - 1 is -0.167, +0.167, -0.167, +0.167: the
    # limit itself, so the degree may fall to either side of it.
    graph = disc(increases, ROUNDS, height)
    found = tilt_of(graph, relax(graph, start_of(graph)))
    assert found.tilt == pytest.approx(tilt, rel=0.1)
    verdict = verdict_of(found, found.surplus, (), rounds=True)
    assert (verdict.lie, verdict.degree) == (lie, degree)


def test_discs_need_no_start_either() -> None:
    graph = disc(6, ROUNDS, 0.955)
    one = relax(graph, start_of(graph))
    other = relax(graph, without_start(graph))
    assert other.energy == pytest.approx(one.energy, rel=1e-6)
    assert other.steps <= one.steps + 5


@pytest.mark.parametrize(("increases", "folds"), [(9, 0), (12, 0), (16, 64)])
def test_overfull_discs_cannot_lie_flat_and_are_said_to_ruffle(
    increases: int, folds: int
) -> None:
    graph = disc(increases, ROUNDS, 0.955)
    relaxed = relax(graph, start_of(graph))
    verdict = verdict_of(
        tilt_of(graph, relaxed), surplus_of(graph, relaxed), (), rounds=True
    )
    assert (verdict.lie, verdict.degree) == (Lie.RUFFLES, Degree.STRONG)
    drawn = relax(graph, start_of(graph), shear=DRAWING)
    assert len(drawn.flipped) == 820 * increases
    assert int(drawn.flipped.sum()) == pytest.approx(folds, abs=10)  # own trial


def away(rim: Complex, one: int, other: int) -> Real:
    """How far the stitches between two corners lie out from their chord, as shares of it."""
    along = rim[one : other + 1]
    chord = along[-1] - along[0]
    out = 1j * chord / abs(chord)
    if ((along[0] - rim.mean()) * np.conj(out)).real < 0:
        out = -out
    off: Real = ((along - along[0]) * np.conj(out)).real / abs(chord)
    return off


@pytest.mark.parametrize(("corners", "in_corner", "height"), [(6, 3, 1.75), (4, 3, 1.0)])
def test_polygons_with_the_right_corners_are_straight(
    corners: int, in_corner: int, height: float
) -> None:
    # Source: 2 C tan(pi / C) h / w increases a round: 12 for a dc hexagon, 8 for an sc square.
    graph, at = polygon(corners, in_corner, 12, height)
    relaxed = relax(graph, start_of(graph))
    rim = relaxed.position[graph.courses[-1].nodes]
    assert not relaxed.flipped.any()
    side = away(rim, at[0], at[1])
    assert np.abs(side).max() < 0.03  # own trial: 0.019, 0.021
    assert side.argmax() == pytest.approx(len(side) // 2, abs=1)


@pytest.mark.parametrize(("in_corner", "height"), [(3, 0.9), (5, 1.75)])
def test_overfull_squares_have_hollow_sides(in_corner: int, height: float) -> None:
    # e = +11 and +14 % by the same form. Own trial: tilt -0.067, -0.058; sign only.
    graph, at = polygon(4, in_corner, 12, height)
    relaxed = relax(graph, start_of(graph))
    rim = relaxed.position[graph.courses[-1].nodes]
    assert tilt_of(graph, relaxed).tilt < 0
    side = away(rim, at[0], at[1])
    assert side[len(side) // 2] < 0.7 * side.max()  # the middle lies back behind the rest
