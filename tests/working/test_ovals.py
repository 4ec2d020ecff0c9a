"""Ovals: a round along both sides of a chain."""

import pytest
from working_texts import checked, errors, made


@pytest.mark.parametrize(
    "turn",
    [
        "turn the work round (not over), sc in next 7 ch on the other side",
        "rotate, sc in next 7 ch along the other side of the ch",
        "turn work upside down, sc in next 7 ch",
    ],
)
def test_an_oval_goes_along_both_sides_of_its_chain(turn: str) -> None:
    """Nine chains: 1 + 7 + 3 above, 7 + 2 below; three more at either end."""
    text = (
        f"Ch 10.\nR1: Sc in 2nd ch from hook, sc in next 7 ch, 3 sc in last ch, {turn}, 2 sc in "
        "last ch. (20)\nR2: 2 sc in 1st st, sc in next 7, 2 sc in each of next 3, sc in next 7, "
        "2 sc in each of last 2. (26)\n"
    )
    assert made(text) == [10, 20, 26]
    assert errors(text) == []


def test_a_number_that_runs_into_the_last_chain_is_one_too_many() -> None:
    text = (
        "Ch 10.\nR1: Sc in 2nd ch from hook, sc in next 8 ch, 3 sc in last ch, rotate, sc in next "
        "7 ch, 2 sc in last ch. (20)\n"
    )
    assert [rule for rule, _ in errors(text)] == ["past-the-end"]
    found = checked(f"US terms.\n\n{text}").findings
    assert "1 too few" in found[0].message


SAME_CHAIN = (
    "Ch {chain}.\nR1: 2 sc in 2nd ch from hook, sc in next 9 ch, 4 sc in last ch, rotate to work "
    "in free loops along other side of foundation ch, sc in next 9 ch, 2 sc in same ch as first "
    "sc. (26)\n"
)


def test_the_last_stitches_may_stand_under_the_first_chain() -> None:
    """Eleven chains: 2 + 9 + 4 above, 9 below, and 2 under the first: 26."""
    assert errors(SAME_CHAIN.format(chain=12)) == []


@pytest.mark.parametrize("chain", [11, 13, 14])
def test_a_chain_too_many_or_too_few_is_told(chain: int) -> None:
    """ "Free loops" and "other side" say where the round goes, not that chains are left."""
    assert errors(SAME_CHAIN.format(chain=chain)) != []
