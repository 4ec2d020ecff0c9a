"""Rows that grow or shrink at both ends, and other rows told in one phrase."""

import pytest
from working_texts import flat, last_row, made


@pytest.mark.parametrize(
    ("row", "number"),
    [
        ("Ch 1, decrease 1 st at each end, sc in the rest.", 18),
        ("Ch 1, sc in each st, increasing 1 at each end.", 22),
        ("Ch 1, work across in sc, dec 1 st at both ends.", 18),
        ("Ch 1, sc across, inc 2 sts each side.", 24),
        ("Ch 1, sc evenly across.", 20),
        ("Ch 1, work 1 row sc.", 20),
        ("A row of dc. Turn.", 20),
        ("Ch 1, fpdc around first st, bpdc around next, repeat these 2 sts across.", 20),
        ("Ch 1, (sc in next 3 sts, sc2tog) across 4 times.", 16),
        ("Ch 1, sc across; 20 sc.", 20),
        ("Ch 1, sc2tog, sc across to last 2 sc, sc2tog; 18 sc.", 18),
    ],
)
def test_a_row_told_in_one_phrase_is_worked(row: str, number: int) -> None:
    assert last_row(flat(20, f"Row 2: {row}"))[0] == number


def test_a_group_may_be_told_by_what_it_is_made_of() -> None:
    row = "Row 2: Ch 1, sc in first st, *sk 2, shell of 5 dc in next, sk 2, sc in next; rep from *."
    assert made(flat(25, row))[-1] == 25
