"""A row that is far off, which no number puts right and no count bears out, is doubted."""

import pytest

from hookwright.checking import check
from hookwright.source import Source

HEAD = """US terms. Ch 1 does not count as a stitch.

Ch 41.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (40 sc)
"""
PLAIN = "Ch 1, sc in each st across, turn. (40 sc)"
KNOTS = "Ch 1, sc in first st, (sc, dc, sc) in each st to last st, sc in last st, turn."


def told(*rows: str) -> list[str]:
    lines = [f"Row {number}: {row}" for number, row in enumerate(rows, 2)]
    return [
        f"{f.severity.value} {f.rule}"
        for f in check(Source(HEAD + "\n".join(lines))).findings
    ]


def test_a_count_that_the_next_row_closes_over_doubts_a_reading_far_from_it() -> None:
    """By hand: 3 in each of 38 and one at either edge are 116, and 40 are printed."""
    assert told(f"{KNOTS} (40 sts)", PLAIN) == ["advice unclear-rows"]


def test_a_count_that_nothing_bears_out_is_told_however_far_it_is_off() -> None:
    """By hand: 40 and not 14, as the next row has it."""
    assert told("Ch 1, sc in each st across, turn. (14 sc)", PLAIN) == [
        "error stated-count"
    ]


def test_a_count_near_to_the_words_is_told() -> None:
    row = (
        "Ch 1, 2 sc in first st, sc in each st to last 2 sts, sc in each st, turn. (40 sc)"
    )
    assert told(row, PLAIN) == ["error stated-count"]


@pytest.mark.parametrize("number", [44, 58])
def test_a_row_that_its_own_count_bears_out_is_told(number: int) -> None:
    """By hand: 40 are there."""
    rules = told(f"Ch 1, sc in each of next {number} sts, turn. ({number} sc)")
    assert rules == ["error past-the-end"]


def test_a_row_along_several_pieces_is_doubted() -> None:
    """By hand: 4 x 40 are 160, and the last of them is the only one that is known."""
    row = "Ch 1, *sc in each of next 40 sts, ch 2; rep from * 3 more times, turn. (160 sc)"
    assert told(row) == ["advice unclear-rows"]
