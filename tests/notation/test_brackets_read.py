"""What a bracket is for: a group in one place, a name, or numbers. Arithmetic by hand."""

import pytest
from working_texts import checked, errors, flat, last_row


def test_a_group_goes_between_two_stitches() -> None:
    """A chain, a dc, the two of the group, and nine: the gap uses nothing of the twelve."""
    row = (
        "Row 2: Ch 3, dc in next st, (dc, ch 1, dc) between next 2 sts, dc in next 9 sts. "
        "Turn. (13)"
    )
    assert last_row(flat(12, row)) == (13, 12, 1)


def test_a_group_may_be_named_behind_its_bracket() -> None:
    """Two fans of five and two sc, counted by the names given here."""
    row = (
        "Row 2: Ch 1, *sk next 2 sts, (5 dc) in next st (fan made), sk 2 sts, sc in next "
        "st; rep from * once. Turn. (2 fans, 2 sc)"
    )
    assert last_row(flat(12, row))[:2] == (12, 12)


def test_a_name_given_behind_a_group_holds_in_the_next_row() -> None:
    """An sc, two shells of 4 with an sc behind each, three sc: 14; then four sc and two."""
    shells = (
        "Row 2: Ch 1, sc in next st, *sk next st, (2 dc, ch 1, 2 dc) in next st (shell "
        "made), sk next st, sc in next st; rep from * 1 more time, sc in last 3 sts. Turn. "
        "(2 shells, 6 sc)"
    )
    back = "Row 3: Ch 1, sc in next 4 sts, *sk next shell, sc in next st; rep from * once."
    assert last_row(flat(12, shells, back))[:2] == (6, 14)


def test_what_ends_in_the_stitch_made_and_is_worked_some_times_is_no_name() -> None:
    """An sc, three picots with three sc before each, and two sc: a picot uses no place."""
    row = (
        "Row 2: Ch 1, sc in first st, (sc in next 3 sts, ch 3, sl st in last sc made) 3 times, "
        "sc in last 2 sts. Turn. (12)"
    )
    assert last_row(flat(12, row))[:2] == (12, 12)


@pytest.mark.parametrize("printed", ["3 dc groups, 3 dc", "3 3-dc groups, 3 dc"])
def test_groups_are_counted_as_groups(printed: str) -> None:
    row = (
        "Row 2: Ch 3, dc in next st, *sk next st, 3 dc in next st, sk next st; rep from * "
        f"2 more times, dc in last st. Turn. ({printed})"
    )
    assert last_row(flat(12, row))[:2] == (12, 12)


def test_brackets_deeper_than_anybody_writes_are_told() -> None:
    deep = "(" * 70 + "sc" + ")" * 70
    result = checked(flat(12, f"Row 2: Ch 1, {deep} in next st, sc in next 11 sts. Turn."))
    assert result.has_errors()


def test_a_number_nobody_can_work_is_told_at_its_place() -> None:
    huge = "9" * 20
    found = errors(flat(12, f"Row 2: Ch 1, sc in next {huge} sts. Turn. (12)"))
    assert ("unknown-word", huge) in found


def test_numbers_nobody_can_work_are_told_a_few_times_only() -> None:
    row = "Row 2: Ch 1, " + ", ".join(["sc in next 99999999999999999999 sts"] * 40) + "."
    result = checked(flat(12, row))
    digits = [finding for finding in result.findings if "digits" in finding.message]
    assert 0 < len(digits) < 40
