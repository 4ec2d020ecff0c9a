"""Swatches that others have measured, within the spread that is promised before a swatch.

Sources, read 2026-11 through a stored text index; only figures are taken:
lab: windchilde.com/bluedepth/tag/crochet, worsted yarn and a 5 mm hook, measured in inches
catalogue: an entry of a pattern catalogue, worsted, 5.0 mm, 4 x 4 sc to the inch, 1.25 yd for 22
weighed: interweave.com (yarn usage, an experiment), chunky, 6 mm: 400 sc 19 g, 400 hdc 28 g
ripple: alottastitches.wordpress.com/2012/07/27, dc ripple of 84 rows x 132, 25 oz at 52 yd/oz
cloths: qctester.wordpress.com (crochet), worsted cotton, 4.5 mm, yards in squares
test: thesnugglery.net/?p=392, the yarn of 4 in of sc makes 4.75 in of dc
rows: a table of makers' swatches, 14 sc and 16 rows, 13 hdc and 9 rows to 4 in
"""

from __future__ import annotations

from fractions import Fraction

import pytest

from hookwright.sizing.guessing import usual_heights
from hookwright.yarn.facts import Basis
from hookwright.yarn.loop_length import COVER, Cell, prior
from hookwright.yarn.loops import table
from hookwright.yarn.thickness import thickness

INCH, YARD = Fraction(254, 10), Fraction(9144, 10)
WORSTED = thickness(4, None, None)
CHUNKY = thickness(5, None, None)
assert WORSTED is not None
assert CHUNKY is not None


def within(measured: float, told: float, spread: float) -> bool:
    """Whether a figure lies within a spread of the one that is told."""
    return abs(measured - told) <= spread * told


# V29, rules-of-thumb yarn_measured (lab): inches of yarn in a square inch
@pytest.mark.parametrize(
    ("stitch", "inches"), [("sc", 31.42), ("hdc", 32.08), ("dc", 31.60)]
)
def test_the_covering_law_holds_for_a_square_inch(stitch: str, inches: float) -> None:
    assert WORSTED is not None
    del stitch  # the same for all three, which is what was measured
    assert within(inches, float(COVER / WORSTED.mm * INCH), 0.15)


# cloths: yards and square inches; open granny work is none of a fabric without holes
@pytest.mark.parametrize(
    ("yards", "square_inches"),
    [
        (66.5, 8.75**2),
        (73.5, 9.0**2),
        (56, 8 * 7.75),
        (60.9, 8 * 7.75),
        (76.5, 9.75 * 8.75),
    ],
)
def test_the_covering_law_holds_for_cloths(yards: float, square_inches: float) -> None:
    assert WORSTED is not None
    assert within(yards * 36 / square_inches, float(COVER / WORSTED.mm * INCH), 0.15)


# V30, rules-of-thumb ratio_row (lab): 10.6, 15.7 and 20.4 in of yarn for an inch of row;
# weighed: hdc 28 g over sc 19 g. After a swatch of another stitch 10 % are promised.
@pytest.mark.parametrize(
    ("stitch", "ratio"), [("hdc", 15.7 / 10.6), ("dc", 20.4 / 10.6), ("hdc", 28 / 19)]
)
def test_loops_tell_how_much_more_a_taller_stitch_takes(stitch: str, ratio: float) -> None:
    assert within(ratio, table()[stitch] / table()["sc"], 0.10)


# catalogue, weighed (its ball label is assumed: 120 yd in 100 g), ripple (border with it)
@pytest.mark.parametrize(
    ("hook", "yarn", "loops", "mm"),
    [
        ("5", WORSTED, 2, 1.25 * 914.4 / 22),
        ("6", CHUNKY, 2, 19 / 100 * 120 * 914.4 / 400),
        ("6.5", CHUNKY, 2, 2.75 * 25.4),
        ("5.5", WORSTED, 4, 25 * 52 * 914.4 / (84 * 132)),
    ],
)
def test_a_turn_about_hook_and_yarn_is_a_loop(
    hook: str, yarn: object, loops: int, mm: float
) -> None:
    told = prior(Fraction(hook), yarn, None)  # type: ignore[arg-type]
    assert told.basis is Basis.PRIOR
    length = told.of(loops)
    assert float(length.low) <= mm <= float(length.high)


def test_the_spread_before_a_swatch_holds_what_equal_balls_differ_by() -> None:
    # V43, ravelry.com/projects/xopheliax: equal balls of one line gave 9.5, 10 and 12 blocks
    told = prior(Fraction(5), WORSTED, None)
    middle = (9.5 + 12) / 2
    assert float(told.spread) >= 12 / middle - 1


def test_a_round_about_a_blanket_takes_what_was_weighed() -> None:
    """V41, attic24.typepad.com (slipstream edging): a round of each of four colours about a
    blanket of 4 x 6 ft took 10 to 12 g. In which stitch is not told: a round of slip
    stitches takes less, and one of sc as much within the spread. DK of 295 m in 100 g and a
    4 mm hook are assumed, 18 stitches to 10 cm: common practice, no source.
    """
    mm_per_g = Fraction(2950)
    thick = thickness(3, mm_per_g, Fraction(4))
    loop = prior(Fraction(4), thick, None)
    stitches = round(2 * (4 + 6) * 12 * Fraction(254, 10) / (100 / Fraction(18)))
    slip = loop.of(stitches * table()["sl st"]).times(1 / mm_per_g)
    single = loop.of(stitches * table()["sc"]).times(1 / mm_per_g)
    assert slip.high < 12
    assert slip.mid < 11 < single.mid
    assert single.low < 12


def test_a_test_that_contradicts_another_is_why_a_swatch_is_asked_for() -> None:
    # V31 (test) against V29: dc takes 16 % less per area than sc there, and as much here. By
    # loops both can be: it depends on how tall the dc is, which the usual range allows.
    lab = 4.75 / 4 * table()["dc"] / table()["sc"]
    heights = usual_heights()
    assert 0.8 * heights[3] / heights[1] <= lab <= 1.5 * heights[3] / heights[1]


def test_where_the_two_laws_disagree_a_swatch_is_asked_for() -> None:
    loose = Cell(Fraction(200), Fraction(2))
    told = prior(Fraction(5), WORSTED, loose)
    assert told.spread > Fraction(20, 100)
    assert "Make a swatch and weigh it" in told.said[-1]


def test_where_they_agree_it_is_told() -> None:
    # catalogue: 4 sc and 4 rows to the inch
    close = Cell((INCH / 4) ** 2, Fraction(2))
    told = prior(Fraction(5), WORSTED, close)
    assert told.spread == Fraction(20, 100)
    assert "comes to 26.4 mm" in told.said[-1]
