"""Another stitch in the place that was just used. Arithmetic by hand."""

import pytest
from working_texts import flat, last_row


@pytest.mark.parametrize(
    ("row", "made"),
    [
        ("sc in next 4 sts, sc in same st as last sc, sc in next 8 sts", 13),
        ("2 sc in next st, sc in same st, sc in next 11 sts", 14),
        ("sc in next st, sc in same st, sc in same st, sc in next 11 sts", 14),
        ("(sc, (hdc, dc) in same st, sc) in next st, sc in next 11 sts", 15),
    ],
)
def test_a_stitch_in_the_same_place_uses_no_other(row: str, made: int) -> None:
    numbers = last_row(flat(12, f"Row 2: Ch 1, {row}. Turn. ({made})"))
    assert (numbers.made, numbers.used) == (made, 12)


def test_a_list_in_a_list_keeps_every_space() -> None:
    """Four dc in one place with three chains between, ten dc and a chain that counts."""
    row = (
        "Row 2: Ch 3, ((dc, ch 1, dc), ch 1, (dc, ch 1, dc)) in next st, dc in next 10 "
        "sts. Turn. (15 dc, 3 ch-1 sps)"
    )
    assert last_row(flat(12, row)) == (15, 12, 3)
