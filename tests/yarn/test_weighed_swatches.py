"""Swatches that are weighed tell how long a loop is.

Source of the comparison: numpy's least squares, and swatches made up from a known loop.
"""

from __future__ import annotations

from fractions import Fraction

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as some
from yarn_texts import SWATCH, checked, plain, planned, sheet

from hookwright.design.facts import Gauge
from hookwright.source import Span
from hookwright.yarn.facts import Basis
from hookwright.yarn.loop_length import OTHER_STITCH, OWN_STITCH, fitted, law_of
from hookwright.yarn.weighed import Weighed, weighed_swatches

LOOPS = some.integers(100, 5000)


def weighed(grams: Fraction, loops: int, kind: str = "", strands: int = 1) -> Weighed:
    """A swatch of so many loops."""
    gauge = Gauge(Span(0, 0))
    return Weighed(gauge, grams, "", strands, kind, Fraction(loops), "a swatch")


@settings(max_examples=40)
@given(some.lists(LOOPS, min_size=1, max_size=6), some.integers(15, 40))
def test_a_known_loop_is_found_again(many: list[int], mm: int) -> None:
    swatches = [weighed(Fraction(mm * loops, 2000), loops) for loops in many]
    assert fitted(swatches, Fraction(2000), OWN_STITCH).mm == mm


@settings(max_examples=40)
@given(some.lists(some.tuples(LOOPS, some.integers(1, 90)), min_size=2, max_size=6))
def test_the_fit_is_numpys_least_squares(many: list[tuple[int, int]]) -> None:
    swatches = [weighed(Fraction(grams), loops) for loops, grams in many]
    # each weighted by one over its loops
    loops = np.array([loops for loops, _ in many], float)
    lengths = np.array([grams * 2000 for _, grams in many], float)
    root = np.sqrt(loops)
    (mm,), *_ = np.linalg.lstsq((loops / root)[:, None], lengths / root, rcond=None)
    found = fitted(swatches, Fraction(2000), OWN_STITCH)
    assert float(found.mm) == pytest.approx(mm)
    if found.spread < Fraction(35, 100):
        off = np.sqrt(((lengths - mm * loops) ** 2 / loops).sum() / (len(many) - 1))
        assert float(found.spread) >= off / np.sqrt(loops.mean()) / mm - 1e-4


def test_the_stitch_that_was_weighed_is_known_best() -> None:
    law = law_of([weighed(Fraction(50), 4000, "sc")], Fraction(2000), None, None, None)
    assert law.at("sc").spread == OWN_STITCH
    assert law.at("dc").spread == OTHER_STITCH
    assert law.at("sc").mm == law.at("dc").mm == 25
    assert law.at("dc").basis is Basis.SWATCH


def test_two_strands_share_the_weight() -> None:
    two = fitted([weighed(Fraction(50), 4000, strands=2)], Fraction(2000), OWN_STITCH)
    assert two.mm == Fraction(25, 2)


def test_a_small_swatch_and_coarse_scales_tell_less() -> None:
    small = fitted([weighed(Fraction(2), 80)], Fraction(2000), OWN_STITCH)
    assert small.spread == Fraction(1, 2) / 2  # half a gram of two


@pytest.mark.parametrize(
    ("swatch", "loops"),
    [
        # By hand: a chain of 21, 24 rows of 20 sc, 23 turning chains.
        (SWATCH, 21 + 24 * 20 * 2 + 23),
        # A chain of 22, of which 3 stand for the first dc: 23 times 19 dc and ch 3 later on.
        (SWATCH.replace('"sc"', '"dc"'), 22 + 24 * 19 * 4 + 23 * 3),
        (SWATCH + "whole_stitches = 30\nwhole_rows = 10\n", 31 + 10 * 30 * 2 + 9),
    ],
)
def test_the_loops_of_a_plain_swatch(swatch: str, loops: int) -> None:
    read = checked(plain(20, 8), sheet("A", swatch=swatch))
    (found,) = weighed_swatches(read, ())
    assert found.loops == loops


def test_a_swatch_in_the_pattern_has_the_loops_of_its_rows() -> None:
    worksheet = sheet("A", swatch=SWATCH.replace('stitch = "sc"\n', ""))
    read = checked(plain(40, 30, stitch="dc"), worksheet)
    (found,) = weighed_swatches(read, ())
    # 20 chains; 24 rows of 20 dc, and ch 2 in 29 of 30 rows
    assert found.loops == 20 + 24 * (20 * 4 + Fraction(29 * 2, 30))
    assert found.kind == "dc"


def test_it_is_always_said_what_a_figure_stands_on() -> None:
    (weighed_size,) = planned(plain(20, 8), sheet("A")).sizes
    assert weighed_size.basis is Basis.SWATCH
    (guessed,) = planned(plain(20, 8), sheet("A", swatch="")).sizes
    assert guessed.basis is Basis.PRIOR
    wide = [
        (size.length.high - size.length.low) / size.length.mid
        for size in (weighed_size, guessed)
    ]
    assert wide[0] < wide[1]


def test_colours_of_one_yarn_share_their_swatch_and_others_do_not() -> None:
    more = '[[yarn]]\nletter = "B"\nname = "Tern"\nball_m = 100\nball_g = 50\n'
    swatch = SWATCH + 'yarn = "A"\n'
    line = "2 rows A, 2 rows B. Work this sequence 2 times in all: 8 rows."
    plan = planned(plain(20, 8, line), sheet("A", more, swatch))
    laws = dict(plan.laws)
    assert laws["A"].common.basis is Basis.SWATCH
    assert laws["B"].common.basis is Basis.PRIOR
    assert plan.sizes[0].basis is Basis.PRIOR
