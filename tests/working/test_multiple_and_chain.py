"""A stated multiple against the chain that the first row is worked into.

Arithmetic: 32 chains give 31 sc; 31 = 4 x 7 + 3 = 5 x 6 + 1, and 32 = 4 x 7 + 4.
"""

import pytest
from working_texts import told

ROWS = "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (31 sc)\n"


@pytest.mark.parametrize(
    "words",
    [
        "Ch in a multiple of 4 + {} (mine is 32).",
        "Start with a chain in multiples of 4 plus {}. Ch 32.",
        "The starting chain must be a multiple of 4 + {}: ch 32.",
        "Foundation chain: a multiple of 4 + {}. Ch 32.",
        "You can have it wider with any multiple of 4 + {} chains. Ch 32.",
    ],
)
def test_a_multiple_said_to_be_of_chains_is_held_to_the_chain(words: str) -> None:
    assert told(f"US terms.\n\n{words.format(4)}\n{ROWS}") == []
    assert told(f"US terms.\n\n{words.format(3)}\n{ROWS}") == [
        (
            "multiple",
            None,
            "The multiple is given as 4 plus 3, but a chain of 32 is 8 times 4 plus 0.",
        )
    ]


@pytest.mark.parametrize(
    "words",
    [
        "Ch a multiple of 4 + 3, plus 1 to turn. Ch 32.",
        "Chain any multiple of 4 + 3 (add 1 for the turning chain). Ch 32.",
        "Multiple of 4 + 3 sts. Ch 32.",
        "Multiple of 5 + 1. Ch 32.",
    ],
)
def test_chains_to_turn_on_may_be_told_apart(words: str) -> None:
    assert told(f"US terms.\n\n{words}\n{ROWS}") == []


def test_a_chain_known_by_its_count_is_held_to_the_multiple() -> None:
    text = "US terms.\n\nChain a multiple of {} for the width you want.\n" + ROWS
    assert told(text.format("6 + 2")) == []
    assert [rule for rule, _, _ in told(text.format("6 + 3"))] == ["multiple"]


@pytest.mark.parametrize(
    "words",
    [
        "Worked over a multiple of {} sts; add 1 chain for the foundation. Ch 32.",
        "Multiple of {} stitches (add 1). Ch 32.",
        "Ch a multiple of {} chains. Ch 32.",
    ],
)
def test_a_multiple_may_have_nothing_beside_the_repeats(words: str) -> None:
    """31 is no number of times 16, with up to 4 chains more neither; 32 is twice 16."""
    assert told(f"US terms.\n\n{words.format(16)}\n{ROWS}") == []
    assert [rule for rule, _, _ in told(f"US terms.\n\n{words.format(15)}\n{ROWS}")] == (
        ["multiple"] if "Ch a" in words else []
    )
    assert [rule for rule, _, _ in told(f"US terms.\n\n{words.format(13)}\n{ROWS}")] == [
        "multiple"
    ]


def test_a_beginning_chain_is_no_foundation() -> None:
    text = (
        "US terms.\n\nMake a chain of any multiple of 4 ch plus 4 (32 for mine).\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, ch 3, turn. (31 sc)\n"
        "Row 2: Dc in next st and in each st across, turn. (31 dc)\n"
    )
    assert told(text) == []
