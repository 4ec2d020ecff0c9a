"""Rows told by other rows in prose: which rows they are, and a wrong count among them."""

from __future__ import annotations

import pytest
from working_texts import errors, flat, made

PLAIN = "Row 2: Ch 1, sc in each st across. Turn. (12)"
LESS = "Row 3: Ch 1, sc2tog, sc in each st across. Turn. (11)"


@pytest.mark.parametrize(
    "words",
    [
        "Rows 4-7: Row 2 and Row 3 by turns.",
        "Rows 4-7: A plain row like Row 2 and a decrease row like Row 3, by turns.",
        "Rows 4-7 again like row 2 and row 3, two times over.",
        "Rows 4-7 are the same as Rows 2 and 3.",
        "Next 4 rows: Work Rows 2 and 3 alternately.",
        "Rows 4-7: One like Row 2 and one like Row 3, alternating.",
    ],
)
def test_two_rows_worked_by_turns(words: str) -> None:
    right = flat(12, PLAIN, LESS, f"{words} (9)", "Row 8: Ch 1, sc in each st across. (9)")
    assert made(right)[-1] == 9
    assert errors(right) == []
    wrong = flat(12, PLAIN, LESS, f"{words} (10)", "Row 8: Ch 1, sc in each st across. (9)")
    assert errors(wrong) == [("stated-count", "(10)")]


def test_rows_of_one_side_end_with_the_last_row_named() -> None:
    text = flat(
        12,
        "All even rows: Ch 1, sc in each st across. Turn.",
        "Row 3: Ch 1, sc2tog, sc in each st across. Turn. (11)",
        "Row 4 is the last row. Fasten off.",
    )
    assert made(text)[1:] == [12, 12, 11, 11]
    assert errors(text.replace("(11)", "(12)")) == [("stated-count", "(12)")]


def test_next_rows_by_size() -> None:
    text = (
        "Sizes: S (M)\n\nCh 13 (15).\n\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. Turn. 12 (14) sc.\n\n"
        "Next 2 (4) rows: Ch 1, sc2tog, sc in each st across. Turn. 10 (10) sc.\n"
    )
    assert errors(text) == []
    assert errors(text.replace("10 (10)", "10 (11)")) == [("stated-count", "10 (11) sc")]
