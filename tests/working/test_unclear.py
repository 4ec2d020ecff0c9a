"""Rows of which too many do not close speak against the reading, not against the pattern."""

from __future__ import annotations

from hookwright.checking import check
from hookwright.finding import Severity
from hookwright.source import Source

BEGINNING = "Ch 13.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (12 sc)\n"
TOO_FEW = "Ch 1, sc in each of next {} sts, turn. ({} sc)"


def told(rows: list[str]) -> list[tuple[str, Severity]]:
    text = BEGINNING + "".join(f"Row {n}: {row}\n" for n, row in enumerate(rows, 2))
    found = check(Source(text, "rows.txt")).findings
    return [(f.rule, f.severity) for f in found if f.rule != "terms-unstated"]


def test_three_rows_that_do_not_close_are_one_piece_of_advice() -> None:
    rows = [TOO_FEW.format(15, 15), TOO_FEW.format(19, 19), TOO_FEW.format(24, 24)]
    assert told(rows) == [("unclear-rows", Severity.ADVICE)]


def test_two_rows_that_do_not_close_are_two_slips() -> None:
    rows = [TOO_FEW.format(15, 15), "Ch 1, sc in each st, turn. (15 sc)"]
    rows += [TOO_FEW.format(19, 19), "Ch 1, sc in each st, turn. (19 sc)"]
    assert [rule for rule, _ in told(rows)] == ["past-the-end", "past-the-end"]


def test_three_slips_among_many_rows_are_slips() -> None:
    rows = [TOO_FEW.format(15, 15), TOO_FEW.format(19, 19), TOO_FEW.format(24, 24)]
    rows += ["Ch 1, sc in each st across, turn. (24 sc)"] * 9
    assert [rule for rule, _ in told(rows)] == ["past-the-end"] * 3
