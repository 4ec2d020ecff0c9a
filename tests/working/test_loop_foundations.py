"""Foundations of loops, one made upon the other, and the rows worked into them."""

from __future__ import annotations

import pytest
from working_texts import checked, errors

FOUNDATIONS = [
    "Ch 4, dc in 4th ch from hook, *ch 4, dc in top of dc just made; rep from * 10 times more.",
    "Foundation: [Ch 4, dc in 4th ch from hook] 12 times. (12 loops)",
    "Ch 4, dc in 4th ch from hook, [ch 4, dc in 4th ch from hook] until there are 12 loops.",
    "*Ch 3, hdc in 3rd ch from hook; rep from * for 12 loops in all.",
]


@pytest.mark.parametrize("foundation", FOUNDATIONS)
def test_a_row_goes_into_the_loops(foundation: str) -> None:
    text = f"{foundation}\n\nRow 1: Ch 1, 3 sc in each loop across. Turn. (36 sc)\n"
    assert errors(text) == []
    assert checked(text).lines[-1].stitches == (36,)
    assert checked(text).lines[0].spaces == (12,)
    wrong = text.replace("(36 sc)", "(39 sc)")
    assert errors(wrong) == [("stated-count", "(39 sc)")]


def test_a_wrong_number_of_loops_is_told() -> None:
    wrong = FOUNDATIONS[1].replace("(12 loops)", "(13 loops)")
    row = "Row 1: Ch 1, 3 sc in each loop across. Turn. (36 sc)"
    assert [rule for rule, _ in errors(f"{wrong}\n\n{row}\n")] == ["stated-count"]


def test_chains_worked_back_into_on_a_row_are_picots() -> None:
    text = (
        "Ch 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn. (10)\n\n"
        "Row 2: Ch 1, *sc in next 2 sts, ch 3, sc in 3rd ch from hook; rep from *. (10)\n"
    )
    assert errors(text) == []
