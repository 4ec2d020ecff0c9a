"""Stitches in the ends of rows, against the trade's round numbers and arithmetic."""

from fractions import Fraction

import pytest
from edged_texts import cloth, edgings, offered, reasons

from hookwright.sizing.edging import Side, Wish
from hookwright.sizing.edging.even import rate
from hookwright.sizing.edging.facts import Verdict
from hookwright.sizing.edging.flatness import verdict_of
from hookwright.sizing.edging.proportions import USUAL

GAUGE = "Gauge: 14 dc and 8 rows are 4 in."


def test_dc_at_14_by_8_is_7_in_4_rows() -> None:
    """Arithmetic: a row is 4/8 in high and a stitch 4/14 in wide, 1.75 stitches a row."""
    found = offered(cloth(21, 40, stitch="dc", gauge=GAUGE), Side.LEFT)
    assert found.pick_up is not None
    assert found.pick_up.exact == Fraction(7, 4)
    assert (found.pick_up.stitches, found.pick_up.rows) == (7, 4)
    assert found.stitches == (70,)
    assert found.flatness[0].excess == 0
    assert (
        "*sc in next row end, 2 sc in each of next 3 row ends; rep from * 9"
        in found.rows[0]
    )


@pytest.mark.parametrize(
    ("worked", "excess", "verdict"),
    [
        (Fraction(2), 14, Verdict.SLIGHT),
        (Fraction(3, 2), -14, Verdict.SLIGHT),
        (Fraction(7, 4), 0, Verdict.FLAT),
        (Fraction(9, 4), 29, Verdict.RUFFLES),
        (Fraction(1), -43, Verdict.PULLS_IN),
    ],
)
def test_two_a_row_is_a_seventh_too_many(
    worked: Fraction, excess: int, verdict: Verdict
) -> None:
    """Arithmetic on 1.75: 2 a row +14 %, 3 in 2 rows -14 %."""
    found = worked / Fraction(7, 4) - 1
    assert round(found * 100) == excess
    assert verdict_of(found) is verdict


@pytest.mark.parametrize(("stitch", "usual"), [("sc", 1), ("dc", 2), ("tr", 3)])
def test_the_usual_number_is_shown_beside_the_exact_one(stitch: str, usual: int) -> None:
    """Source: crochetcabana.com, borders: 1 for a row of sc, 2 of dc, 3 of tr."""
    found = offered(cloth(15, 10, stitch=stitch), Side.RIGHT)
    assert found.pick_up is not None
    assert found.pick_up.usual == usual == USUAL[stitch]
    assert f"the usual {usual} a row" in found.notes[0]


def test_rows_of_sc_take_one_each() -> None:
    """Source: crochetspot.com, crochet evenly around: one in each row end of sc."""
    assert "sc in each row end across" in offered(cloth(15, 20), Side.LEFT).rows[0]


@pytest.mark.parametrize(
    ("exact", "near"),
    [
        (Fraction(7, 4), Fraction(7, 4)),
        (Fraction(95, 100), Fraction(1)),
        (Fraction(19, 10), Fraction(2)),
        (Fraction(127, 100), Fraction(5, 4)),
        (Fraction(5, 2), Fraction(5, 2)),
        (Fraction(16, 17), Fraction(1)),
    ],
)
def test_a_rhythm_is_a_small_fraction_that_lies_flat(
    exact: Fraction, near: Fraction
) -> None:
    assert rate(exact) == near
    assert abs(near / exact - 1) <= Fraction(8, 100)


def test_every_rate_lies_flat_over_few_rows() -> None:
    for hundredths in range(60, 400):
        exact = Fraction(hundredths, 100)
        near = rate(exact)
        assert near.denominator <= 8
        assert abs(near / exact - 1) <= Fraction(8, 100), exact


MIXED = """\
US terms. Ch 1 does not count as a stitch. Ch 3 counts as a dc.

Ch 22.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (21 sc)

Row 2: Ch 3, dc in next st and in each st across. Turn. (21 dc)

Row 3: Ch 1, sc in each st across. Turn. (21 sc)

Rows 4-11: Rep Rows 2 and 3. (21 sts)
"""


def test_rows_of_different_heights_take_their_own_numbers() -> None:
    """Six rows of sc and five of dc: 6 x 1 and 5 x 2; by heights 6 x .95 + 5 x 1.9 = 15.2."""
    found = offered(MIXED, Side.RIGHT)
    assert found.stitches == (16,)
    assert found.pick_up is not None
    assert found.pick_up.exact == Fraction(152, 110)
    assert found.pick_up.usual is None
    assert "1 sc in each of 0.95 and 2 sc in each of 1.9" in found.notes[0]


def test_edgings_at_both_ends_lengthen_the_sides() -> None:
    """20 rows, and 2 of each edging: 24 row ends of sc."""
    wish = Wish((Side.TOP, Side.FOUNDATION, Side.LEFT, Side.RIGHT))
    found = edgings(cloth(15, 20), wish)
    assert [o.stitches for o in found.offered] == [(15,), (15,), (24,), (24,)]
    assert found.refused == ()


def test_an_open_number_of_rows_has_a_rate_and_no_edging() -> None:
    text = cloth(15, 10).replace(
        "Rows 3-10: Rep Row 2.", "Rep Row 2 until piece is 20 in long."
    )
    (told,) = reasons(text, Side.LEFT)
    assert "left to the maker" in told
    assert "1 sc in each row end" in told


def test_shaped_sides_have_no_edging() -> None:
    rows = (
        f"Row {n}: Ch 1, sc2tog, sc in each st across. Turn. ({20 - n + 1} sc)"
        for n in range(2, 9)
    )
    first = "Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (20 sc)"
    text = "\n\n".join(("Ch 1 does not count as a stitch.", "Ch 21.", first, *rows))
    assert "shaped" in reasons(text, Side.LEFT)[0]
    assert offered(text, Side.TOP).stitches == (13,)
