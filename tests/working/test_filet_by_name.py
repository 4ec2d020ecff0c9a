"""Filet told in squares by short names that go back to the usual ones.

Arithmetic: nine squares are ten posts, and two more stitches in every solid one.
"""

import pytest
from working_texts import checked, errors, numbers

ROWS = """\
US terms.

{0}
Every row begins with ch 5 or ch 3. Turn after each row.

Ch 32.
Row 1: Dc in 8th ch from hook, *ch 2, sk 2 ch, dc in next ch; rep from * across. (9 {1})
Row 2: {2}
Row 3: {3}
Row 4: Ch 1, sc in first dc, *2 sc in next ch-2 sp, sc in next dc; rep from * across, with the
last sc in the 3rd ch of the ch 5. ({4} sc)
"""


@pytest.mark.parametrize(
    ("told", "opened", "second", "third"),
    [
        (
            "OM = open mesh: ch 2, sk 2 sts, dc in next dc.\nFM = filled mesh: 2 dc in sp, dc",
            "OM",
            "3 OM, 3 FM, 3 OM.",
            "9 OM.",
        ),
        (
            "O: an open mesh (ch 2, skip 2, dc)\nS: a solid mesh (dc in 3)",
            "open meshes",
            "O x 3, S x 3, O x 3.",
            "O x 9.",
        ),
        (
            "SP = open square, ch 2, sk 2, dc in next dc\nBL = block, 3 dc",
            "sps",
            "3 SP, 3 BL, 3 SP.",
            "9 SP.",
        ),
    ],
)
def test_rows_of_squares(told: str, opened: str, second: str, third: str) -> None:
    text = ROWS.format(told, opened, second, third, "{}")
    lines = checked(text.format(28)).lines
    assert [numbers(line)[::2] for line in lines[1:4]] == [(10, 9), (16, 6), (10, 9)]
    assert errors(text.format(28)) == []
    assert [rule for rule, _ in errors(text.format(27))] == ["stated-count"]


def test_a_wrong_number_of_open_squares() -> None:
    told = "OM = open mesh: ch 2, sk 2 sts, dc in next dc.\nFM = filled mesh: 3 dc"
    text = ROWS.format(told, "OM", "9 OM. ({} OM)", "9 OM.", 28)
    assert errors(text.format(9)) == []
    assert [rule for rule, _ in errors(text.format(10))] == ["stated-count"]
