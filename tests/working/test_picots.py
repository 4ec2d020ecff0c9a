"""A chain worked back into itself is a picot: it uses no place and leaves none."""

import pytest
from working_texts import checked, errors, made, numbers

RING = "Rnd 1: 12 sc in ring, join. (12)\n"


@pytest.mark.parametrize(
    "words",
    [
        "ch 3, sl st in 3rd ch from hook",
        "ch 3, sl st in 3rd ch from hook (picot)",
        "ch 3, sl st in 3rd ch from hook for a picot",
        "ch 3, sl st in last sc made (picot)",
        "ch 3, sl st in top of sc just made",
        "ch 3, sl st in first of these ch",
        "ch 3, sl st in same st (picot)",
        "ch 4, sc in 4th ch from hook",
        "ch 3, ss in top of last sc",
        "picot",
    ],
)
def test_a_picot_may_be_written_out(words: str) -> None:
    """Twelve stitches, a picot behind every third, and twelve again."""
    text = (
        f"{RING}Rnd 2: Ch 1, *sc in next 3 sc, {words}; rep from * around, join with sl st in "
        "first sc. (12 sc, 4 picots)\nRnd 3: Ch 1, sc in each sc around, join. (12)\n"
    )
    assert made(text) == [12, 12, 12]
    assert errors(text) == []


def test_a_wrong_number_of_picots_is_told() -> None:
    text = (
        f"{RING}Rnd 2: Ch 1, *sc in next 3 sc, ch 3, sl st in 3rd ch from hook; rep from * "
        "around, join. (12 sc, 6 picots)\n"
    )
    assert errors(text) == [("stated-count", "(12 sc, 6 picots)")]


def test_chains_beside_a_picot_are_one_space() -> None:
    text = (
        f"{RING}Rnd 2: Ch 1, *sc in next sc, ch 5, sl st in 3rd ch from hook, ch 2, sk 2 sc; rep "
        "from * around, join. (4 sc, 4 ch-4 sps)\n"
    )
    assert numbers(checked(text).lines[-1]) == (4, 12, 4)
    assert errors(text) == []


def test_a_picot_within_a_group_adds_no_stitch() -> None:
    text = (
        f"{RING}Rnd 2: Ch 1, *sc in next sc, sk 1, (2 dc, picot, 2 dc) in next sc, sk 1; rep "
        "from * around, join. (3 sc, 12 dc, 3 picots)\n"
    )
    assert made(text)[-1] == 15
    assert errors(text) == []


def test_a_leaf_worked_down_its_chain_is_no_picot() -> None:
    text = (
        "Ch 6.\nRow 1: Sc in 2nd ch from hook, sc in next 4 ch. (5)\n"
        "Row 2: Ch 4, sc in 2nd ch from hook, sc in next 2 ch, sc in next 5 sc. (8)\n"
    )
    assert made(text)[-1] == 8
