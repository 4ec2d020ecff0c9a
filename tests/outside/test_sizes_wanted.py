"""Repeats, chains, rows and rounds for wanted sizes, against figures from outside."""

from __future__ import annotations

from fractions import Fraction
from math import ceil, cos, pi, radians, sin

import pytest
from sizing_texts import (
    STRIP,
    WAVES,
    checked,
    inches,
    nearest,
    of_multiple,
    only_size,
    sized,
)

from hookwright.sizing.facts import Multiple
from hookwright.sizing.fitting import bracket
from hookwright.sizing.pitch import Pitch
from hookwright.sizing.rounds import (
    OF_TRIANGLE,
    across,
    ball_for,
    cap_for,
    flat_increases,
    oval_chain,
    rounds_across,
    rows_to_width,
    schedule,
)
from hookwright.sizing.waves import is_wave, repeat_at, slope_of, slope_of_flat

INCH = Fraction(254, 10)


def exactly(mm: Fraction) -> Pitch:
    return Pitch(mm, Fraction(0))


def test_a_chevron_of_eleven_and_two_over_45_inches() -> None:
    # Source: bhookedcrochet.com 2015/05/28: chevron 11 + 2, one repeat chained 3 in and
    # worked 2.5 in; 45 in wanted: 18 repeats, 200 chains.
    part = of_multiple((11, 1), (11, 2))
    made = nearest(sized(STRIP, width="45in", gauge="1 repeat = 2.5 in", multiples=[part]))
    assert (made.repeats, made.chain) == (18, 200)


def test_fourteen_and_three() -> None:
    # Source: forum.knittinghelp.com, neat ripple questions: k = 2, 18, 20.
    assert [Multiple(14, 3).at(k) for k in (2, 18, 20)] == [31, 255, 283]


def test_six_and_two_near_seventy() -> None:
    # Source: oombawkadesigncrochet.com, using stitch multiples: about 70 wanted, 68.
    found = bracket(Fraction(70), Fraction(6), Fraction(2))
    assert found.nearest == 11
    assert Multiple(6, 2).at(found.nearest) == 68


def test_four_and_one_over_thirty_inches_lies_between_35_and_36() -> None:
    # Source: theblogofteresa.com, blanket beginnings: repeat 0.85 in, 30 in: 35.3, so 36
    # repeats and 145 chains. That page rounds up; the nearer is 35, and 36 is told beside it.
    part = of_multiple((4, 0), (4, 1))
    found = sized(STRIP, width="30 in", gauge="1 repeat = 0.85 in", multiples=[part])
    assert nearest(found).repeats == 35
    above = only_size(found).above
    assert above is not None
    assert (above.repeats, above.chain) == (36, 145)
    assert "35.29 repeats: 35, rounded down" in " ".join(only_size(found).said)


def test_fifteen_and_three_over_36_and_40_inches() -> None:
    # Source: staceydaze.blogspot.com 2011: 123 chains about 36 in, 138 about 40 in.
    part = of_multiple((15, 0), (15, 3))
    for wanted, chains in (("36 in", 123), ("40 in", 138)):
        found = sized(STRIP, width=wanted, gauge="9 repeats = 40 in", multiples=[part])
        assert nearest(found).chain == chains


def test_thirty_six_inches_at_five_stitches_an_inch() -> None:
    # Source: pinkbrutus.com 2017/8/5: 36 in at 5 to the inch is 180; over 7 it is 25.7.
    plain = sized(
        STRIP, width="36 in", gauge="5 sts = 1 in", multiples=[of_multiple((1, 0))]
    )
    assert nearest(plain).stitches == 180
    sevens = sized(
        STRIP, width="36 in", gauge="5 sts = 1 in", multiples=[of_multiple((7, 0))]
    )
    assert nearest(sevens).repeats == 26
    assert "25.71 repeats: 26, rounded up" in " ".join(only_size(sevens).said)


def test_a_throw_of_fifty_by_sixty() -> None:
    # Source: a craft article's arithmetic (rebab.net): 50 x 60 in at 13 sts and 7.5 rows to
    # 4 in are 162.5 sts and 112.5 rows, rounded down to 162 and 112: 18,144 stitches.
    part = of_multiple((1, 0), sets=112)
    gauge = "13 sts and 7.5 rows = 4 in"
    found = sized(STRIP, width="50 in", height="60 in", gauge=gauge, multiples=[part])
    made = nearest(found)
    assert (made.stitches, made.rows) == (162, 112)
    assert made.stitches is not None
    assert made.rows is not None
    assert made.stitches * made.rows == 18_144
    above = only_size(found).above
    assert above is not None
    assert (above.stitches, above.rows) == (163, 114)  # rows stay even


def test_eleven_repeats_of_three_and_a_half_inches() -> None:
    # Common practice, no source: 11 x 3.5 in = 38.5 in.
    part = of_multiple((16, 0), repeats=11)
    found = sized(STRIP, gauge="one repeat 3 1/2 in, 4 rows 2 in", multiples=[part])
    assert inches(found.parts[0].now[0]) == 38.5


