"""A border that tells all edges of a flat piece in one phrase is not proven, nor accused."""

import pytest

from hookwright.checking import check
from hookwright.source import Source

_CLOTH = (
    "US terms.\n\nCh 41.\nRow 1: Sc in 2nd ch from hook and in each ch across, turn. (40 sc)\n"
    "Rows 2-45: Ch 1, sc in each st across, turn. (40 sc)\n"
)


@pytest.mark.parametrize(
    "edging",
    [
        "Edging: Ch 1, sc in each st and in each row-end, with 3 sc in each corner, join. (178 sc)",
        "Border: Ch 1, sc in each st and row end around, 3 sc in each corner, join. (178 sc)",
        (
            "Edging: Ch 1, 1 sc in each st and 1 sc in the end of each row around, 3 sc in each "
            "corner, sl st in first sc. (178 sc)"
        ),
        "Edging: Ch 1, sc in each row end and in each st around, 3 sc in each corner, join. (178 sc)",
        (
            "Rnd 1: Ch 1, sc in each st and each row end around, 3 sc in each corner, join. (178 sc)\n"
            "Rnd 2: Ch 1, sc in each sc around, 3 sc in center sc of each corner, join. (186 sc)"
        ),
    ],
)
def test_it_is_not_accused_nor_proven(edging: str) -> None:
    found = check(Source(_CLOTH + edging + "\n", "p.md"))
    assert [f.message for f in found.findings if f.severity != "advice"] == []
    assert any(outcome.is_open for outcome in found.worked.sizes[0].outcomes)


@pytest.mark.parametrize(
    "edging",
    [
        (
            "Edging: Ch 1, sc in each st across, 3 sc in corner, sc in each row end down the side, "
            "3 sc in corner, sc in each ch along foundation, 3 sc in corner, sc in each row end up "
            "the side, 2 sc in first corner, join. (170 sc)"
        ),
        "Row 46: Ch 1, sc in each st across, turn. (41 sc)",
    ],
)
def test_one_that_tells_its_edges_in_turn_is(edging: str) -> None:
    found = check(Source(_CLOTH + edging + "\n", "p.md"))
    assert [f.rule for f in found.findings if f.severity == "error"] == ["stated-count"]
