"""A range of rows that is longer in some sizes."""

from hookwright.checking import check
from hookwright.finding import Severity
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


PULLOVER = """\
Sizes: 0-3 (3-6: 6-12) months

BACK
Ch 45 (47: 51).
Row 1 (RS): Hdc in 2nd ch from hook, hdc in each ch to end, turn. 44 (46: 50) hdc.
Rows 2 to 4 (5: 6): Ch 1, hdc in each st to end, turn.
Shape armholes
Row 5 (6: 7) (RS): Sl st in each of first 4 sts, ch 1, hdc in each of next 36 (38: 42)
sts, turn, leaving rem 4 sts unworked. 36 (38: 42) hdc.
Rows 6 to 8 (7 to 10: 8 to 12): Ch 1, hdc in each st to end, turn.

FRONT
Work as for Back to the end of Row 7 (8: 9), a RS row. 36 (38: 42) hdc.
"""


def test_another_part_is_worked_up_to_a_row_that_differs_by_size() -> None:
    checked = check(Source(PULLOVER, "pattern.txt"))
    assert all(finding.severity is Severity.ADVICE for finding in checked.findings)
    worked = [
        [o.step.number for o in size.outcomes if o.step.part == 1 and o.worked is not None]
        for size in checked.worked.sizes
    ]
    assert [numbers[-1] for numbers in worked] == [7, 8, 9]
    assert [len(numbers) for numbers in worked] == [7, 8, 9]
    assert checked.lines[-1].stitches == (36, 38, 42)


def test_rows_of_one_label_stay_together_where_sizes_work_more_of_them() -> None:
    text = PULLOVER + "Work 3 (4: 6) rows straight in hdc.\n"
    lines = check(Source(text, "pattern.txt")).lines
    assert [line.times for line in lines if line.span.start == text.index("Work 3")] == [6]
