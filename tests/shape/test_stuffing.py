"""Stuffed rounds are held against shapes that mathematics knows."""

from __future__ import annotations

import numpy as np
import pytest

from hookwright.shape.columns import Real
from hookwright.shape.stuffing import _Energy, stuffed


def rounds(*counts: int) -> tuple[Real, Real]:
    wide = np.array(counts) / (2 * np.pi)
    return wide, np.full(len(wide), 0.95)


def test_two_discs_that_may_gather_are_a_balloon_of_foil() -> None:
    # Source: W. H. Paulsen, What is the shape of a Mylar balloon?, American Mathematical
    # Monthly 101, 1994: of discs of radius a the radius is 0.7627 a, the thickness 1.198
    # times the radius.
    number = 150
    out = np.arange(1, number + 1) / number
    wide = np.concatenate([out, out[::-1]])
    found = stuffed(wide, np.full(2 * number, 1 / number), gathers=0.0, bends=0.0)
    assert found.radius.max() == pytest.approx(0.7627, rel=0.01)
    thick = found.depth.max() - found.depth.min()
    assert thick / found.radius.max() == pytest.approx(1.198, rel=0.015)


def test_a_ball_stays_a_ball() -> None:
    # Source: a sphere; round k of n has 2 pi R sin(pi k / n) / w stitches.
    across, number = 20.0, 33
    angle = np.pi * (np.arange(number) + 0.5) / number
    wide = across / 2 * np.sin(angle)
    found = stuffed(wide, np.full(number, np.pi * across / 2 / number))
    assert found.radius.max() == pytest.approx(across / 2, rel=0.06)
    tall = found.depth.max() - found.depth.min()
    assert tall == pytest.approx(across, rel=0.08)


def test_a_flat_top_and_a_neck_are_rounded_and_stitches_are_hardly_drawn_out() -> None:
    wide, high = rounds(
        6, 12, 18, 24, 30, 30, 30, 30, 24, 24, 30, 36, 36, 36, 30, 24, 18, 12, 6
    )
    found = stuffed(wide, high)
    inner = slice(1, -1)  # the last ring is drawn together with the tail
    assert (found.radius / wide)[inner].max() < 1.15
    assert np.abs(np.diff(found.slope)).max() < 0.8  # unstuffed it turns at right angles


def test_how_the_energy_changes_is_as_differences_tell() -> None:
    wide, high = rounds(6, 12, 18, 18, 24, 12, 6)
    energy = _Energy(wide, high, 0.02, 0.15, 0.02)
    slope = np.linspace(0.1, 2.6, len(wide))
    _, change = energy.of(slope)
    step = 1e-6
    for at in range(len(slope)):
        moved = slope + step * (np.arange(len(slope)) == at)
        told = (energy.of(moved)[0] - energy.of(slope)[0]) / step
        assert told == pytest.approx(change[at], abs=1e-4)
