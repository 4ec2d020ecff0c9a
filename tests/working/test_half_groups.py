"""Half shells and half fans at the edges of a row are counted as they are printed.

Arithmetic: 31 sc are 5 times 6 and 1; four whole shells of 5 stand between two halves of 3.
"""

import pytest
from working_texts import told

US = """\
US terms. Shell: 5 dc in same st. Ch 3 at the start of a row counts as a dc.

Ch 32.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (31 sc)
Row 2: Ch 3, 2 dc in first st, *sk 2 sts, sc in next st, sk 2 sts, shell in next st; rep from *
across, ending last rep with 3 dc in last st. (4 shells, {} half shells, 5 sc)
"""
UK = """\
UK terms. 3 ch at the start of a row counts as a tr.

32 ch.
Row 1: 1 dc in 2nd ch from hook, 1 dc in each ch to end, turn. (31 dc)
Row 2: 3 ch, 2 tr in first st, *miss 2 sts, 1 dc in next st, miss 2 sts, 5 tr in next st; rep
from * to last 6 sts, miss 2 sts, 1 dc in next st, miss 2 sts, 3 tr in last st. (4 fans, {} half
fans, 5 dc)
"""


@pytest.mark.parametrize("text", [US, UK])
def test_half_groups_are_counted(text: str) -> None:
    assert told(text.format(2)) == []
    assert [rule for rule, _, _ in told(text.format(3))] == ["stated-count"]
