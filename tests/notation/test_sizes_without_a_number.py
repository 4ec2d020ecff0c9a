"""A dash stands for a size that has no number, in any brackets round the list."""

import pytest

from hookwright.notation import parse_text

TEXT = """US terms.
Sizes: S (M, L)

Ch 21 (25, 29).
Row 1: Sc in 2nd ch from hook and in each ch across. (20 (24, 28) sc)
Row 2 (M and L only): Ch 1, turn, sc in each st across. {count}
"""


@pytest.mark.parametrize(
    "count",
    ["[- (24, 28)]", "(- (24, 28))", "{- (24, 28)}", "(- (24, 28) sc)", "[-, 24, 28]"],
)
def test_the_first_size_has_none(count: str) -> None:
    row = parse_text(TEXT.replace("{count}", count)).pattern.parts[0].rows[-1]
    figures = [figure for claim in row.claims for figure in claim.figures]
    assert [figure.amount.values for figure in figures] == [(None, 24, 28)]
