"""A left-handed copy mirrors sides, and never a face, an order or a count."""

from __future__ import annotations

from pathlib import Path

import pytest

from hookwright.checking import check
from hookwright.source import Source
from hookwright.wording import Asked, write_pattern
from hookwright.wording.mirrored import mirrored

LIST = Path(__file__).with_name("left-handed.txt")
PHRASES = [
    tuple(line.split(" | "))
    for line in LIST.read_text("utf-8").splitlines()
    if line and not line.startswith("#")
]


@pytest.mark.parametrize(("said", "told"), PHRASES)
def test_a_phrase_is_told_as_the_list_says(said: str, told: str) -> None:
    assert mirrored(said) == told


def test_clockwise_has_its_own_opposite_in_each_country() -> None:
    assert mirrored("Clockwise.", "UK") == "Anticlockwise."
    assert mirrored("clockwise", "US") == "counterclockwise"
    assert mirrored("anti-clockwise", "UK") == "clockwise"


def test_a_left_handed_copy_says_so_and_keeps_its_rows() -> None:
    text = (
        "# Mat\n\n## Notes\n\nWritten in US terms.\n\nCh 1 does not count as a st.\n\n"
        "## Mat\n\nWith A, ch 11.\n\nRow 1 (RS): Sc in 2nd ch from hook and in each ch. "
        "(10 sc)\n\n## Edging\n\nBegin at the top right corner.\n"
    )
    found = write_pattern(check(Source(text)), Asked(left_handed=True))
    assert "For left-handed makers" in found.text
    assert "top left corner" in found.text
    assert "Row 1 (RS): Sc in 2nd ch from hook and in each ch. (10 sc)" in found.text
    assert found.differs is None
