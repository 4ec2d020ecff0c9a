"""Squares, granny stripes, borders and rows that others have printed or accused."""

from __future__ import annotations

import pytest
from working_texts import checked, errors, made, numbers, told

GRANNY = """\
US terms. Ch 3 counts as a dc.

Ch 4; join with sl st to form a ring.

Rnd 1: Ch 3, 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * 2 more times; join with sl st
in top of beg ch-3. {}

Rnd 2: Sl st in next 2 sts and in next ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, ch 1,
*(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * 2 more times; join with sl st in top of
beg ch-3. {}

Rnd 3: Sl st in next 2 sts and in next ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, ch 1, 3 dc
in next ch-1 sp, ch 1, *(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1, 3 dc in next ch-1 sp, ch 1;
rep from * 2 more times; join with sl st in top of beg ch-3. {}

Rnd 4: Sl st in next 2 sts and in next ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in same sp, ch 1, (3
dc in next ch-1 sp, ch 1) twice, *(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1, (3 dc in next ch-1
sp, ch 1) twice; rep from * 2 more times; join with sl st in top of beg ch-3. {}
"""


def in_round(number: int) -> dict[str, int]:
    """Pure counting, and printed so in public patterns: n groups of 3 dc a side."""
    return {"dc": 12 * number, "groups": 4 * number, "spaces": 4 + 4 * (number - 1)}


def test_a_classic_square_has_twelve_dc_more_each_round() -> None:
    text = GRANNY.format(*(f"({in_round(n)['dc']} dc)" for n in range(1, 5)))
    lines = [numbers(line) for line in checked(text).lines[1:]]
    assert [line.made for line in lines] == [in_round(n)["dc"] for n in range(1, 5)]
    assert [line.spaces for line in lines] == [in_round(n)["spaces"] for n in range(1, 5)]
    assert errors(text) == []


def test_a_classic_square_may_be_counted_in_groups() -> None:
    assert errors(GRANNY.format(*(f"({4 * n} groups)" for n in range(1, 5)))) == []
    wrong = GRANNY.format("(4 groups)", "(8 groups)", "(13 groups)", "(16 groups)")
    assert errors(wrong) == [("stated-count", "(13 groups)")]


def test_a_solid_square_grows_by_sixteen() -> None:
    """Arithmetic: a corner of (2 dc, ch 2, 2 dc) adds 4. 12 and 28 are printed in a pattern."""
    corner = "(2 dc, ch 2, 2 dc) in next ch-2 sp"
    text = (
        "Ch 3 counts as a dc. Do not turn.\n\nCh 4; join with sl st to form a ring.\n\n"
        "Rnd 1: Ch 3, 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * 2 more times; join "
        "with sl st in top of beg ch-3. (12 dc, 4 ch-2 sps)\n\n"
        f"Rnd 2: Ch 3, dc in next 2 sts, {corner}, *dc in next 3 sts, {corner}; rep from * 2 "
        "more times; join with sl st in top of beg ch-3. (28 dc)\n\n"
        f"Rnd 3: Ch 3, dc in next 4 sts, {corner}, *dc in next 7 sts, {corner}; rep from * 2 "
        "more times, dc in last 2 sts; join with sl st in top of beg ch-3. (44 dc)\n\n"
        f"Rnd 4: Ch 3, dc in next 6 sts, {corner}, *dc in next 11 sts, {corner}; rep from * 2 "
        "more times, dc in last 4 sts; join with sl st in top of beg ch-3. (60 dc)\n"
    )
    assert made(text)[-4:] == [12, 28, 44, 60]
    assert errors(text) == []


def test_a_square_of_sc_grows_by_eight() -> None:
    """Common practice, no source: 3 sc in each corner stitch add 2 at each of 4 corners."""
    text = """\
Work in rounds; do not turn. Ch 1 does not count as a st.

Rnd 1: 8 sc in magic ring; join with sl st in first sc. (8)

Rnd 2: Ch 1, *sc in next st, 3 sc in next st; rep from * 3 more times; join with sl st in first
sc. (16)

Rnd 3: Ch 1, *sc in next 2 sts, 3 sc in next st, sc in next st; rep from * 3 more times; join
with sl st in first sc. (24)

Rnd 4: Ch 1, *sc in next 3 sts, 3 sc in next st, sc in next 2 sts; rep from * 3 more times; join
with sl st in first sc. (32)
"""
    assert made(text) == [8, 16, 24, 32]
    assert errors(text) == []


GRANNY_STRIPE = """\
Written in UK terms.

Ch 140.

Row 1: Dc in 2nd ch from hook and in each ch across. Turn. (139 dc)

Row 2: Ch 3 (counts as 1 tr), tr in next st, *sk next st, 3 tr in next st, sk next st; rep from
* to last 2 sts, tr in last 2 sts. Turn. (2 tr, 45 groups, 2 tr)

Row 3: Ch 3, *3 tr in next sp between groups; rep from * across, tr in last st. Turn.
({edge} tr, 46 groups, {edge} tr)
"""


def test_a_granny_stripe_of_140_chains() -> None:
    """Source: a UK granny stripe pattern (scribd.com document 787932060): 140 ch, 139 dc,
    then 2, 45 groups, 2, and 1, 46 groups, 1, which makes 140."""
    text = GRANNY_STRIPE.format(edge=1)
    assert made(text) == [140, 139, 139, 140]
    assert errors(text) == []


def test_a_granny_stripe_that_prints_two_at_each_end_is_wrong() -> None:
    """The same pattern prints 2 where its own words make 1: a true misprint."""
    assert [(rule, row) for rule, row, _ in told(GRANNY_STRIPE.format(edge=2))] == [
        ("stated-count", "Row 3")
    ]


