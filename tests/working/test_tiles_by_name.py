"""Blocks from corner to corner under a name of the writer's own, counted as she counts.

Arithmetic: a row that grows has one tile more, a row that shrinks one fewer.
"""

import pytest
from working_texts import checked, errors

ROWS = """\
US terms.

SPECIAL STITCHES
{0}

ROW 1: Ch 6, dc in 4th ch from hook and in each of next 2 ch. (1 {1})
ROW 2: {2}, {1} in ch-3 sp of Row 1. (2 {1}s)
ROW 3: {2}, [{1} in next ch-3 sp] twice. (3 {1}s)
ROW 4: {2}, {1} in each of next 2 ch-3 sps, sl st in last ch-3 sp. ({3} {1}s)
ROW 5: Turn, sl st in each of next 3 dc, {1} in each of next 3 ch-3 sps. (3 {1}s)
ROW 6: Turn, sl st in each of next 3 dc, {1} in each ch-3 sp to last ch-3 sp, sl st in last ch-3
sp. (2 {1}s)
ROW 7: Rep Row 6. (1 {1})
"""
BEGUN = "ch 6, turn, dc in 4th ch from hook and in each of next 2 ch."
WORKED = "(sl st, ch 3, 3 dc) in ch-3 sp."


@pytest.mark.parametrize(
    ("told", "name", "first"),
    [
        (f"Beginning tile (beg tile): {BEGUN}\nTile: {WORKED}", "tile", "Beg tile"),
        (f"Beginning tile: {BEGUN}\nTile: {WORKED}", "tile", "Beg tile"),
        (f"Starting brick (SB): {BEGUN}\nBrick: {WORKED}", "brick", "SB"),
        (f"Beg scale: {BEGUN}\nScale: {WORKED}", "scale", "Beginning scale"),
    ],
)
def test_tiles_by_any_name(told: str, name: str, first: str) -> None:
    assert errors(ROWS.format(told, name, first, 3)) == []
    wrong = errors(ROWS.format(told, name, first, 4))
    assert [rule for rule, _ in wrong] == ["stated-count"]


def test_a_beginning_stitch_that_is_like_the_others_is_one_of_them() -> None:
    text = (
        "US terms.\nCl: dc3tog in one place.\nBeg cl: the same with ch 3 for the first dc.\n\n"
        "Rnd 1: Ch 4, join to form a ring, 8 sc in ring, join. (8 sc)\n"
        "Rnd 2: Beg cl in first sc, ch 2, (cl in next sc, ch 2) 7 times, join. ({} cl)\n"
    )
    assert errors(text.format(8)) == []
    assert [rule for rule, _ in errors(text.format(9))] == ["stated-count"]


def test_a_row_of_tiles_uses_the_tiles_below() -> None:
    """The chains of a new tile are no places of the row below, and a slip stitch uses one."""
    told = f"Beg tile: {BEGUN}\nTile: {WORKED}"
    lines = checked(ROWS.format(told, "tile", "Beg tile", 3)).lines
    assert [line.uses[0] for line in lines] == [6, 1, 2, 3, 3, 3, 2]
