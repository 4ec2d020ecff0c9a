"""What the last repeat of a row does otherwise, told behind it.

Arithmetic: a turning chain and one tr, then 3 repeats of 8 with the last one short of 1:
2 + 24 - 1 = 25 over 25 sc.
"""

import pytest
from working_texts import told

ROWS = """\
US terms. Ch 4 at the start of a row counts as a tr.

Ch 26.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (25 sc)
Row 2: Ch 4, skip first st, tr in next st, *dc in each of next 2 sts, sc in next st, dc in
each of next 2 sts, tr in each of next 3 sts; rep from * across, {}. ({} sts)
"""


@pytest.mark.parametrize(
    "words",
    [
        "working only 2 tr at the end of the last repeat",
        "but with just 2 tr in the last repeat",
        "and only 2 tr at end of last rep",
        "with 2 tr instead of 3 tr in the last rep",
        "making 2 tr, not 3, to finish the last repeat",
    ],
)
def test_the_last_repeat_ends_with_fewer(words: str) -> None:
    assert told(ROWS.format(words, 25)) == []
    assert told(ROWS.format(words, 24)) == [
        ("stated-count", "Row 2", "Row 2 makes 25 stitches, not 24 sts.")
    ]
