"""Rows that are other rows again, counted back from here, by number or by name."""

import pytest
from working_texts import errors, flat, made

GROWING = "Row 2: Ch 1, 2 sc in first st, sc in each st across. Turn. (13)"
"""One stitch more every time it is worked."""


@pytest.mark.parametrize(
    ("again", "expected"),
    [
        (("Rep last row 3 times. (16 sc)",), [14, 15, 16]),
        (("Row 3: Rep last row.", "Row 4: Rep Row 2. (15)"), [14, 15]),
        (("Next row: Rep last row.", "Next row: Rep row 2."), [14, 15]),
        (("Rows 3-5: Rep last row. (16)",), [14, 15, 16]),
        (("Rep Row 2 once more. (14)",), [14]),
    ],
)
def test_a_row_that_grows_grows_each_time(
    again: tuple[str, ...], expected: list[int]
) -> None:
    text = flat(12, GROWING, *again)
    assert made(text)[-len(expected) :] == expected
    assert errors(text) == []


@pytest.mark.parametrize(
    "again", ["Rep Row 7 twice", "Rep last 4 rows 3 times", "Rep Rows 2-5 twice"]
)
def test_rows_that_are_not_there_cannot_come_again(again: str) -> None:
    assert errors(flat(12, f"{again}.")) == [("missing-target", again)]


def test_a_row_that_is_not_there_is_told_beside_one_that_is() -> None:
    text = flat(12, GROWING, "Rep Rows 2 and 9 twice.")
    assert errors(text) == [("missing-target", "Rep Rows 2 and 9 twice")]
