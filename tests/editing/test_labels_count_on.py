"""Labels that count on, leave a number out, or come twice."""

import pytest

from hookwright.checking import check
from hookwright.finding import Finding
from hookwright.source import Source

BALL = (
    "Rnd 1: 6 sc in magic ring (6)\nRnd 2: inc x6 (12)\nRnd 3: (sc 1, inc) x6 (18)\n"
    "Rnds 4-7: 18 sc (18)\n"
)


def of_labels(text: str) -> list[Finding]:
    return [f for f in check(Source(text)).findings if f.rule == "row-labels"]


def test_a_number_left_out_is_told_where_the_counting_goes_on() -> None:
    [finding] = of_labels(f"{BALL}Rnd 9: (sc 1, dec) x6 (12)\nRnd 10: dec x6 (6)\n")
    assert finding.message == "There is no Round 8: Rnds 4-7 are followed by Rnd 9."
    assert finding.row == "Rnd 9"


def test_several_numbers_left_out_are_told_together() -> None:
    [finding] = of_labels(f"{BALL}Rnd 11: (sc 1, dec) x6 (12)\nRnd 12: dec x6 (6)\n")
    assert (
        finding.message == "There are no Rounds 8 to 10: Rnds 4-7 are followed by Rnd 11."
    )


def test_a_number_told_of_two_rows_is_told_at_the_second() -> None:
    text = BALL.replace(
        "Rnds 4-7: 18 sc (18)", "Rnd 3: (sc 2, inc) x6 (24)\nRnd 4: 24 sc (24)"
    )
    [finding] = of_labels(text)
    assert finding.message == "There are two rows called Round 3."


@pytest.mark.parametrize(
    "rest",
    [
        "Rnd 8: (sc 1, dec) x6 (12)\n",
        "Rnds 8.-9. 18 sc (18)\nRnd 10: (sc 1, dec) x6 (12)\n",
        "Repeat the last round until the ball is as large as you like.\nRnd 20: 18 sc (18)\n",
        "Work 3 rounds even.\nRnd 11: 18 sc (18)\n",
        "Rnd 9: 18 sc (18)\nRnd 11: 18 sc (18)\nRnd 13: 18 sc (18)\n",
        "Rnds 8, 10 and 12: 18 sc (18)\nRnds 9, 11 and 13: 18 sc in BLO (18)\n",
        "\nEAR\nRnd 1: 6 sc in magic ring (6)\nRnd 2: 6 sc (6)\n",
    ],
)
def test_labels_with_a_reason_are_not_told(rest: str) -> None:
    assert of_labels(BALL + rest) == []


@pytest.mark.parametrize("label", ["R7.-R11.", "Rnd 7.-11.", "Rnds 7.-Rnd 11."])
def test_a_stop_behind_both_numbers_leaves_a_range(label: str) -> None:
    text = (
        "R1. 6 sc in magic ring (6)\nR2. 6 inc (12)\nR3. 12 sc (12)\nR4. 12 sc (12)\n"
        f"R5. 12 sc (12)\nR6. 12 sc (12)\n{label} 12 sc (12)\nR12. 6 dec (6)\n"
    )
    lines = check(Source(text)).lines
    assert sum(line.times for line in lines) == 12
