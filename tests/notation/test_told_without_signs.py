"""Repeats, places, sides and names that are told to be heard are read as those in print."""

from __future__ import annotations

import pytest

from hookwright.notation import parse_text
from hookwright.notation.printing import bare
from hookwright.notation.rebuilding import rebuilt
from hookwright.notation.tree import Pattern, Repeat


def without_marks(text: str) -> Pattern:
    def change(value: object) -> object:
        return Repeat(value.body, value.times, value.span, value.split, "") if isinstance(
            value, Repeat
        ) else value  # fmt: skip

    return rebuilt(bare(parse_text(f"US terms.\n\nCh 22.\n{text}\n").pattern), change)


@pytest.mark.parametrize(
    ("heard", "printed"),
    [
        ("Row 1: Work the following 3 times: sc in next st; ch 1; end of repeat; turn.",
         "Row 1: [Sc in next st, ch 1] 3 times, turn."),
        ("Row 1: Work the following to last 2 stitches: sc in next st; sk 1 st; end of repeat.",
         "Row 1: *Sc in next st, sk 1 st; rep from * to last 2 sts."),
        (("Row 1: Work the following across: sc in next st; the last time stop here; ch 2; end "
         "of repeat."),
         "Row 1: *Sc in next st**, ch 2; rep from * across, ending last rep at **."),
        (("Row 1: Work the following twice: work the following twice: sc in next st; end of "
         "repeat; ch 1; end of repeat."),
         "Row 1: [[Sc in next st] twice, ch 1] twice."),
        ("Row 1: In next ch-2 sp work 2 dc, ch 2, 2 dc; turn. You now have 4 dc.",
         "Row 1: (2 dc, ch 2, 2 dc) in next ch-2 sp, turn. (4 dc)"),
        ("Row 1: In next st work 5 dc; shell made; turn.",
         "Row 1: (5 dc) in next st (shell made), turn."),
        ("Row 1: Dc in 4th ch from hook; the skipped chain counts as dc; turn.",
         "Row 1: Dc in 4th ch from hook (skipped ch counts as dc), turn."),
        ("Row 1, right side, color A: Sc in next st.", "Row 1 (RS) (color A): Sc in next st."),
        ("Rnds 1 to 3, that is 3 rounds: Sc in next st.", "Rnds 1-3 (3 rounds): Sc in next st."),
        ("Row 1: Sc in each dc and chain-1 space across.",
         "Row 1: Sc in each dc and ch-1 sp across."),
        ("Row 1: Dc in 3rd chain of beginning chain-5.", "Row 1: Dc in 3rd ch of beg ch-5."),
    ],
)  # fmt: skip
def test_what_is_heard_is_read_as_what_is_printed(heard: str, printed: str) -> None:
    assert without_marks(heard) == without_marks(printed)


def test_a_repeat_that_never_ends_takes_what_there_is() -> None:
    (row,) = (
        row
        for part in parse_text(
            "Row 1: Work the following 3 times: sc in next st.\n"
        ).pattern.parts
        for row in part.rows
    )
    assert len(row.body) == 1
