"""Rows told by markers: proven where they lead to one number, else left open."""

from __future__ import annotations

import pytest

from hookwright.checking import check
from hookwright.finding import Severity
from hookwright.source import Source

BEGUN = """\
Ch 24, join with sl st to form a ring.
Rnd 1: Ch 1, sc in each ch around, join. (24 sc)
"""


@pytest.mark.parametrize(
    "round_2",
    [
        "*sc to 2 sts before next marker, sc2tog, sm; rep from * around",  # how many?
        "sc to marker, dc to next marker, sc in each st to end",  # how many of each?
        "sc to marker, ch 6, sk next 10 sts, sc in each st to end",
    ],
)
def test_what_markers_do_not_tell_is_left_open(round_2: str) -> None:
    text = (
        f"{BEGUN}Rnd 2: Ch 1, {round_2}, join. (20 sts)\nRnd 3: Ch 1, sc in each st around."
    )
    checked = check(Source(text))
    assert not [f for f in checked.findings if f.severity is not Severity.ADVICE]
    assert checked.lines[-1].stitches == (20,)
    assert checked.lines[-2].stitches == (None,)
