"""Rows that a text tells, but not stitch by stitch: they are open, and nobody is accused."""

from __future__ import annotations

import pytest

from hookwright.checking import Checked, check
from hookwright.finding import Severity
from hookwright.source import Source

BORDER = """\
Border
Round 1: Join lilac in any corner space. Ch 3 (counts as dc), (dc, ch 2, 2 dc) in corner, *dc in
each sc to next corner, (2 dc, ch 2, 2 dc) in corner; rep from * twice, dc in each sc to end,
join. 696 dc.
"""
COMPLETED = """\
First square
Rnd 1: Ch 3 (counts as dc), 2 dc in magic ring, (ch 2, 3 dc in ring) 3 times, ch 2, join. (12 dc)
Rnd 2: Sl st to corner sp, ch 3, (2 dc, ch 2, 3 dc) in same corner, *ch 1, (3 dc, ch 2, 3 dc) in
next corner; rep from * around, ch 1, join. (24 dc)
Second square
Work Rnd 1 as for the first square.
Rnd 2: Sl st to corner sp, ch 3, 2 dc in same corner, ch 1, sl st in corner of first square, ch 1,
3 dc in same corner on second square, complete the round as Rnd 2 of the first square.
"""


def loud(checked: Checked) -> list[str]:
    return [f.rule for f in checked.findings if f.severity is not Severity.ADVICE]


@pytest.mark.parametrize(
    ("text", "open_rows"),
    [
        pytest.param(BORDER, 1, id="a border on a blanket that is only spoken of"),
        pytest.param(COMPLETED, 1, id="a round completed as another"),
    ],
)
def test_what_is_not_worked_out_is_open_and_accuses_nobody(
    text: str, open_rows: int
) -> None:
    checked = check(Source(text))
    outcomes = checked.worked.sizes[0].outcomes
    assert sum(outcome.is_open for outcome in outcomes) == open_rows
    assert loud(checked) == []
