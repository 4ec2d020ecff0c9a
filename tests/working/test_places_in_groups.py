"""Places named by where they are in a shell, or by being in the middle. Counted by hand."""

import pytest
from working_texts import LACE_OF_FIVES, flat, last_row


@pytest.mark.parametrize("place", ["3rd dc of", "centre dc of"])
def test_the_middle_of_each_shell_is_found(place: str) -> None:
    """Three shells and four sc: 7 stitches, a space at either side of each shell."""
    row = (
        f"Row 2: Ch 1, sc in first sc, *ch 2, sc in {place} next shell, ch 2, sc in next "
        "sc; rep from * across. Turn. (7 sc)"
    )
    assert last_row(f"{LACE_OF_FIVES}\n{row}\n") == (7, 19, 6)


def test_the_last_of_each_shell_leaves_one_space() -> None:
    row = (
        "Row 2: Ch 1, sc in first sc, *ch 2, sc in last dc of next shell, sc in next sc; "
        "rep from * across. Turn. (7 sc)"
    )
    assert last_row(f"{LACE_OF_FIVES}\n{row}\n") == (7, 19, 3)


def test_the_last_shell_is_the_one_behind_all_the_others() -> None:
    """Behind the middle dc of the last shell lie two dc and an sc."""
    row = "Ch 1, sc in first sc, ch 9, sc in centre dc of last shell, sc in next 3 sts."
    assert last_row(f"{LACE_OF_FIVES}\nRow 2: {row} Turn.\n")[:2] == (5, 19)


def test_each_of_the_shells_gets_one_stitch() -> None:
    """Two groups of five with a space in each: one V goes in each space."""
    text = (
        "V-stitch: (dc, ch 1, dc) in one st.\n\nCh 11.\n\n"
        "Row 1: V-stitch in 5th ch from hook, sk 2 ch, v-stitch in next ch, sk 2 ch, dc in "
        "last ch. Turn. (6 dc)\n\n"
        "Row 2: Ch 3, (2 dc, ch 1, 2 dc) in ch-1 sp of each v-stitch, dc in top of tch. "
        "Turn. (10 dc)\n"
    )
    assert last_row(text).made == 1 + 4 + 4 + 1


def test_the_centre_space_is_the_middle_one_of_the_row() -> None:
    lace = (
        "Row 2: Ch 3, dc in next st, ch 1, sk 1 st, dc in next 2 sts, ch 1, sk 1 st, dc in "
        "next 2 sts, ch 1, sk 1 st, dc in next 3 sts. Turn. (9 dc, 3 ch-1 sps)"
    )
    point = "Row 3: Ch 1, sc in first st, sc in centre ch-1 sp, sc in last st. Turn. (3 sc)"
    assert last_row(flat(12, lace, point))[:2] == (3, 9)


def test_the_centre_stitch_is_the_middle_of_the_corner() -> None:
    """Five, a corner of three, six: six lie before its middle, and seven behind."""
    corner = "Row 2: Ch 1, sc in next 5 sts, 3 sc in next st, sc in next 6 sts. Turn. (14)"
    again = (
        "Row 3: Ch 1, sc in each st to centre st, 3 sc in centre st, sc in each st across."
    )
    assert last_row(flat(12, corner, f"{again} Turn. (16)"))[:2] == (16, 14)


@pytest.mark.parametrize("name", ["v-st", "v-stitch"])
def test_a_v_that_nobody_defines_is_two_dc_and_a_chain(name: str) -> None:
    """Common practice, no source. Three Vs of 2 dc and nine sc."""
    row = f"Row 2: Ch 1, {name} in next 3 sts, sc in last 9 sts. Turn."
    assert last_row(flat(12, row)) == (15, 12, 3)
