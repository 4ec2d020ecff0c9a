"""A space that a row asks for in groups which have none: told, and the rows go on.

Arithmetic: 25 sc less 1 are 4 times 6; each shell of 5 stands between two sc.
"""

import pytest
from working_texts import checked, errors, made

ROWS = """\
US terms. Ch 5 at the start of a row counts as a dc and a ch 2.

Ch 26.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (25 sc)
Row 2: Ch 1, sc in first sc, *sk 2 sc, {0} in next sc, sk 2 sc, sc in next sc; rep from * across,
turn.
Row 3: Ch 5, *{1}, ch 5; rep from * to last group, {2}, ch 2, dc in last sc, turn.
Row 4: Ch 1, sc in first dc, *ch 5, sc in next ch-5 sp; rep from * across, ch 5, sc in 3rd ch of
ch-5. ({3} sc)
"""


@pytest.mark.parametrize(
    ("each", "last"),
    [
        ("sc in ch-2 sp of next group", "sc in ch-2 sp of last group"),
        ("sc in center ch-2 sp of next group", "sc in center ch-2 sp of last group"),
        (
            "sc in the ch-2 sp in the middle of next group",
            "sc in the ch-2 sp in the middle of last group",
        ),
    ],
)
def test_a_space_that_no_group_has(each: str, last: str) -> None:
    text = ROWS.format("5 dc", each, last, 5)
    assert made(text)[-2:] == [6, 5]
    assert [rule for rule, _ in errors(text)] == ["missing-target"]
    assert errors(ROWS.format("(2 dc, ch 2, 2 dc)", each, last, 5)) == []
    short = ROWS.format("(2 dc, ch 2, 2 dc)", each, last, 6)
    assert [rule for rule, _ in errors(short)] == ["stated-count"]


def test_what_is_said_of_it() -> None:
    text = ROWS.format(
        "5 dc", "sc in ch-2 sp of next group", "sc in ch-2 sp of last group", 5
    )
    (finding,) = checked(text).findings
    assert finding.message == "Row 3 asks for a ch-2 space in a group, but there is none."
