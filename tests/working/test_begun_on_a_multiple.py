"""A stitch told over a multiple alone: its rows grow with the repeats, and must close."""

from __future__ import annotations

import pytest

from hookwright.checking import check
from hookwright.finding import Severity
from hookwright.source import Source

FANS = """{multiple}

Row 1: Work 1 sc into 2nd ch from hook, *skip 2 ch, 5 dc into next ch, skip 2 ch, 1 sc into next ch, rep from * to end, turn.
Row 2: Ch 3 (count as 1 dc), 2 dc into first sc, *skip 2 dc, 1 sc into next dc, skip 2 dc, 5 dc into next sc, rep from * ending last rep with 3 dc into last sc, turn.
Row 3: Ch 1, 1 sc into first dc, *skip 2 dc, 5 dc into next sc, skip {passed} dc, 1 sc into next dc, rep from * ending last rep with 1 sc into top of tch, turn.
"""


def _rows_and_rules(text: str) -> tuple[list[str], list[str]]:
    checked = check(Source(text))
    rows = [str(line.stitches[0]) for line in checked.lines]
    loud = [f.rule for f in checked.findings if f.severity is not Severity.ADVICE]
    return rows, loud


@pytest.mark.parametrize(
    "multiple",
    [
        "Multiple of 6 + 1 (add 1 for base chain)",
        "Multiple of 6 sts + 1, plus 1 for the base chain.",
        "Ch a multiple of 6 + 2.",
        "Work over a multiple of 6 sts plus 1.",
    ],
)
def test_fans_over_a_multiple_have_six_stitches_a_repeat(multiple: str) -> None:
    rows, loud = _rows_and_rules(FANS.format(multiple=multiple, passed=2))
    assert rows == ["6k + 1"] * 3  # by hand: a sc, and 5 dc and a sc in each repeat
    assert not loud


def test_a_repeat_that_does_not_fit_its_multiple_is_told() -> None:
    rows, loud = _rows_and_rules(FANS.format(multiple="Multiple of 6 + 1.", passed=3))
    assert rows[:2] == ["6k + 1"] * 2
    assert len(loud) == 1
