"""Repeats that leave places, and rows recalled two at a time."""

import pytest
from working_texts import errors, flat

from hookwright.checking import check
from hookwright.source import Source

BASE = (
    "US terms. Ch 1 does not count.\n\nCh 13.\n\nRow 1: Sc in 2nd ch from hook and in each ch "
    "across. Turn. (12)\n\n"
)


def counts(text: str) -> list[object]:
    return [line.stitches[0] for line in check(Source(BASE + text, "pattern.txt")).lines]


@pytest.mark.parametrize(
    ("row", "expected"),
    [
        ("*2 sc in next st; rep from * to last 2 sts, sc in last 2 sts", 22),
        ("*sc in next st; rep from * to last 3 sts, sc2tog, sc in last st", 11),
        ("*sc in next st, 2 sc in next st; rep from * to last 4 sts, sc in last 4 sts", 16),
    ],
)
def test_a_repeat_stops_at_the_places_it_is_to_leave(row: str, expected: int) -> None:
    assert counts(f"Row 2: Ch 1, {row}. Turn. ({expected})\n")[-1] == expected


def test_the_last_two_rows_are_recalled_in_turn() -> None:
    text = (
        "Row 2: Ch 1, 2 sc in first st, sc in each st across. Turn. (13)\n\n"
        "Row 3: Ch 1, sc in each st across. Turn. (13)\n\nRows 4-7: Rep last 2 rows. (15)\n\n"
        "Row 8: Ch 1, sc in each st across. Turn. (15)\n"
    )
    assert counts(text)[-1] == 15
    assert not check(Source(BASE + text, "pattern.txt")).findings


def test_a_count_the_next_row_closes_over_is_defended() -> None:
    text = (
        "Row 2: Ch 1, sc in first 5 sts, sk next 2 sts, sc in next 5 sts. Turn. (12)\n\n"
        "Row 3: Ch 1, sc in each st across. Turn. (12)\n"
    )
    (finding,) = check(Source(BASE + text, "pattern.txt")).findings
    assert finding.rule == "stated-count"


def test_stitches_excepted_are_left_on_purpose() -> None:
    text = "Row 2: Ch 1, sc in each st except the last. Turn. (11)\n"
    assert counts(text)[-1] == 11
    assert not check(Source(BASE + text, "pattern.txt")).findings


HALF_A_GROUP = flat(
    16,
    "Row 2: Ch 1, sc in first st, *sk 2 sts, 5 dc in next st, sk 2 sts, sc in next st; rep "
    "from * across, ending with 3 dc in last st. ({} sts)",
)


@pytest.mark.parametrize(
    ("count", "rules"), [(16, []), (17, [("stated-count", "(17 sts)")])]
)
def test_words_after_ending_may_take_the_end_of_a_last_half_group(
    count: int, rules: list[tuple[str, str]]
) -> None:
    """1 + 2 x 6 stitches, and half a group over the last 3."""
    assert errors(HALF_A_GROUP.format(count)) == rules