ACCUSED = """\
Ch 3 counts as a dc.

Ch 36.

Row 1: Dc in 6th ch from hook, *ch 1, sk next ch, dc in next ch; rep from * across. Turn.

Row 2: Ch 1, sc in first dc, *2 sc in next ch-1 sp; rep from * across. Turn. ({} sc)
"""


def test_an_accused_row_is_defended() -> None:
    """Source: onesquareatatime.blogspot.com 2013/01 gets 44 out of a row that is right with 33:
    1 + 2 in each of 16 spaces."""
    assert numbers(checked(ACCUSED.format(33)).lines[1]).spaces == 16
    assert errors(ACCUSED.format(33)) == []
    assert errors(ACCUSED.format(44)) == [("stated-count", "(44 sc)")]


BY_KIND = """\
Ch 68.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (67 sc)

Row 2: Ch 1, sc in first 6 sts, ch 2, *3 dc in next st, ch 3, sk next st, 3 dc in next st; rep
from * 17 more times, ch 2, sc in last 7 sts. Turn. (13 sc, {dc} dc, 2 ch-2 sps, 18 ch-3 sps)
"""


def test_a_sample_row_counted_by_kind() -> None:
    """Source: auburncraftcrochetdesign.com, understanding the written pattern: 13 sc, 108 dc,
    2 ch-2 and 18 ch-3 as worked; 110 dc as printed."""
    assert errors(BY_KIND.format(dc=108)) == []
    findings = told(BY_KIND.format(dc=110))
    assert [(rule, row) for rule, row, _ in findings] == [("stated-count", "Row 2")]
    assert "108 dc" in findings[0][2]


SHELLS = """\
Ch {chains}.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. ({stitches} sc)

Row 2: Ch 1, sc in first st, *sk next st, 5 dc in next st, sk next st, sc in next st; rep from
* {more} more times. Fasten off.
"""


@pytest.mark.parametrize(("stitches", "repeats"), [(197, 49), (157, 39)])
def test_a_border_of_four_and_one(stitches: int, repeats: int) -> None:
    """Source: learninglovingcrochet.blogspot.com 2011/04: 197 and 157 are said to be 48 and 38
    repeats of 4 k + 1, and are 49 and 39."""
    right = SHELLS.format(chains=stitches + 1, stitches=stitches, more=repeats - 1)
    printed = SHELLS.format(chains=stitches + 1, stitches=stitches, more=repeats - 2)
    assert errors(right) == []
    ((rule, row, message),) = told(printed)
    assert (rule, row) == ("stitches-left", "Row 2")
    assert "4 are left over" in message


BORDERED = """\
Ch 1 does not count as a st.

Ch 102.

Row 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (101 sc)

Rows 2-101: Ch 1, sc in each st across. Turn. (101 sc)

Border

Rnd 1 (RS): Ch 1, sc in each of the 101 sts of Row 101, ch 2, sc in the end of each of the 101
rows, ch 2, sc in the underside of each of the 101 foundation ch, ch 2, sc in the end of each of
the 101 rows, ch 2; join with sl st in first sc. (404 sc, 4 ch-2 sps)

Rnd 2: Ch 1, *sc in next st, (sk next st, 3 dc in next st, sk next st, sc in next st) {} times, 5
dc in next ch-2 sp; rep from * 3 more times; join with sl st in first sc. Fasten off. (424 sts)
"""


def test_a_side_of_101_is_25_repeats_of_four_and_one_between_its_corners() -> None:
    """Source: cypresstextiles.net 2016/07/22: a side is corner + (4 k + 1) + corner, 101."""
    text = BORDERED.format(25)
    assert made(text)[-2] == 4 * 101
    assert made(text)[-1] == 4 * (1 + 25 * 4 + 5)
    assert errors(text) == []


def test_24_repeats_on_a_side_of_101_make_16_too_few() -> None:
    ((rule, row, message),) = told(BORDERED.format(24))
    assert (rule, row) == ("stated-count", "Rnd 2")
    assert "408" in message


@pytest.mark.parametrize(
    ("stitch", "chain", "each"), [("sc", 1, 1), ("dc", 3, 2), ("tr", 4, 3)]
)
def test_row_ends_hold_one_two_or_three(stitch: str, chain: int, each: int) -> None:
    """Source: crochetcabana.com, borders: 1 for a row of sc, 2 of dc, 3 of tr."""
    count = "counts as a st" if chain > 1 else "does not count as a st"
    worked = "each st" if chain == 1 else "next st and in each st"
    text = (
        f"The ch {chain} at the start of a row {count}.\n\nCh 20.\n\n"
        "Row 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (19)\n\n"
        f"Rows 2-10: Ch {chain}, {stitch} in {worked} across. Turn. (19)\n\nEdging\n\n"
        f"Row 1: Ch 1, {f'{each} ' if each > 1 else ''}sc in the end of each of the 10 rows. "
        f" Fasten off. ({10 * each} sc)\n"
    )
    assert made(text)[-1] == 10 * each
    assert errors(text) == []


def test_204_stitches_are_four_sections_of_25_and_four_of_26() -> None:
    """Source: crochetkim.com, picking up evenly: 200 are 8 x 25; 204 are 4 x 25 and 4 x 26."""
    text = (
        "Ch 205.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn. (204)\n\n"
        "Row 2: Ch 1, (sc in next 24 sts, 2 sc in next st) 4 times, (sc in next 25 sts, 2 sc in "
        "next st) 4 times. Turn. (212)\n"
    )
    assert made(text) == [205, 204, 212]
    assert errors(text) == []
    assert [rule for rule, *_ in told(text.replace("25 sts", "24 sts"))] == [
        "stitches-left"
    ]
