"""Which names of sizes are read from a line that lists them."""

from __future__ import annotations

import pytest
from working_texts import checked

ROWS = """
Ch 21 (31).
Row 1: Sc in 2nd ch from hook and in each ch across. (20 (30) sc)
"""


@pytest.mark.parametrize(
    ("line", "names"),
    [
        ("Sizes: Adult scarf (Stole).", ("Adult scarf", "Stole")),
        ("Sizes: Lap (Bed)", ("Lap", "Bed")),
        ("## Sizes\n\nLap (Bed)", ("Lap", "Bed")),
        ("Sizes: 60x70in (80x90in).", ("60x70in", "80x90in")),
        ("Sizes: Small (Large).", ("Small", "Large")),
    ],
)
def test_a_line_of_sizes_counts_whatever_the_names(
    line: str, names: tuple[str, ...]
) -> None:
    text = f"# Dunlin Strip\n\n{line}\n\n## Size\n\nAbout 13 (48) cm wide.\n{ROWS}"
    assert checked(text).sizes == names


@pytest.mark.parametrize(
    "line",
    [
        "Sizes: 13 cm (5 in).",
        "Sizes: one size (adjustable).",
        "Sizes: about a hand wide (more if you like).",
        "Sizes: Lap (Bed, Stole).",
    ],
)
def test_a_length_or_a_remark_is_no_list_of_sizes(line: str) -> None:
    """None has as many names as the text's lists have numbers, or names at all."""
    assert checked(f"# Dunlin Strip\n\n{line}\n{ROWS}").sizes == ()
