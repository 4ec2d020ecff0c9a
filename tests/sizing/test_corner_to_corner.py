"""A piece worked from corner to corner changes size by its rows of blocks."""

from __future__ import annotations

from pathlib import Path

import pytest
from working_texts import checked

from hookwright.sizing.made import SizeMade
from hookwright.sizing.multiples import multiples_of
from hookwright.sizing.sized import Sized, size_pattern
from hookwright.sizing.wishes import Request

MAT = (Path(__file__).parent.parent / "cases/flat-c/corner-coaster-blocks.txt").read_text()


def sized(
    text: str = MAT,
    *,
    gauge: str | None = None,
    width: str | None = None,
    height: str | None = None,
) -> Sized:
    """A text in a wanted size."""
    read = checked(text)
    return size_pattern(
        read, multiples_of(read), Request(width=width, height=height, gauge=gauge)
    )


def only(result: Sized) -> SizeMade:
    """The one size of the one part."""
    return result.parts[0].sizes[0]


@pytest.mark.parametrize(
    ("width", "height", "across", "rows"),
    [("10 in", "10 in", 10, 19), ("10 in", "14 in", 10, 23), ("14 in", "10 in", 14, 23)],
)
def test_blocks_by_blocks_take_a_row_less_than_both(
    width: str, height: str, across: int, rows: int
) -> None:
    """Arithmetic: diagonals of a board of m by n squares are m + n - 1."""
    made = only(sized(gauge="4 blocks and 4 rows = 4 in", width=width, height=height))
    assert made.nearest is not None
    assert (made.nearest.repeats, made.nearest.rows) == (across, rows)


def test_as_written_it_has_the_blocks_of_its_longest_row() -> None:
    now = sized().parts[0].now[0]
    assert (now.repeats, now.rows) == (6, 11)


def test_without_the_side_of_a_block_it_says_what_to_measure() -> None:
    result = sized(width="36 in")
    assert "blocks" in result.findings[0].why
    assert only(result).nearest is None


def test_the_printed_size_tells_the_side_of_a_block() -> None:
    text = MAT.replace("\n\n", "\n\nFinished size: 6 x 6 in.\n\n", 1)
    made = only(sized(text, width="12 in"))
    assert made.nearest is not None
    assert made.nearest.rows == 23


def test_less_than_a_block_cannot_be_made() -> None:
    result = sized(gauge="4 blocks and 4 rows = 8 in", width="1/2 in")
    assert "less than a block" in result.findings[0].message
