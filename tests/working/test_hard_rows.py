"""Rows that nobody can work are given up after a bounded effort: no text takes forever."""

import pytest
from counting import calls

from hookwright.checking import check
from hookwright.source import Source

MOST_CALLS = (
    12_000_000  # half a minute of the slowest machine; a normal row makes thousands
)

ENDLESS_GAPS = """\
UK terms.

29 ch.
Row 1: 1 dc in 2nd ch from hook, 1 dc in each ch along. [28 dc]
Row 2: 3 ch (counts as 1 tr), 3 tr in each 900000000 the next 10 gaps, 1 tr in top of 3 ch.
Row 3: 3 ch (counts as 1 tr), 1 tr in the gap before the first group, 2 tr in the gap after the last group.
"""
ENDLESS_SPACES = """\
UK terms.

Make a magic ring.
Round 1: 3 ch (counts as a tr), 2 tr into ring, 2 ch, *3 tr into ring, 2 ch; rep from * once more, ss.
Round 2: *3 ch, (2 tr, 2 ch, 3 tr) into same space, 1 ch; rep from * to the ( space, 3 ch.
Round 3: ss along to the ( space, 1 *(3 tr, 3 tr) into next corner space, tr, 1 ch; rep from * to end.
"""


@pytest.mark.parametrize("text", [ENDLESS_GAPS, ENDLESS_SPACES])
def test_a_row_that_cannot_be_worked_is_given_up(text: str) -> None:
    assert calls(lambda: check(Source(text, "hard.txt"))) < MOST_CALLS
