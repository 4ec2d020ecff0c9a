"""Which terms a pattern is in, and what a chain stands for, by its own words."""

import pytest
from working_texts import checked, last_row

ROWS = (
    "Ch 13.\n\nRow 1: {0} in 3rd ch from hook and in each ch across. Turn. (12)\n\n"
    "Row 2: Ch 2, {0} in next 11 sts. Turn. (12)\n"
)


@pytest.mark.parametrize(
    ("sentence", "stitch"),
    [
        ("Turning ch 2 counts as half double crochet.", "hdc"),
        ("Turning ch 2 counts as half treble throughout.", "htr"),
    ],
)
def test_a_chain_of_two_counts_where_the_text_says_so(sentence: str, stitch: str) -> None:
    """Thirteen chains: two are the first stitch, eleven hold one each."""
    assert last_row(f"{sentence}\n\n{ROWS.format(stitch)}")[:2] == (12, 12)


def test_a_pattern_with_a_tension_is_in_uk_terms() -> None:
    """Common practice, no source: tension is the UK word for gauge."""
    text = (
        "Tension: 16 dc to 10 cm.\n\nCh 13.\n\n"
        "Row 1: Dc in 2nd ch from hook and in each ch across. Turn. (12)\n"
    )
    assert checked(text).terms == "UK"
    assert last_row(text)[:2] == (12, 13)


@pytest.mark.parametrize(
    "sentence",
    ["Terms: UK", "Terms - UK", "Terminology: UK", "Crochet terms: UK, 4 mm hook"],
)
def test_terms_may_stand_behind_their_name(sentence: str) -> None:
    text = f"{sentence}\n\n" + ROWS.format("Dc")
    assert checked(text).reading.pattern.terms_said
    assert checked(text).terms == "UK"
