"""Flat rounds and edges by plane geometry."""

import math
from fractions import Fraction

import pytest
from edged_texts import HEXAGON, offered, reasons

from hookwright.sizing.edging import Side, Wish
from hookwright.sizing.edging.facts import Verdict
from hookwright.sizing.edging.flatness import flat_increase, verdict_of


@pytest.mark.parametrize(
    ("corners", "increase"), [(3, 10.39), (4, 8.0), (6, 6.93), (8, 6.63), (0, 6.28)]
)
def test_a_polygon_grows_by_its_perimeter(corners: int, increase: float) -> None:
    """Plane geometry: a perimeter is 2 C tan(pi / C) inner radii, a circle's 2 pi radii."""
    assert float(flat_increase(corners, Fraction(1))) == pytest.approx(increase, abs=0.005)


def test_many_corners_come_near_a_circle() -> None:
    assert float(flat_increase(1000, Fraction(1))) == pytest.approx(2 * math.pi, rel=1e-4)


@pytest.mark.parametrize(
    ("stitch", "corners", "usual"),
    [("95/100", 0, 6), ("127/100", 0, 8), ("19/10", 0, 12), ("1", 4, 8), ("2", 4, 16)],
)
def test_flat_rounds_add_what_the_trade_adds(stitch: str, corners: int, usual: int) -> None:
    """Source: craftymaria.blogspot.com 2009/06 and others: flat rounds of sc add 6, hdc 8,
    dc 12; squares of sc 8, of dc 16 (common practice, no source)."""
    assert round(flat_increase(corners, Fraction(stitch))) == usual


@pytest.mark.parametrize(
    ("percent", "verdict"),
    [
        (8, Verdict.FLAT), (-8, Verdict.FLAT), (9, Verdict.SLIGHT), (-17, Verdict.SLIGHT),
        (18, Verdict.RUFFLES), (-18, Verdict.PULLS_IN),
    ],
)  # fmt: skip
def test_the_limits_of_what_lies_flat(percent: int, verdict: Verdict) -> None:
    """Source: dc at 10 a round (-17 %) is called flat, sc begun with 8 (+33 %) ruffles."""
    assert verdict_of(Fraction(percent, 100)) is verdict


DISC = """\
US terms. Ch 1 does not count as a stitch.

Rnd 1: 6 sc in magic ring; join with sl st in first sc. (6 sc)

Rnd 2: Ch 1, 2 sc in each st around; join with sl st in first sc. (12 sc)

Rnd 3: Ch 1, *sc in next st, 2 sc in next st; rep from * around; join with sl st in first sc. (18
sc)

Rnd 4: Ch 1, *sc in next 2 sts, 2 sc in next st; rep from * around; join with sl st in first sc.
(24 sc)
"""


def test_the_edging_of_a_disc_grows_as_its_rounds_do() -> None:
    """Source: mamas2hands.com 2017/03/14: rounds of 6, 12, 18, 24 lie flat; so 30 and 36."""
    assert [row.rpartition("(")[2] for row in offered(DISC, Side.ALL).rows] == [
        "30 sc)",
        "36 sc)",
    ]


TUBE = (
    DISC + "\nRnds 5-9: Ch 1, sc in each st around; join with sl st in first sc. (24 sc)\n"
)


def test_the_edging_of_a_tube_keeps_its_number() -> None:
    found = offered(TUBE, Side.ALL)
    assert found.stitches == (24,)
    assert found.flatness[0].excess == 0


SQUARE = """\
US terms. Ch 1 does not count as a stitch. Do not turn.

Rnd 1: 8 sc in magic ring; join with sl st in first sc. (8 sc)

Rnd 2: Ch 1, *sc in next st, 3 sc in next st; rep from * 3 more times; join with sl st in first
sc. (16 sc)

Rnd 3: Ch 1, *sc in next 2 sts, 3 sc in next st, sc in next st; rep from * 3 more times; join
with sl st in first sc. (24 sc)
"""


def test_the_edging_of_a_square_goes_on_in_its_corners() -> None:
    """Counting: three in each of four corners, 8 more a round."""
    found = offered(SQUARE, Side.ALL)
    assert found.stitches == (24 + 8 + 8,)
    assert "*3 sc in next st, sc in next 5 sts; rep from * 2 more times" in found.rows[0]
    assert "an edge of 24 stitches with 4 corners" in found.flatness[0].how


def test_the_blunt_corners_of_a_hexagon_take_two() -> None:
    """Plane geometry: 12 tan(30 degrees) x 0.95 is 6.6, about one in each of six corners."""
    found = offered(HEXAGON, Side.ALL)
    assert "2 sc in next ch-1 sp" in found.rows[0]
    assert found.stitches == (24 + 6 * 2 + 6,)
    assert found.flatness[0].verdict is Verdict.FLAT


GRANNY = """\
US terms. Ch 3 at the start of a round counts as a dc. Do not turn.

Ch 4; join with sl st in first ch to form a ring.

Rnd 1: Ch 3, 2 dc in ring, ch 2, (3 dc in ring, ch 2) 3 times; join with sl st in top of beg ch-3.
(12 dc, 4 ch-2 sps)

Rnd 2: Sl st in next 2 dc, sl st in next ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, ch 1, *(3
dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * 2 more times; join with sl st in top of beg ch-3.
(24 dc, 4 ch-2 sps, 4 ch-1 sps)
"""


def test_the_corners_of_lace_are_the_spaces_within_its_widest_groups() -> None:
    """Counting: 24 dc and 4 single chains of a side, 3 in each of the four corner spaces."""
    found = offered(GRANNY, Side.ALL)
    assert found.rows[0].count("3 sc in next ch-2 sp") == 1
    assert found.stitches == (24 + 4 + 4 * 3 + 8,)
    assert "with 4 corners" in found.flatness[0].how
    assert found.flatness[0].verdict is Verdict.FLAT


STAR = """\
US terms. Ch 1 does not count as a stitch. Do not turn.

Rnd 1: 10 sc in magic ring; join with sl st in first sc. (10 sc)

Rnd 2: Ch 1, *sc in next st, ch 4, sc in 2nd ch from hook, hdc in next ch, dc in next ch, sk next
st; rep from * 4 more times; join with sl st in first sc. (10 sc, 5 hdc, 5 dc)
"""


def test_round_points_that_stand_out_no_edging_is_offered() -> None:
    assert "points" in reasons(STAR, Side.ALL)[0]


def test_a_border_in_rounds_takes_whole_repeats() -> None:
    found = offered(TUBE, Side.ALL, Wish(kind="shell"))
    assert "rep from * 3 more times" in found.rows[-1]