@pytest.mark.parametrize(("wide", "long", "chains"), [(30, 36, 20), (36, 48, 38)])
def test_the_chain_of_a_rectangle_from_its_centre(
    wide: int, long: int, chains: int
) -> None:
    # Source: twinstitches.com 2015/01: 3 chains an inch of length less width, and 2.
    stitch = exactly(INCH / 3)
    assert oval_chain(long * INCH, wide * INCH, stitch, 2) == chains


def test_five_millimetres_in_front_and_behind_of_six_motifs_are_six_centimetres() -> None:
    # Source: mezzacraft.com, washing, blocking: 5 mm a motif x 6 motifs x 2 = 6 cm.
    assert exactly(Fraction(5)).times(6 * 2).mm == 60


def test_two_hundred_over_eight_sections() -> None:
    # Source: crochetkim.com: 200 over 8 is 25 each; 204 is four of 25 and four of 26.
    assert bracket(Fraction(200), Fraction(8)).nearest == 25
    assert bracket(Fraction(204), Fraction(8)).below == 25
    assert bracket(Fraction(204), Fraction(8)).above == 26


@pytest.mark.parametrize(
    ("over_width", "increases"), [("0.955", 6), ("1.27", 8), ("1.91", 12)]
)
def test_flat_circles_gain_6_8_and_12(over_width: str, increases: int) -> None:
    # Source: craftymaria.blogspot.com 2009/06: sc 6, hdc 8, dc 12 a round. 2 pi h / w.
    width = Fraction(7)
    found = flat_increases(exactly(width), exactly(width * Fraction(over_width)))
    assert round(found) == increases


def test_a_circle_gains_two_heights_a_round() -> None:
    row = exactly(Fraction(10))
    assert rounds_across(Fraction(200), row).nearest == 10
    assert across(10, row).mm == 200


def test_the_side_of_a_triangle_is_three_and_a_half_times_its_inner_radius() -> None:
    # An equilateral triangle: side = 2 sqrt 3 times the radius of its inscribed circle, and
    # its height three times that radius. Source: geometry.
    row = exactly(Fraction(10))
    assert float(across(10, row, OF_TRIANGLE).mm) == pytest.approx(2 * 3**0.5 * 100)


@pytest.mark.parametrize(("head", "diameter"), [("22", 7.0), ("23", 7.32), ("13.5", 4.3)])
def test_a_crown_is_the_girth_over_pi(head: str, diameter: float) -> None:
    # Source: ohewe.blogspot.com 2009/06, hookthatyarn.wordpress.com 2016/06/09: 22 / 3.14 is
    # 7 in, 23 is 7.32, 13.5 is 4.3.
    stitch, row = exactly(INCH / 4), exactly(INCH / 3)
    cap = cap_for(Fraction(head) * INCH, None, stitch, row, 8, 8)
    assert float(cap.diameter / INCH) == pytest.approx(diameter, abs=0.02)
    assert cap.stitches % 8 == 0


def test_a_cap_grows_to_its_girth_and_goes_on_to_its_height() -> None:
    # 16 hdc and 12 rounds to 4 in: 20 in are 80 sts, ten rounds of 8 more; 8 in are 24
    # rounds, so 14 of them even.
    stitch, row = exactly(INCH / 4), exactly(INCH / 3)
    cap = cap_for(20 * INCH, 8 * INCH, stitch, row, 8, 8)
    assert (cap.stitches, cap.crown, cap.straight) == (80, 10, 14)


@pytest.mark.parametrize("radius", [8, 12, 20])
def test_a_ball_has_the_stitches_of_its_parallels(radius: int) -> None:
    # n = round(2 pi R sin(r h / R) / w): a parallel of a sphere at r heights from its pole.
    width, high = Fraction(4), Fraction(38, 10)
    ball = ball_for(Fraction(2 * radius) * width, exactly(width), exactly(high), 1)
    big = float(radius * width)
    for number, count in enumerate(ball.counts, start=1):
        there = 2 * pi * big * sin(number * float(high) / big) / float(width)
        assert count == max(1, round(there))
    # From pole to pole it is half a great circle.
    assert len(ball.counts) * float(high) == pytest.approx(pi * big, abs=2 * float(high))
    assert ball.most == pytest.approx(2 * pi * radius, abs=1)


def test_the_rounds_of_a_ball_are_told_as_a_pattern_tells_them() -> None:
    assert schedule((6, 12, 18, 18, 18, 12, 6)) == "6, 12, 18 (3 rounds), 12, 6"


def test_a_triangle_is_as_wide_as_its_last_row() -> None:
    found = rows_to_width(Fraction(1000), exactly(Fraction(5)), 3, Fraction(2))
    assert 3 + 2 * (found.nearest - 1) in {199, 201}


