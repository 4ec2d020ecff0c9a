"""Rows that change a count which the pattern says stays the same."""

import pytest
from working_texts import checked, errors, flat, told

STAYS = "The stitch count stays the same in every row.\n\n"
WAVE = "Row 2: Ch 1, *2 sc in next st, sc in next 3 sts, {}; rep from * across. Turn.{}"


def wave(end: str, count: str = "") -> str:
    """A row of waves over 18 sc; a wave is told with its end."""
    return STAYS + flat(18, WAVE.format(end, count))


def test_a_repeat_with_more_increases_than_decreases_is_told() -> None:
    ((rule, row, message),) = told(wave("sc in next 2 sts"))
    assert (rule, row) == ("balance", "Row 2")
    assert "makes 21" in message
    assert "makes 18" in message


@pytest.mark.parametrize(
    "text",
    [
        wave("sc2tog"),
        wave("sc in next 2 sts").removeprefix(STAYS),
        # A printed count is judged for itself.
        wave("sc in next 2 sts", " (21)"),
        # Of some rows only, or of another thing: not read.
        wave("sc in next 2 sts").replace("in every row", "in each row from Row 4"),
        wave("sc in next 2 sts").replace("stitch count", "stitch pattern"),
        # Chain spaces may be counted: nine sc and nine spaces are eighteen.
        STAYS
        + flat(18, "Row 2: Ch 1, *sc in next st, ch 1, sk next st; rep from * across."),
        # A border begins a part of its own.
        STAYS + flat(18) + "\nEdging\n\nRow 1: Ch 1, 3 sc in each st across. Fasten off.\n",
    ],
)
def test_what_is_not_contradicted_is_not_told(text: str) -> None:
    assert errors(text) == []


def test_a_row_that_does_not_close_is_told_for_that_alone() -> None:
    text = wave("sc2tog").replace("next 3 sts", "next 4 sts")
    assert [rule for rule, *_ in told(text)] == ["stitches-left"]


def test_it_is_told_of_the_one_size_that_drifts() -> None:
    text = (
        "Sizes S (M, L)\n\n" + STAYS + "Ch 13 (17, 21).\n\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. Turn. 12 (16, 20) sc.\n\n"
        "Row 2: Ch 1, sc in each st across. Turn.\n\n"
        "Row 3: Ch 1, 2 sc in each of next 1 (2, 1) sts, sc2tog, sc in each rem st. Turn.\n"
    )
    ((rule, row, _),) = told(text)
    assert (rule, row) == ("balance", "Row 3")
    found = [f for f in checked(text).findings if f.rule == "balance"]
    assert found[0].sizes == ("M",)
