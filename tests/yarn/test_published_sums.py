"""Sums of yarn that others have published. The numbers V32 to V46 and their sources, read
2026-11 through a stored text index; only figures are taken:

V32 neisripplealong.blogspot.com/2007/05; V33 alottastitches.wordpress.com/2012/05/07;
V34 the same, 2011/11/29; V35 ravelry.com (ripple ridge afghan); V36 madebyanouchka.com
(crochet maths); V37 lifeandallthatscrap-emma.blogspot.com/2010/12; V38
rainbowjunkiecorner.wordpress.com/tag/ripple; V39 stitchingandhookingpassions.blogspot.com/2009/09;
V40 kephrenknittingstudio.com; V42 agoodyarn.biz, help.loveknitting.com,
cebuana80.blogspot.com/2015/01; V44 pureandstrange.blogspot.com/2008/12; V45
ptarmiganptracks.blogspot.com/2013/03; V46 kidsbyhand.wordpress.com, crossroadknits.blogspot.com
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

import pytest
from yarn_texts import planned

from hookwright.design.facts import Gauge
from hookwright.design.stripes import Stripe
from hookwright.source import Span
from hookwright.yarn.balls import instead, rows_from, whole_balls
from hookwright.yarn.cutting import stretches, tails_of
from hookwright.yarn.facts import RowUsed, Section, Use
from hookwright.yarn.loop_length import OWN_STITCH, fitted
from hookwright.yarn.stripes import Stripes
from hookwright.yarn.weighed import Weighed

YARD, INCH = Fraction(9144, 10), Fraction(254, 10)
NOWHERE = Span(0, 0)


def stripes(*rows: int, after: int = 0) -> Stripes:
    """Stripes of so many rows, each in a colour of its own: A, B, C, ..."""
    told = tuple(Stripe(n, chr(ord("A") + at)) for at, n in enumerate(rows))
    return Stripes(told, (Stripe(after, "A"),) if after else ())


def test_v32_a_swatch_tells_the_yarn_of_a_blanket() -> None:
    # 49 st x 6 rows are 42.12 sq in and took 35 yd, at 52 yd to the oz 19.08 g
    swatch = Weighed(Gauge(NOWHERE), Fraction(35), "", 1, "", Fraction(49 * 6), "a swatch")
    law = fitted([swatch], YARD, OWN_STITCH)
    each = law.of(49 * 6).times(1 / Fraction(4212, 100))
    assert round(each.times(60 * 72).mid / YARD) == 3590
    assert round(each.times(60 * Fraction(416, 100)).mid / YARD) == 207


def test_v33_a_ball_is_enough_for_whole_rows() -> None:
    per_row = Fraction(52) / Fraction(333, 100)
    assert round(float(per_row), 1) == 15.6
    assert rows_from(Fraction(81), Fraction(0), per_row) == 5


def test_v34_the_rows_of_each_colour_follow_from_the_sequence() -> None:
    rows = Counter(stripes(4, 1, 3, 1, after=4).colours(85))
    assert sum(rows.values()) == 85
    assert rows["C"] == 27
    assert stripes(4, 1, 3, 1, after=4).colours(85)[:4] == ["A"] * 4
    assert stripes(4, 1, 3, 1, after=4).colours(85)[-4:] == ["A"] * 4


def test_v35_rows_times_yards() -> None:
    # 1.25 yd for a point in a row, 16 points; stripes that come to 96, 72, 48 and 20 rows
    point = Weighed(Gauge(NOWHERE), Fraction(125, 100), "", 1, "", Fraction(1), "a point")
    law = fitted([point], YARD, OWN_STITCH)
    yards = [law.of(16 * rows).mid / YARD for rows in (96, 72, 48, 20)]
    assert yards == [1920, 1440, 960, 400]


def test_v36_rows_left_in_a_ball() -> None:
    assert rows_from(Fraction(100), Fraction(10), Fraction(15)) == 6
    assert 15 * rows_from(Fraction(100), Fraction(10), Fraction(15)) * 2 == 180


def test_v37_a_stripe_of_a_blanket_that_was_weighed() -> None:
    blanket = Weighed(Gauge(NOWHERE), Fraction(750), "", 1, "", Fraction(84), "84 rows")
    assert round(fitted([blanket], Fraction(1), OWN_STITCH).of(2).mid, 1) == Fraction(
        "17.9"
    )


def test_v38_stripes_beyond_whole_sequences() -> None:
    # 14 colours x 8 + 17 = 129 stripes of two rows: three colours come a tenth time
    rows = Counter(stripes(*[2] * 14).colours(129 * 2))
    assert sum(rows.values()) == 2 * (14 * 8 + 17)
    assert [rows[colour] for colour in "ABCDN"] == [20, 20, 20, 18, 18]


@pytest.mark.parametrize(("grams", "ball", "balls"), [(1715, 50, 35), (1715, 100, 18)])
def test_v39_whole_balls_of_a_weight(grams: int, ball: int, balls: int) -> None:
    assert whole_balls(Fraction(grams), Fraction(ball)) == balls


def test_v40_grams_go_with_the_area() -> None:
    swatch = Weighed(Gauge(NOWHERE), Fraction(10), "", 1, "", Fraction(64), "64 sq in")
    law = fitted([swatch], Fraction(1), OWN_STITCH)
    assert law.of(80).mid == Fraction(125, 10)


@pytest.mark.parametrize(
    ("balls", "ball", "other", "needed"),
    [(9, 200, 109, 17), (6, 100, 150, 4), (6, 100, 90, 7), (5, 338, 124, 14)],
)
def test_v42_another_yarn_is_had_by_its_length(
    balls: int, ball: int, other: int, needed: int
) -> None:
    assert instead(balls, Fraction(ball), Fraction(other)) == needed


def test_v44_stripes_that_a_rest_is_enough_for() -> None:
    assert rows_from(Fraction(21, 8), Fraction(0), Fraction(1)) == 2


def test_v45_the_tails_of_one_row_stripes_are_some_per_cent() -> None:
    # 85 g of 37 x 50 g were cut off: 4.6 %. One-row stripes of 160 sc, cut each time.
    line = "1 row A, 1 row B. Work this sequence 60 times in all: 120 rows."
    from yarn_texts import plain, sheet  # noqa: PLC0415 - of this test alone

    (size,) = planned(plain(160, 120, line), sheet("AB")).sizes
    share = sum(c.tails for c in size.colours) / size.length.mid
    assert 0.02 < share < 0.07


def rows_of(yarns: list[str], make: int = 1) -> list[RowUsed]:
    """A row for each yarn, all of one piece."""
    return [
        RowUsed(0, at, f"Row {at}", Section.PIECE, (Use(yarn, "sc", 2, 10),), own=True,
                cut=False, ends=Fraction(0), place=NOWHERE, make=make)
        for at, yarn in enumerate(yarns, 1)
    ]  # fmt: skip


def test_v46_ends_are_two_for_every_separate_length() -> None:
    motifs = stretches(rows_of(list("ABCDE"), make=60), carried=False)
    assert sum(tails_of(motifs, yarn) for yarn in "ABCDE") == 600
    scarf = stretches(rows_of(["A", "B"] * 61), carried=False)
    assert tails_of(scarf, "A") + tails_of(scarf, "B") == 244


def test_v46_a_colour_carried_up_the_side_has_two() -> None:
    # rules of thumb: ends.stripe_carried_up_side, over an even number of rows
    found = stretches(rows_of(["A", "A", "B", "B"] * 30), carried=True)
    assert tails_of(found, "A") == tails_of(found, "B") == 2


def test_a_throw_in_worsted_takes_about_what_makers_say() -> None:
    # rules of thumb: 50 x 60 in at 31.6 in of yarn to the square inch are 2,633 yd (lab,
    # windchilde.com); an afghan takes 2,500 yd or more (ehow.com). Before a swatch: 20 %.
    text = """# Throw

US terms. Ch 1 does not count as a stitch.

Materials: worsted weight yarn, 5 mm hook.

Gauge: 16 sc and 16 rows = 4 in.

Ch 201.
Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (200 sc)
Rows 2-240: Ch 1, sc in each st across. Turn. (200 sc)
"""
    (size,) = planned(text).sizes
    assert size.length.low / YARD <= 2633 <= size.length.high / YARD
    assert size.length.low / YARD <= 2500 <= size.length.high / YARD
