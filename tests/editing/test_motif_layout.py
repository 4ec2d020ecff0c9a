"""Motifs, the number of them, their layout and the finished size."""

import pytest

from hookwright.checking import check
from hookwright.source import Source


def told(
    size: str = "45 cm x 60 cm", make: str = "12", joined: str = "4 rows of 3"
) -> list[str]:
    text = (
        f"US terms. htr is not used; half double crochet (hdc) is.\n\nFinished size: {size}\n"
        f"Each square: 15 cm x 15 cm\n\nSquare (make {make})\n"
        f"Rnd 1: 6 sc in a magic ring. (6)\n\nMaking up\nJoin the squares in {joined}.\n"
    )
    found = check(Source(text)).findings
    return [finding.message for finding in found if finding.rule == "measure"]


@pytest.mark.parametrize("joined", ["4 rows of 3", "four rows of three", "3 rows of 4"])
@pytest.mark.parametrize("make", ["12", "24"])
def test_motifs_that_fit_their_layout_are_right(joined: str, make: str) -> None:
    assert told(make=make, joined=joined) == []


def test_too_few_motifs_are_told_once() -> None:
    assert told(make="10") == ["4 rows of 3 are 12 motifs but 10 are made."]
    assert told(make="20") == [
        "4 rows of 3 are 12 motifs, or 24 for two sides, but 20 are made."
    ]


def test_motifs_of_each_of_several_are_not_all() -> None:
    assert told(make="4 in each of 3 colors") == []


def test_a_size_that_the_squares_do_not_come_to_is_told() -> None:
    assert told("45 cm x 75 cm") == ["4 squares of 15 cm are 60 cm, but 75 cm is printed."]


def test_a_border_may_widen_the_squares_and_never_narrow_them() -> None:
    bordered = "4 rows of 3. Work 2 rounds of sc around the whole piece"
    assert told("55 cm x 70 cm", joined=bordered) == []
    assert len(told("45 cm x 50 cm", joined=bordered)) == 1


def test_buttons_in_rows_are_no_motifs() -> None:
    assert told(make="4", joined="a ring. Sew on the buttons in 2 rows of 3") == []
