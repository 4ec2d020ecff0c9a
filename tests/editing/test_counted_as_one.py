"""A count in one stitch, over a row that works some of it under its name in other terms."""

import pytest

from hookwright.checking import check
from hookwright.finding import Severity
from hookwright.source import Source

SQUARE = (
    "UK terms. 3 ch counts as a tr.\n\n5 ch, join to form a ring.\n"
    "Rnd 1: 3 ch, 2 tr in ring, 2 ch, (3 tr in ring, 2 ch) 3 times, ss to top of 3 ch. (12 tr)\n"
    "Rnd 2: ss to corner sp, 3 ch, 2 tr in same sp, 1 ch, *(3 tr, 2 ch, 3 tr) in next 2-ch sp, "
    "1 ch; rep from * twice more, 3 tr in first sp, 2 ch, ss to top of 3 ch. (24 tr)\n"
    "Rnd 3: ss to corner sp, 3 ch, 2 tr in same sp, *3 {side} in next 1-ch sp, (3 tr, 2 ch, 3 tr) "
    "in next 2-ch sp; rep from * twice more, 3 {side} in next 1-ch sp, 3 tr in first sp, 2 ch, "
    "ss to top of 3 ch. ({count})\n"
)


def warned(side: str, count: str) -> list[str]:
    found = check(Source(SQUARE.format(side=side, count=count))).findings
    return [f.rule for f in found if f.severity is not Severity.ADVICE]


def test_a_word_of_the_other_terms_is_told_by_the_count() -> None:
    assert warned("dc", "36 tr") == ["mixed-terms"]


@pytest.mark.parametrize(
    ("side", "count"), [("tr", "36 tr"), ("dc", "24 tr, 12 dc"), ("dc", "36 sts")]
)
def test_stitches_counted_by_their_names_are_not_told(side: str, count: str) -> None:
    assert warned(side, count) == []
