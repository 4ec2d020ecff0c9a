"""Places told in words: gaps, posts, rows below, a stitch of the turning chain."""

import pytest
from working_texts import errors, flat, last_row

TALL = "Row 2: Ch 3, dc in next 11 sts. Turn. (12)"
"""Eleven dc and a turning chain that counts."""


@pytest.mark.parametrize(
    ("row", "made"),
    [
        ("Ch 3, dc in next st, dc in between next 2 sts, dc in next 9 sts", 12),
        ("Ch 3, dc in next st, 3 dc between the next 2 sts, dc in next 9 sts", 14),
        ("Ch 3, front post dc around next 5 sts, dc in next 6 sts", 12),
        ("Ch 1, sc in next 3 sts, sc in the post of next st, sc in next 8 sts", 12),
        ("Ch 1, sc in next st, sc in same place as joining, sc in next 11 sts", 13),
    ],
)
def test_a_gap_adds_and_a_post_does_not(row: str, made: int) -> None:
    numbers = last_row(flat(12, f"Row 2: {row}. Turn. ({made})"))
    assert (numbers.made, numbers.used) == (made, 12)


@pytest.mark.parametrize(
    ("row", "made"),
    [
        ("dc in next 10 sts, dc in the 3rd ch of turning ch", 12),
        ("dc in next 10 sts, dc in top st of the turning ch", 12),
        ("dc in space between tch and next st, dc in next 11 sts", 13),
        ("dc between tch and next st, dc in next 11 sts", 13),
    ],
)
def test_a_turning_chain_has_a_top_and_a_gap_beside_it(row: str, made: int) -> None:
    numbers = last_row(flat(12, TALL, f"Row 3: Ch 3, {row}. Turn. ({made})"))
    assert (numbers.made, numbers.used) == (made, 12)


@pytest.mark.parametrize(
    "below", ["2 rows below", "in the row before last", "one row before last"]
)
def test_a_stitch_in_a_row_below_uses_the_place_above_it(below: str) -> None:
    plain = "Row 2: Ch 1, sc in each st across. Turn. (12)"
    row = f"Row 3: Ch 1, *sc in next st, dc in next st {below}; rep from * 5 more times."
    assert last_row(flat(12, plain, row))[:2] == (12, 12)


def test_yarn_joined_nowhere_begins_at_the_first_stitch() -> None:
    row = "Row 2: Join Foam in air, ch 1, sc in each st across. Turn. (12)"
    assert last_row(flat(12, row))[:2] == (12, 12)


def test_yarn_joined_with_what_is_no_stitch_begins_at_the_place() -> None:
    row = "Row 2: Join Foam with a knot in first st, ch 1, sc in each st across. Turn. (12)"
    assert last_row(flat(12, row))[:2] == (12, 12)


def test_a_place_that_nobody_knows_takes_no_stitch() -> None:
    row = "Row 2: Ch 1, sc in next 11 sts and in moss. Turn."
    assert [rule for rule, _ in errors(flat(12, row))] == ["stitches-left"]
