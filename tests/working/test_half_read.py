"""A row that does not come out, and holds words nobody here knows, is not accused."""

import pytest

from hookwright.checking import check
from hookwright.source import Source

HEAD = """US terms. Ch 1 does not count as a stitch.

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)
"""


def told(*rows: str) -> list[tuple[str, str, str | None]]:
    lines = [f"Row {number}: {row}" for number, row in enumerate(rows, 2)]
    return [
        (f.severity.value, f.rule, f.row)
        for f in check(Source(HEAD + "\n".join(lines))).findings
    ]


@pytest.mark.parametrize(
    "row",
    [
        "Ch 1, sc in next 16 sts, flumper the fifth and so forth, turn. (20 sts)",
        "Ch 1, sc in next 8 sts, dwindle at every other place, sc in next 4 sts, turn. (18 sc)",
    ],
)
def test_a_row_that_lacks_what_unknown_words_ask_for_is_doubted(row: str) -> None:
    assert told(row) == [("advice", "unclear-rows", "Row 2")]


def test_what_follows_from_such_a_row_is_not_told_either() -> None:
    rows = told(
        "Ch 1, (sc in next 6 sts, gather the two that stand between) 3 times, turn.",
        "Ch 1, sc in next 11 sts, turn.",
        "Ch 1, sc in next 15 sts, turn.",
    )
    assert rows == [("advice", "unclear-rows", "Row 2")]


def test_words_are_a_comment_where_one_number_puts_the_row_right() -> None:
    """By hand: 20 are there, and 19 are used; nothing is said of stitches or places."""
    row = "Ch 1, sc in next 19 sts, mind the draught, turn. (20 sc)"
    assert told(row) == [("error", "stitches-left", "Row 2")]


def test_a_count_off_by_one_is_a_slip_of_the_pen_whatever_the_words() -> None:
    row = (
        "Ch 1, sc in each st across, dwindling at every place as you please, turn. (21 sc)"
    )
    assert told(row) == [("error", "stated-count", "Row 2")]


def test_a_count_that_the_next_row_bears_out_is_told() -> None:
    """By hand: each row has 20, and the next one says so."""
    row = (
        "Ch 1, sc in each st across, dwindling at every place as you please, turn. (26 sc)"
    )
    after = "Ch 1, sc in next 20 sts, turn. (20 sc)"
    assert told(row, after) == [("error", "stated-count", "Row 2")]


def test_the_other_side_of_a_chain_is_no_unknown_word() -> None:
    """By hand: 9 chains have 7 between the hook and the last one, and 8 are asked for."""
    text = (
        "US terms.\n\nCh 9.\nRnd 1: Sc in 2nd ch from hook, sc in next 8 ch, 3 sc in last "
        "ch, rotate to work in free loops along other side of foundation ch, sc in next 6 "
        "ch, 2 sc in last ch. (20 sc)"
    )
    rules = [f.rule for f in check(Source(text)).findings if f.severity.value == "error"]
    assert rules == ["past-the-end"]