def test_a_wave_climbs_as_its_swatch_says() -> None:
    # Worsted, 5.5 mm hook, dc in back loops, 6 plain stitches: 3 1/2 in a repeat and 4 rows
    # 2 in. sin 2t = P / (8 V) = 0.875: t = 30.52 degrees, w = 0.2539 in.
    slope = slope_of(Fraction(7, 2) * INCH, INCH / 2, 16)
    assert slope is not None
    assert slope.degrees == pytest.approx(30.52, abs=0.01)
    assert float(slope.stitch_mm / INCH) == pytest.approx(0.2539, abs=1e-4)
    assert float(slope.chain) == pytest.approx(1 / cos(radians(30.52)), abs=1e-3)
    # Depth from peak to valley: 8 w sin t.
    assert float(slope.depth_mm / INCH) == pytest.approx(1.03, abs=0.01)


def test_a_wave_of_single_crochet_draws_in_to_two_thirds() -> None:
    # Source: crochetcabana.com, ripples and chevrons: chain half as long again. Single
    # crochet is about as high as it is wide (11 sts and 12 rows to 4 in).
    slope = slope_of_flat(INCH * 4 / 11, INCH * 4 / 12, 18)
    assert float(slope.chain) == pytest.approx(1.5, abs=0.1)


def test_the_flat_gauge_and_the_swatch_of_a_wave_agree() -> None:
    slope = slope_of_flat(Fraction(7), Fraction(12), 16)
    repeat, row = repeat_at(slope, 16)
    again = slope_of(repeat, row, 16)
    assert again is not None
    assert float(again.stitch_mm) == pytest.approx(7, abs=1e-3)
    assert again.degrees == pytest.approx(slope.degrees, abs=1e-3)


def test_a_swatch_that_fits_no_wave_says_nothing() -> None:
    assert slope_of(Fraction(900), Fraction(10), 16) is None


def test_the_chain_of_a_wave_is_longer_than_the_wave() -> None:
    found = sized(WAVES, width="40 in", gauge="one repeat 3 1/2 in, 4 rows 2 in")
    part = found.parts[0]
    assert part.multiple.stitches is not None
    assert part.multiple.stitches.each == 16
    assert part.gauge.slope is not None
    # 1 / cos 30.52 degrees.
    assert "1.16 times as long" in " ".join(part.said)
    made = nearest(found)
    assert made.repeats is not None
    assert abs(inches(made) - 40) <= 3.5 / 2
    assert made.repeats == round((40 - 3.5 * part.multiple.stitches.extra / 16) / 3.5)


def test_chains_between_stitches_lie_along_too() -> None:
    # A mesh of dc and ch 2 is worked over three chains a square, and lies flat on them: 45 in
    # at 4 stitches an inch are 180 places, 60 squares.
    mesh = (
        "US terms. Gauge: 16 sts and 8 rows = 4 in.\n\nCh 26.\n"
        "Row 1: Dc in 8th ch from hook, *ch 2, sk next 2 ch, dc in next ch; rep from * across.\n"
        "Row 2: Ch 5, turn, sk first dc and next ch-2 sp, dc in next dc, *ch 2, dc in next dc; "
        "rep from * across, ch 2, dc in 3rd ch of beg ch.\n"
    )
    part = of_multiple((1, 1), (3, 5), repeats=7)
    made = nearest(sized(mesh, width="45 in", multiples=[part]))
    assert made.repeats == 60
    assert made.chain == 185


@pytest.mark.parametrize(
    ("row", "climbs"),
    [
        ("dc in next 6 ch, dc3tog over next 3 ch, dc in next 6 ch, 3 dc in next ch", True),
        ("sk next 2 ch, 5 dc in next ch, sk next 2 ch, sc in next ch", False),
        ("dc in each of next 4 ch", False),
    ],
)
def test_what_climbs_and_falls_is_a_wave(row: str, *, climbs: bool) -> None:
    uses = {"dc in next 6": 16, "sk next 2 ch": 6, "dc in each of": 4}
    each = next(n for words, n in uses.items() if row.startswith(words))
    text = f"US terms.\n\nCh {3 * each + 4}.\nRow 1: Dc in 4th ch from hook, *{row}; rep from * across.\n"
    assert is_wave(checked(text).worked.sizes[0].outcomes) is climbs


def test_a_bed_is_covered_in_whole_repeats() -> None:
    # Source: thecrochetcrowd.com, beds with drape: queen 90 x 95 in.
    part = of_multiple((8, 1), (8, 2), rows=(2, 1), sets=40)
    found = sized(
        STRIP, sizes=("bed queen",), gauge="16 sts and 10 rows = 4 in", multiples=[part]
    )
    made = nearest(found)
    assert made.repeats == round((90 * 4 - 1) / 8)
    assert made.rows is not None
    assert made.rows % 2 == 1
    assert abs(made.rows - 95 * 2.5) <= 1
    assert ceil(95 * 2.5) - made.rows in {-1, 0, 1}
