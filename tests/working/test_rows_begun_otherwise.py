"""Rows worked again that begin otherwise, end early, or reach into a row of a number."""

import pytest
from working_texts import checked, flat, last_row, made

from hookwright.notation.nested import nested
from hookwright.notation.tree import InOnePlace, Make

RIPPLE = """\
Ch 51.

Row 1: Dc in 4th ch from hook, dc in next 3 ch, dc2tog twice, dc in next 3 ch, *2 dc in each
of next 2 ch, dc in next 3 ch, dc2tog twice, dc in next 3 ch; rep from * to last ch, 2 dc in
last ch. Turn. (48 dc)

"""


@pytest.mark.parametrize(
    "again",
    [
        "Row 1 again, starting with ch 3 and 1 dc in the very first st.",
        "Rep Row 1, but begin with ch 3 (counts as first dc), dc in same st.",
        "Work Row 1 again beginning with ch 3, dc in st at base of ch-3, turn.",
    ],
)
def test_a_row_worked_again_may_begin_otherwise(again: str) -> None:
    assert made(f"{RIPPLE}Row 2: {again} (48 dc)\n")[-1] == 48


SHELLS = """\
Shell: 2 dc, ch 1, 2 dc in one st.

Ch 48.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (47)

Row 2: Ch 3 (counts as dc), sk next 2 sc, *[Shell in next sc, sk next 3 sc] twice, sc in
next sc, sk next 3 sc; rep from *, {}, sk 2 sc, dc in last sc. (8 Shells, 3 sc, 2 dc)
"""


@pytest.mark.parametrize(
    "ending",
    [
        "ending last rep after second Shell",
        "finishing the last repeat after the 2nd Shell",
        "end with second Shell",
    ],
)
def test_a_last_repeat_may_stop_inside_an_inner_one(ending: str) -> None:
    assert last_row(SHELLS.format(ending))[0] == 37


@pytest.mark.parametrize(("row", "down"), [("Row 1", 3), ("Row 2", 2), ("Row 3", 1)])
def test_a_row_named_by_its_number_lies_as_deep_as_it_lies(row: str, down: int) -> None:
    plain = [f"Row {n}: Ch 1, sc in each sc across. Turn. (8)" for n in (2, 3, 4)]
    spike = (
        f"Row 5: Ch 1, sc in next 3 sc, spike sc in next sc of {row}, sc in next 4 sc. (8)"
    )
    result = checked(flat(8, *plain, spike))
    outcome = result.worked.sizes[0].outcomes[-1]
    deep = {
        node.target.rows_below
        for node in nested(outcome.step.nodes)
        if isinstance(node, Make | InOnePlace) and node.target and node.target.row
    }
    assert deep == {down}
    assert last_row(flat(8, *plain, spike))[0] == 8


@pytest.mark.parametrize(
    ("words", "number"),
    [
        ("working 4 sc2tog evenly spaced", 20),
        ("with 4 decreases evenly spaced", 20),
        ("decreasing evenly to 18 sts", 18),
        ("making 6 inc evenly along the row", 30),
        ("with 3 incs evenly spaced", 27),
    ],
)
def test_changes_spread_evenly_are_told_by_their_stitch(words: str, number: int) -> None:
    assert (
        made(flat(24, f"Row 2: Ch 1, sc across, {words}. Turn. ({number})"))[-1] == number
    )
