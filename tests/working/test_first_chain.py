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


@pytest.mark.parametrize(
    "begun", ["Ch 8.\n\nRow 1: Sc in first ch", "Row 1: Ch 8, sc in first ch"]
)
@pytest.mark.parametrize("made", [7, 8])
def test_which_chain_is_the_first_is_settled_by_the_count(begun: str, made: int) -> None:
    """The one at the hook is skipped by custom; a count that takes it in is believed."""
    text = f"{begun} and in each ch across. Turn. ({{}})\n"
    assert last_row(text.format(made)).made == made
    assert errors(text.format(9)) == [("stated-count", "(9)")]
