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


@pytest.mark.parametrize(
    "end",
    [
        "dc in next 7 dc, dc3tog over next 2 dc and top of turning ch",
        "dc in each dc to last 2 dc, dc3tog over last 2 dc and tch",
        "dc in next 7 dc, dc3tog in the last 2 dc and the turning chain",
        "dc in next 7 dc, work the last 2 dc and the turning ch together",
    ],
)
def test_the_last_leg_goes_into_the_turning_chain(end: str) -> None:
    """11 dc: the chain is 1, 7 single ones, and 3 drawn together."""
    text = (
        "Ch 13.\n\nRow 1: Dc in 4th ch from hook and in each ch across. Turn. (11 dc)\n\n"
        f"Row 2: Ch 3 (counts as dc), {end}. Turn. (9 dc)\n"
    )
    assert (last_row(text).made, last_row(text).used) == (9, 11)
    assert errors(text.replace("(9 dc)", "(10 dc)")) == [("stated-count", "(10 dc)")]
