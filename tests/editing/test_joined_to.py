"""Rounds joined to the chain they begin with, or to one that was not made."""

import pytest

from hookwright.checking import check
from hookwright.source import Source

RING = "Ch 5, join with sl st to form a ring.\n"


def told(rounds: str) -> list[str]:
    found = check(Source(RING + rounds)).findings
    return [finding.message for finding in found if finding.rule == "missing-target"]


@pytest.mark.parametrize(
    ("join", "chain"),
    [
        ("join with sl st to 4th ch of ch-8", "a chain of 8"),
        ("sl st in 3rd ch of beg ch-5", "a chain of 5"),
        ("join to top of ch-8", "a chain of 8"),
    ],
)
def test_a_join_to_another_chain_is_told(join: str, chain: str) -> None:
    text = f"Rnd 1: Ch 7 (counts as tr, ch 3), *tr in ring, ch 3; rep from * 6 more times, {join}."
    assert told(text) == [f"Rnd 1 begins with a chain of 7, but is joined to {chain}."]


@pytest.mark.parametrize(
    "round_",
    [
        "Rnd 1: Ch 7 (counts as tr, ch 3), (tr in ring, ch 3) 6 times, join to 4th ch of ch-7.",
        "Rnd 1: Ch 3, 11 dc in ring, join to top of ch-3.",
        "Rnd 1: Ch 3, 11 dc in ring, sl st in 3rd ch of beg ch.",
        "Rnd 1: Ch 5 (counts as dc, ch 2), (dc in ring, ch 2) 7 times, join to top of ch-3.",
        "Rnd 1: Ch 1, 12 sc in ring, join to first sc.",
    ],
)
def test_a_join_to_the_chain_that_was_made_is_not_told(round_: str) -> None:
    assert told(round_) == []
