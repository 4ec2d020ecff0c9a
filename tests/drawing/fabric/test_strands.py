"""The geometry under the pictures: curves, chance, light, against mathematics."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy.interpolate import BSpline, CubicHermiteSpline

from hookwright.drawing.fabric.chance import chance
from hookwright.drawing.fabric.kinds import form_of, turned_post
from hookwright.drawing.fabric.shapes import shape_of
from hookwright.drawing.fabric.strands import Seen, sampled, through
from hookwright.drawing.fabric.tubes import on_curve
from hookwright.drawing.fabric.wool import as_linear, as_screen

FORMS = (
    "sc hdc dc tr dtr trtr bobble popcorn puff cluster spike top free edge ch ridge".split()
)


def test_a_strand_goes_through_its_points_as_a_hermite_spline_does() -> None:
    # Source: a Catmull-Rom spline is the cubic Hermite spline whose tangents are half the
    # way from the point before to the point behind; scipy.interpolate.
    points = np.array([[0.0, 1.0], [1.0, 3.0], [2.0, 2.0], [4.0, 0.0], [5.0, 5.0]])
    held = np.vstack([2 * points[0] - points[1], points, 2 * points[-1] - points[-2]])
    peer = CubicHermiteSpline(np.arange(5), points, (held[2:] - held[:-2]) / 2)
    curve = through(points, 8)
    assert np.allclose(curve, peer(np.linspace(0, 4, 33)))


def test_the_curve_through_a_row_is_the_quadratic_b_spline() -> None:
    # Source: scipy.interpolate.BSpline with uniform knots.
    rng = np.random.default_rng(4)
    points = rng.normal(size=6) + 1j * rng.normal(size=6)
    threes = np.stack([points[:-2], points[1:-1], points[2:]], axis=1)
    x = np.linspace(-0.5, 0.5, 9, dtype=np.float32)
    own, _ = on_curve(threes, np.tile(x, (4, 1)))
    spline = BSpline(np.arange(-1.5, 7), points, 2)
    at = np.arange(1, 5)[:, None] + x
    assert np.allclose(own, spline(at), atol=1e-5)
    assert np.allclose(own[:-1, -1], own[1:, 0], atol=1e-5), "pieces join"


def test_beyond_its_half_way_points_a_curve_goes_straight_on() -> None:
    three = np.array([[-1 + 2j, 0, 1 + 3j]], dtype=complex)
    x = np.array([[0.5, 0.7, 0.9]], dtype=np.float32)
    point, way = on_curve(three, x)
    assert np.allclose(point[0, 2] - point[0, 1], point[0, 1] - point[0, 0], atol=1e-5)
    assert np.allclose(way[0], way[0, 0])


@pytest.mark.parametrize("form", [*FORMS, "raised dc", "sunk tr", "3 chains", "left cap"])
@pytest.mark.parametrize("seen", list(Seen))
def test_every_form_has_strands_that_are_evenly_sampled(form: str, seen: Seen) -> None:
    shape = shape_of(form, seen)
    assert shape.strands
    samples = sampled(shape, 20)
    assert samples.starts[-1] == len(samples.u)
    assert np.isfinite(samples.z).all()
    for begin, end in zip(samples.starts, samples.starts[1:], strict=False):
        steps = np.diff(samples.along[begin:end])
        assert steps.max() == pytest.approx(steps.min(), rel=1e-3)
        assert steps.max() <= 1 / 20 + 1e-3 or end - begin == 5


def test_a_stitch_looks_otherwise_from_its_back() -> None:
    for form in ("sc", "hdc", "dc", "tr", "bobble", "top"):
        assert shape_of(form, Seen.FRONT) != shape_of(form, Seen.BACK)


@pytest.mark.parametrize(
    ("name", "height", "form"),
    [
        ("sc", 0.95, "sc"),
        ("dc3tog", 1.9, "dc"),
        ("fpdc", 1.9, "dc"),
        ("long dc", 1.9, "dc"),
        ("spike sc", 0.95, "sc"),
        ("bobble", 1.9, "bobble"),
        ("sl st", 0.3, "sl st"),
        ("wattle", 2.5, "tr"),
        ("wattle", 1.2, "hdc"),
    ],
)
def test_a_name_tells_the_form(name: str, height: float, form: str) -> None:
    assert form_of(name, {}, height) == form


@pytest.mark.parametrize(
    ("post", "side", "form"),
    [
        ("front", "front", "raised dc"),
        ("front", "back", "sunk dc"),
        ("back", "front", "sunk dc"),
        ("back", "back", "raised dc"),
    ],
)
def test_a_post_stitch_seen_from_behind_is_the_other_one(
    post: str, side: str, form: str
) -> None:
    assert turned_post("dc", front=post == "front", seen_front=side == "front") == form


@settings(max_examples=10)
@given(st.integers(0, 10**9), st.integers(1, 50))
def test_chance_is_even_and_of_the_number_alone(start: int, salt: int) -> None:
    numbers = np.arange(start, start + 2_000)
    values = chance(numbers, salt)
    assert values.min() >= 0
    assert values.max() < 1
    # Source: the mean of n even numbers from 0 to 1 is 1/2, give or take 5 sqrt(1/12n).
    assert abs(float(values.mean()) - 0.5) < 5 * np.sqrt(1 / 12 / 2_000)
    assert np.array_equal(chance(numbers[7:9], salt), values[7:9])


def test_linear_light_and_colours_of_a_screen_go_there_and_back() -> None:
    colours = np.arange(0, 256, 5).reshape(-1, 1).repeat(3, axis=1)
    assert np.abs(as_screen(as_linear(colours)).astype(int) - colours).max() <= 1
