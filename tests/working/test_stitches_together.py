"""One stitch over several places, said in several ways. Arithmetic by hand."""

import pytest
from working_texts import errors, flat, last_row


@pytest.mark.parametrize(
    ("row", "made"),
    [
        ("sc2tog in next st, sc in next 10 sts", 11),
        ("sc in next 10 sts, sc2tog in last st", 11),
        ("sc in next 10 sts, sc2tog over last 2 sts", 11),
        ("3 clusters over next 3 sts, sc in next 9 sts", 12),
        ("3 sc2tog over next 6 sts, sc in next 6 sts", 9),
    ],
)
def test_a_decrease_uses_as_many_places_as_it_has_legs(row: str, made: int) -> None:
    numbers = last_row(flat(12, f"Row 2: Ch 1, {row}. Turn. ({made})"))
    assert (numbers.made, numbers.used) == (made, 12)


def test_a_decrease_over_the_wrong_number_of_places_is_told() -> None:
    """Two legs do not go over three places, whatever follows."""
    row = "Row 2: Ch 1, sc2tog over next 3 sts, sc in next 9 sts. Turn. (10)"
    assert [rule for rule, _ in errors(flat(12, row))] == ["past-the-end"]
