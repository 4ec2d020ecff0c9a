"""How many stitches, told behind the stitch. Arithmetic by hand."""

import pytest
from working_texts import flat, last_row


@pytest.mark.parametrize(
    ("row", "made"),
    [
        ("inc twice, sc in next 10 sts", 14),
        ("2 inc (3 times), sc in next 6 sts", 18),
        ("inc 3 times, sc in next 9 sts", 15),
        ("sc x 12", 12),
        ("sc 12", 12),
        ("sc x, sc in next 11 sts", 12),
        ("sc-stitch in next 12 sts", 12),
        ("sc in next 5 sts, sc inc, sc in next 6 sts", 13),
        ("sc in next 5 sts, sc dec, sc in next 5 sts", 11),
        ("sc in next 5 sts, dc cluster in next st, sc in next 6 sts", 12),
        ("sc in next 3 sc-sts, sc-st in next 9 sts", 12),
    ],
)
def test_a_stitch_is_made_as_often_as_it_says(row: str, made: int) -> None:
    numbers = last_row(flat(12, f"Row 2: Ch 1, {row}. Turn. ({made})"))
    assert (numbers.made, numbers.used) == (made, 12)
