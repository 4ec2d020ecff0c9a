"""Rows told by another row with something changed, and ranges with a count for each row.

Arithmetic: 33 dc less 2 edges and a first one leave 30; pairs of dc and space over 2 or 3.
"""

import pytest
from working_texts import errors, made

from hookwright.checking import Checked, check
from hookwright.source import Source

BAND = """\
US terms. Ch 3 at the start of a row counts as a dc. Ch 1 does not count.

Ch 35.
Row 1: Dc in 4th ch from hook and in each ch across, turn. (33 dc)
Row 2: Ch 3, sk first dc, dc in next dc, *ch 1, sk 1 dc, dc in next dc; rep from * to last dc,
dc in last dc, turn. (18 dc, 15 sps)
Row 3: Ch 3, sk first dc, dc in next dc, *dc in next sp, dc in next dc; rep from * to last dc,
dc in last dc, turn. (33 dc)
"""


def checked(rows: str) -> Checked:
    return check(Source(BAND + rows, "band.txt"))


@pytest.mark.parametrize(
    "change",
    [
        'Work as Row 2, but with "ch 2, sk 2 dc" in place of "ch 1, sk 1 dc".',
        "As Row 2, working ch 2, sk 2 dc instead of ch 1, sk 1 dc.",
    ],
)
def test_some_instructions_in_place_of_others(change: str) -> None:
    found = checked(
        f"Row 4: {change} (13 dc, 10 sps)\nRow 5: As Row 3, with 2 dc in each sp. (33 dc)\n"
    )
    assert [line.stitches for line in found.lines[-2:]] == [(13,), (33,)]
    assert found.findings == ()


def test_one_stitch_in_place_of_another() -> None:
    found = checked("Row 4: As Row 2, but with tr instead of dc. (18 sts, 15 sps)\n")
    assert found.findings == ()
    kinds = found.worked.sizes[0].outcomes[-1].worked
    assert kinds is not None
    assert kinds.row.kinds()["tr"] == 17  # all but the chain that begins the row


def test_each_row_of_a_range_has_its_own_count() -> None:
    rows = (
        "Rows 4-6: Ch 1, sc2tog, sc in each st to last 2 sts, sc2tog, turn. ({})\n"
        "Row 7: Ch 1, sc in each st across. (27 sc)\n"
    )
    assert checked(rows.format("31, 29 and 27 sc")).findings == ()
    slip = checked(rows.format("31, 28 and 27 sc")).findings
    assert [(f.rule, f.numbers) for f in slip] == [("stated-count", (5, 5))]


POINT = """\
US terms. Ch 3 at the start of a row counts as a dc.

Ch 24.
Row 1: Dc in 4th ch from hook and in each ch across, turn. (22 dc)
Row 2: Ch 3, dc2tog, dc in each of next 16 dc, dc2tog, dc in last st, turn. (20 dc)
"""


@pytest.mark.parametrize(
    "change",
    [
        "with 2 fewer dc between the two dc2tog each time",
        "but with 2 dc less in the middle on every row",
        "working 2 fewer sts between the decreases in each row",
        "having 2 fewer dc in the center each row",
    ],
)
def test_a_run_that_shrinks_in_every_row(change: str) -> None:
    rows = f"{POINT}Rows 3-6: Repeat Row 2, {change}. (18, 16, 14, {{}} dc)\n"
    assert made(rows.format(12)) == [24, 22, 20, 18, 16, 14, 12]
    assert errors(rows.format(12)) == []
    assert [rule for rule, _ in errors(rows.format(11))] == ["stated-count"]


@pytest.mark.parametrize(
    "rounds",
    [
        "Rnds 4-6: Rep Rnd 3, with 1 more sc between the increases each round. (24, 30, {})",
        "Rep Rnd 3 three more times, with 1 extra sc before each inc every time. ({})",
    ],
)
def test_a_run_that_grows_in_every_round(rounds: str) -> None:
    begun = (
        "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
        "Rnd 3: [Sc in next st, 2 sc in next st] 6 times. (18)\n"
    )
    assert made(begun + rounds.format(36))[-1] == 36
    assert errors(begun + rounds.format(36)) == []
    assert [rule for rule, _ in errors(begun + rounds.format(35))] == ["stated-count"]


def test_a_run_that_grows_once() -> None:
    begun = (
        "Rnd 1: 6 sc in magic ring. (6)\nRnd 2: [Sc 1, inc] 3 times. (9)\n"
        "Rnd 3: As Rnd 2, but with 1 more sc between the increases. (12)\n"
        "Rnd 4: As Rnd 3, but with 1 more sc between the increases. ({})\n"
    )
    assert errors(begun.format(15)) == []
    assert [rule for rule, _ in errors(begun.format(16))] == ["stated-count"]
