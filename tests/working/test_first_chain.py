"""Rows that go into the first chain of a piece, or between stitches just skipped."""

from __future__ import annotations

import pytest
from working_texts import errors, flat, last_row

ROWS = [
    ("Ch 4, 4 dc in first ch. Turn.", 5),
    ("Ch 4, (2 dc, ch 2, 3 dc) in the first ch. Turn.", 6),
    ("Ch 6, [(sc, hdc) in first ch] 4 times, turn.", 8),
]


@pytest.mark.parametrize(("row", "made"), ROWS)
def test_all_of_a_row_goes_into_the_first_chain(row: str, made: int) -> None:
    assert last_row(f"Row 1: {row} ({made})\n").made == made
    assert errors(f"Row 1: {row} ({made + 3})\n") == [("stated-count", f"({made + 3})")]


@pytest.mark.parametrize(
    "place",
    [
        "between sc just skipped and next sc",
        "between skipped st and next st",
        "in the space between the skipped sc and the next sc",
    ],
)
def test_the_gap_beside_a_stitch_just_skipped_is_right_there(place: str) -> None:
    row = f"Row 2: Ch 1, *skip next sc, 3 sc {place}, skip next sc; rep from * across."
    right = last_row(flat(12, f"{row} Turn. (18)"))
    assert (right.made, right.used) == (18, 12)
    assert errors(flat(12, f"{row} Turn. (12)")) == [("stated-count", "(12)")]
