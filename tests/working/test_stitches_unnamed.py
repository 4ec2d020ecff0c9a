"""Stitches told by their places alone, "work the next 2 together": a wrong count is told."""

from __future__ import annotations

import pytest
from working_texts import errors, flat, last_row


@pytest.mark.parametrize(
    ("words", "made"),
    [
        ("2 in first st, sc in next 10 sts, 2 in last st", 14),
        ("work twice into first st, sc in each st across", 13),
        ("work the first 2 sts together, sc to last 2 sts, work these 2 together", 10),
        ("sc the first 3 sts tog, sc in next 9 sts", 10),
        ("sc 2 sts together, sc to the end", 11),
        ("1 sc per st", 12),
        ("sc to within 3 sts of the end, work 3 together", 10),
    ],
)
def test_a_stitch_told_by_its_places_is_worked(words: str, made: int) -> None:
    right = flat(12, f"Row 2: Ch 1, {words}. Turn. ({made})")
    assert last_row(right).made == made
    assert last_row(right).used == 12
    wrong = flat(12, f"Row 2: Ch 1, {words}. Turn. ({made + 1})")
    assert errors(wrong) == [("stated-count", f"({made + 1})")]


def test_a_measure_in_inches_is_no_stitch() -> None:
    text = flat(12, "Row 2: Ch 1, sc in each st across. Turn. Piece is now 2 in wide.")
    assert last_row(text).made == 12


def test_a_stitch_without_a_name_is_the_one_before_it() -> None:
    text = flat(12, "Row 2: Ch 2, hdc in first 11 sts, 2 in last st. Turn. (13 hdc)")
    assert last_row(text).made == 13
