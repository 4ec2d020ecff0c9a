"""Other rows: what a text says of them one by one stays the designer's."""

from __future__ import annotations

from working_texts import checked

from hookwright.sizing.rewriting import SizeWritten, rewritten
from hookwright.sizing.slots import Slot, edits_for
from hookwright.source import Span

TOLD_APART = """\
# Wicker Cushion

Chain 31.
Row 1. dc in 4th chain from hook (3 skipped chains = 1 dc) and in every chain. Turn.
Row 2. Ch 2, *FPdc around next 3 sts, BPdc around next 3 sts; rep from * to last 4 sts, FPdc around next 3 sts, dc in top of turning chain. Turn.
Row 3. Ch 2, *BPdc around next 3 sts, FPdc around next 3 sts; rep from * to last 4 sts, BPdc around next 3 sts, dc in top of turning chain. Turn.
Row 4. Rep Row 2.
Rows 5-7. Rep Rows 3, 2, 3 in that order? No: Row 5 as Row 2, Row 6 as Row 3, Row 7 as Row 2.
Rows 8-13. Rep Rows 2-7.
"""


def test_rows_that_are_told_one_by_one_are_named_and_not_shifted() -> None:
    result = rewritten(checked(TOLD_APART), [SizeWritten("", 4, 5)])
    assert result.text == TOLD_APART
    assert "told one by one" in result.open[0].message


def test_a_size_that_works_no_such_row_keeps_its_dash() -> None:
    words = "\N{EN DASH} (20, 30)"
    count = Slot(Span(0, len(words)), (None, 20, 30), (None, 22, 33), "count")
    (edit,) = edits_for(f"{words} dc", [count])
    assert edit.replacement == "\N{EN DASH} (22, 33)"
