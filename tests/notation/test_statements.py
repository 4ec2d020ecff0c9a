"""Conventions told in a sentence, where one sentence says two things or speaks of another."""

import pytest

from hookwright.notation import read_pattern
from hookwright.notation.tree import Topic
from hookwright.source import Source


def chains_told(sentence: str) -> list[tuple[bool, int | None]]:
    """What a sentence says of beginning chains: whether they count, and of which length."""
    text = f"{sentence}\n\nCh 20.\n\nRow 1: Sc in 2nd ch from hook and in each ch across.\n"
    said = read_pattern(Source(text)).pattern.statements
    return [(s.holds, s.chains) for s in said if s.topic is Topic.TURNING_CHAIN]


@pytest.mark.parametrize(
    ("sentence", "told"),
    [
        ("The chain at the start of a row never counts as a stitch.", [(False, None)]),
        (
            (
                "The chain at the start of a row never counts as a stitch, and neither do the 2 "
                "chains skipped at the start of the throw."
            ),
            [(False, None)],
        ),
        # Of a chain and a stitch: nothing is said of the chain alone.
        ("The short chain and the first dc of a row stand together for a dc2tog.", []),
    ],
)
def test_a_sentence_is_taken_for_what_it_speaks_of(
    sentence: str, told: list[tuple[bool, int | None]]
) -> None:
    assert chains_told(sentence) == told


@pytest.mark.parametrize(
    "sentence",
    [
        "With Slate: ch 4, and, ch 3 counts as a dc.",
        "Ch 4 to begin with, and ch 3 counts as a dc.",
        "Ch 3, and,, and ch 2 counts as a hdc",
        "Ch 3 counts, and ch 2 counts, ch 1 never counts",
    ],
)
def test_a_sentence_of_chains_may_have_nothing_between_its_marks(sentence: str) -> None:
    assert all(holds in (True, False) for holds, _ in chains_told(sentence))


def test_a_chain_that_counts_or_not_is_not_the_chain_of_the_piece() -> None:
    row = "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20)\n"
    told = read_pattern(Source(f"Ch 1 does not count as a stitch.\n\n{row}")).pattern
    assert told.foundation_hint is None
    made = read_pattern(Source(f"I chained 21. Ch 1 does not count.\n\n{row}")).pattern
    assert made.foundation_hint is not None
    assert made.foundation_hint.at(0) == 21


@pytest.mark.parametrize(
    ("said", "terms"),
    [
        ("Abbreviations (U.S. terms)", "US"),
        ("(U.K.)", "UK"),
        ("All terms are US.", "US"),
        ("The terms are British.", "UK"),
    ],
)
def test_terms_are_told_with_stops_and_by_a_verb(said: str, terms: str) -> None:
    pattern = read_pattern(Source(f"{said}\n\nRnd 1: 6 dc in ring. (6)\n")).pattern
    assert (pattern.terms, pattern.terms_said) == (terms, True)


@pytest.mark.parametrize(
    "said", ["Let us u. s", "Write to us.", "Stitches told by us: all"]
)
def test_us_may_be_ourselves(said: str) -> None:
    assert not read_pattern(
        Source(f"{said}\n\nRnd 1: 6 dc in ring. (6)\n")
    ).pattern.terms_said
