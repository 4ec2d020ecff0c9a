"""Where a line of a row is broken says nothing: the same rows come out at any width."""

import textwrap

import pytest

from hookwright.checking import check
from hookwright.source import Source

ROWS = """\
Ch 36. Ch 3 counts as a dc.

Row 1: Dc in 3rd ch from hook, dc in next 6 ch, 3 dc in next ch, dc in next 6 ch, *dc3tog
over next 3 ch, dc in next 6 ch, 3 dc in next ch, dc in next 6 ch; rep from * to last 4 ch,
dc2tog over last 2 ch, leave 2 ch unworked. Turn.

Row 2: Ch 2, sk first st, dc in blo of next st, dc in blo of next 6 sts, 3 dc in blo of
next st, dc in blo of next 6 sts, *dc3tog in blo over next 3 sts, dc in blo of next 6 sts,
3 dc in blo of next st, dc in blo of next 6 sts; rep from * to last 2 sts, dc2tog in blo
over last 2 sts. Turn.
"""


def made(width: int) -> list[object]:
    text = "\n\n".join(textwrap.fill(row, width) for row in ROWS.split("\n\n"))
    return [line.stitches for line in check(Source(text, "pattern.txt")).lines]


@pytest.mark.parametrize("width", range(20, 90, 3))
def test_a_row_is_the_same_however_its_lines_are_broken(width: int) -> None:
    assert made(width) == made(1000)
