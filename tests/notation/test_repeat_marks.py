"""Where a repeat begins and ends, by its marks and its words. Arithmetic by hand."""

import pytest
from working_texts import errors, flat, last_row


@pytest.mark.parametrize(
    ("row", "made"),
    [
        ("(sc, hdc) * 6, turn", 12),
        ("(sc in next 3 sts) * 4", 12),
        ("*sc in next 2 sts; rep from * x 6", 12),
        ('*sc in next st, 2 sc in next st; repeat "*" 5 more times', 18),
        ("*sc in next st, 2 sc in next st; repeat “*” 5 more times", 18),
        ("*sc in next st, 2 sc in next st; * 5 more times", 18),
        ("*sc in next st, dc in next st; rep from * to ** 5 more times", 12),
        ("* *. Sc in each st across", 12),
        ("*sc in next 3 sts; rep from ** to last 3 sts, sc in last 3 sts", 12),
    ],
)
def test_a_group_is_worked_as_often_as_its_marks_say(row: str, made: int) -> None:
    numbers = last_row(flat(12, f"Row 2: Ch 1, {row}. Turn. ({made})"))
    assert (numbers.made, numbers.used) == (made, 12)


@pytest.mark.parametrize(
    "goal",
    [
        "until you reach your starting chain",
        "until you meet the turning chain",
        "until you reach the end",
        "to the turning chain",
        "to within last st",
    ],
)
def test_a_repeat_stops_before_the_turning_chain(goal: str) -> None:
    """A chain that counts, ten dc, and the chain below: twelve."""
    below = "Row 2: Ch 3, dc in next 11 sts. Turn. (12)"
    row = f"Row 3: Ch 3, *dc in next st; rep from * {goal}, dc in tch. Turn. (12)"
    assert last_row(flat(12, below, row))[:2] == (12, 12)


def test_a_repeat_that_does_not_say_how_often_goes_across() -> None:
    """Six pairs fill twelve places; the stitch behind them finds none."""
    row = "Row 2: Ch 1, *sc in next 2 sts; rep from * x, sc in last st. Turn."
    assert errors(flat(12, row)) == [("past-the-end", "sc in last st")]
