"""The squares of filet, explained in sentences of several kinds."""

from __future__ import annotations

import pytest
from working_texts import errors, last_row

BASE = """\
{said}

Ch 24.

Row 1: Dc in 4th ch from hook and in each ch across, turn. (22 dc)

Row 2: Ch 3 (counts as dc), {row}, turn. ({count} dc)
"""


@pytest.mark.parametrize(
    ("said", "row"),
    [
        (
            "An OPEN is ch 2, skip 2, dc in next dc. A SOLID is dc in next 3.",
            "3 open, 2 solid, 2 open",
        ),
        (
            "Open mesh (om): ch 2, sk 2, dc in next st. Block (blk): dc in next 3 sts.",
            "3 om, 2 blks, 2 om",
        ),
        (
            "For an open sq (os), ch 2, miss 2, 1 dc in next. For a full one (fs), dc in next 3.",
            "3 os, 2 fs, 2 os",
        ),
        (
            "O = open: ch 2, skip 2, dc in next st; X = solid: dc in next 3 sts.",
            "3 O, 2 X, 2 O",
        ),
        (
            "Gap: ch 2, sk 2 sts, dc in next st. Wall: dc in each of next 3 sts.",
            "3 gaps, 2 walls, 2 gaps",
        ),
    ],
)
def test_squares_are_worked_as_they_are_explained(said: str, row: str) -> None:
    """The chain and 5 posts of open squares, and twice 3 of solid ones: 12 over 22."""
    right = BASE.format(said=said, row=row, count=12)
    assert (last_row(right).made, last_row(right).used, last_row(right).spaces) == (
        12,
        22,
        5,
    )
    wrong = BASE.format(said=said, row=row, count=13)
    assert errors(wrong) == [("stated-count", "(13 dc)")]
    short = BASE.format(said=said, row=row.replace("3", "4"), count=13)
    assert [rule for rule, _ in errors(short)] == ["past-the-end"]
