"""Slip stitches at the beginning of a row: travel by custom, stitches where it is said."""

from __future__ import annotations

import pytest
from working_texts import errors, flat, last_row

ROW = "Row 2: Sl st in first st{said}, sc in next 11 sts. Turn. ({count})"


@pytest.mark.parametrize(
    ("note", "said"),
    [
        ("", " (counts as a st)"),
        ("", " (counts as first sc)"),
        ("The slip stitch at the start of a row counts as a stitch.\n\n", ""),
        ("Note: all sl sts are counted as sts.\n\n", ""),
    ],
)
def test_a_slip_stitch_said_to_count_is_counted(note: str, said: str) -> None:
    right = note + flat(12, ROW.format(said=said, count=12))
    assert (last_row(right).made, last_row(right).used) == (12, 12)
    wrong = note + flat(12, ROW.format(said=said, count=11))
    assert errors(wrong) == [("stated-count", "(11)")]


@pytest.mark.parametrize("note", ["", "Slip stitches are not counted as stitches.\n\n"])
def test_a_slip_stitch_only_travels_by_custom(note: str) -> None:
    right = note + flat(12, ROW.format(said="", count=11))
    assert last_row(right).made == 11
    wrong = note + flat(12, ROW.format(said="", count=12))
    assert errors(wrong) == [("stated-count", "(12)")]
