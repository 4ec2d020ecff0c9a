"""A range of rows that is longer in some sizes."""

from hookwright.checking import check
from hookwright.source import Source

FLAP = """\
Sizes: S (M)

Ch 8 (10).
Row 1: Sc in 2nd ch from hook and in each ch across, turn. 7 (9) sc.
Rows 2-3 (4): Ch 1, sc2tog, sc in each st across, turn. 5 (6) sc.
Next row: Ch 1, sc in each st across. 5 (6) sc.
"""


def test_a_row_of_a_range_is_the_row_of_that_number_in_every_size() -> None:
    """Arithmetic: one stitch less a row, from 7 and from 9."""
    lines = check(Source(FLAP, "pattern.txt")).lines[1:]
    assert [line.stitches for line in lines] == [(7, 9), (6, 8), (5, 7), (None, 6), (5, 6)]
