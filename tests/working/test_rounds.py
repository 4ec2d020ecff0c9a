"""Rounds: where they begin and end, corners, stitches spread evenly, sizes."""

import pytest

from hookwright.checking import check
from hookwright.finding import Severity
from hookwright.source import Source

RING = "US terms. Ch 3 counts as a dc.\n\nCh 4, join with sl st to form a ring.\n\n"
ROUND_1 = (
    "Rnd 1: Ch 3, 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * 2 more times; join with "
    "sl st in top of ch-3.\n\n"
)


def last(text: str) -> tuple[object, object]:
    line = check(Source(text, "pattern.txt")).lines[-1]
    return line.stitches[0], line.spaces[0]


def errors(text: str) -> list[str]:
    found = check(Source(text, "pattern.txt")).findings
    return [finding.rule for finding in found if finding.severity is Severity.ERROR]


def test_stitches_slipped_over_at_the_start_are_worked_at_the_end() -> None:
    text = (
        f"{RING}{ROUND_1}Rnd 2: Sl st in next 2 dc and in ch-2 sp, ch 3, (dc, ch 2, 2 dc) in same "
        "sp, dc in next 3 dc, *(2 dc, ch 2, 2 dc) in next ch-2 sp, dc in next 3 dc; rep from * 2 "
        "more times; join with sl st in top of ch-3. (28 dc, 4 ch-2 sps)\n"
    )
    assert last(text) == (28, 4)
    assert errors(text) == []


def test_a_side_goes_up_to_the_next_corner() -> None:
    text = (
        f"{RING}{ROUND_1}Rnd 2: Sl st in next 2 dc and in ch-2 sp, ch 3, (dc, ch 2, 2 dc) in same "
        "sp, *dc in each dc to next corner,** (2 dc, ch 2, 2 dc) in corner ch-2 sp; rep from * "
        "around, ending last rep at **; join with sl st in top of ch-3. (28 dc)\n"
    )
    assert last(text) == (28, 4)
    assert errors(text) == []


def test_groups_in_every_corner_stand_among_single_stitches() -> None:
    text = (
        f"{RING}{ROUND_1}Rnd 2: Ch 1, sc in each dc around and (sc, ch 2, sc) in each ch-2 sp, "
        "join with sl st in first sc. (20 sc, 4 ch-2 sps)\n"
    )
    assert last(text) == (20, 4)
    assert errors(text) == []


@pytest.mark.parametrize(
    ("words", "expected"),
    [
        ("sc around, increasing 4 sts evenly", 20),
        ("sc around, decreasing 4 sts evenly", 12),
        ("increase 20 sts evenly spaced around", 36),
        ("24 sc evenly around", 24),
        ("sc around, increasing 0 sts evenly", 16),
    ],
)
def test_a_change_is_spread_evenly(words: str, expected: int) -> None:
    text = f"Do not join.\n\nRnd 1: 16 sc in magic ring. (16)\n\nRnd 2: {words}. ({expected})\n"
    assert last(text)[0] == expected
    assert errors(text) == []


def test_times_may_stand_before_what_is_repeated() -> None:
    text = (
        "Do not join.\n\nRnd 1: 6 sc in magic ring. (6)\n\nRnd 2: 6x inc. (12)\n\n"
        "Rnd 3: 6x (1 sc, inc). (18)\n"
    )
    assert last(text)[0] == 18
    assert errors(text) == []


def test_lines_without_labels_are_rounds() -> None:
    text = (
        "Tern coaster\n\n6 sc in magic ring (6)\n2 sc in each st around (12)\n"
        "*sc in next st, 2 sc in next st* around (18)\n"
    )
    lines = check(Source(text, "pattern.txt")).lines
    assert [line.stitches[0] for line in lines] == [6, 12, 18]


def test_sizes_may_be_joined_by_dashes_or_named_behind_a_label() -> None:
    text = (
        "US terms. Sizes 2-4-6 years. Do not turn.\n\nCh 60-64-68, join, do not twist.\n\n"
        "Rnd 1: Ch 1, sc in each ch around, join. 60-64-68 sc.\n"
    )
    assert check(Source(text, "pattern.txt")).lines[-1].stitches == (60, 64, 68)
    named = (
        "US terms. Sizes: S (M). Work in a spiral.\n\nRnd 1: 6 sc in a magic ring. (6)\n\n"
        "Rnd 2, size M only: 2 sc in each st around. (12)\n\n"
        "All sizes: Rnd 3: sc in each st around. 6 (12) sts.\n"
    )
    assert check(Source(named, "pattern.txt")).lines[-1].stitches == (6, 12)


def test_two_chains_are_told_in_one_sentence() -> None:
    text = (
        "US terms. Ch 3 counts as a dc, ch 4 as a dc and ch 1.\n\nCh 4, join with sl st to form a "
        "ring.\n\nRnd 1: Ch 4, *dc in ring, ch 1; rep from * 10 more times; join with sl st in "
        "3rd ch of ch-4. (12 dc, 12 ch-1 sps)\n"
    )
    assert last(text) == (12, 12)
    assert errors(text) == []


def test_a_border_goes_round_row_ends_and_foundation() -> None:
    text = (
        "US terms. Ch 1 does not count.\n\nCh 11.\n\nRow 1: Sc in 2nd ch from hook and in each ch "
        "across. Turn. (10 sc)\n\nRows 2-8: Ch 1, sc in each st across. Turn. (10 sc)\n\n"
        "Row 9: Ch 1, sc in each st across. Do not turn. (10 sc)\n\n"
        "Rnd 1: Ch 1, sc in the end of each row, ch 2, sc in each foundation ch, ch 2, sc in each "
        "row end, ch 2, sc in each of the 10 sts of Row 9, ch 2; join with sl st in first sc. "
        "(38 sc, 4 ch-2 sps)\n"
    )
    assert last(text) == (38, 4)
    assert errors(text) == []


def test_a_round_that_is_recalled_by_its_number_is_not_the_word_around() -> None:
    text = (
        "US terms. Ch 1 does not count. Do not turn.\n\nRound 1: 6 sc in magic ring, join. (6)\n\n"
        "Round 2: Ch 1, 2 sc in each st around, join. (12)\n\n"
        "Round 3: Rep Round 2. (24)\n\nRound 4: Ch 1, sc in each st around, join. (24)\n"
    )
    assert [line.stitches[0] for line in check(Source(text, "pattern.txt")).lines] == [
        6, 12, 24, 24,
    ]  # fmt: skip
    assert errors(text) == []


@pytest.mark.parametrize(
    "words",
    [
        "Sl st in next st, ch 1, sc in each st around, join. (12)",
        "Sl st in next st, ch 1, sc in same st, sc in each st around, join. (12)",
        "Sl st in next st, ch 1, sc in next 11 sts, sc in last st, join. (12)",
        "Sl st in next 2 sts, ch 3 (counts as dc), dc in each st around, join. (12)",
        "Sl st in next st, ch 1, (2 sc in next st, sc in next 5 sts) twice, join. (14)",
    ],
)
def test_a_place_slipped_into_is_worked_once_at_either_end(words: str) -> None:
    assert errors(f"Rnd 1: 12 sc in ring, join. (12)\nRnd 2: {words}\n") == []


@pytest.mark.parametrize(
    "words",
    [
        "sl st in the gap between ch-3 and next dc, ch 3, dc in same gap, 2 dc in each gap around",
        "sl st in first sp between sts, ch 3, dc in same sp, 2 dc in each sp between sts around",
        "sl st between ch 3 and next dc, ch 3, dc in same sp, 2 dc between each dc around",
        "sl st in next gap, ch 3, dc in same gap, *2 dc in next gap; rep from * around",
    ],
)
def test_a_round_has_as_many_gaps_as_posts(words: str) -> None:
    text = (
        "US terms. Ch 3 counts as a dc.\n\nRnd 1: Magic ring, ch 3, 11 dc in ring, join with sl st "
        f"in top of ch-3. (12)\n\nRnd 2: {words}, join with sl st in top of ch-3. (24)\n"
    )
    assert last(text)[0] == 24
    assert errors(text) == []


@pytest.mark.parametrize(
    "words",
    [
        "ch 5 (counts as dc and ch 2), sk 2, dc in next, *ch 2, sk 2, dc in next* around, ch 2",
        "ch 5 (counts as dc and ch 2), *sk 2 sts, dc in next st, ch 2; rep from * around",
        "ch 5 (counts as dc and ch 2), sk 2 sts, *dc in next st, ch 2, sk 2 sts; rep from * around",
    ],
)
def test_the_last_chain_of_a_round_passes_what_every_other_does(words: str) -> None:
    """Eight times 3 stitches, a dc and a space each."""
    text = f"Rnd 1: 24 dc in ring, join. (24)\nRnd 2: {words}, join. (8 dc, 8 ch-2 sps)\n"
    assert last(text) == (8, 8)
    assert errors(text) == []


def test_a_custom_told_beside_the_ring_is_not_worked() -> None:
    text = (
        "Ch 4, sl st in first ch to make a ring. Ch 3 at the beginning of a round is the first "
        "dc.\nRnd 1: Ch 3, 11 dc in ring, join. 12 dc\n"
    )
    lines = check(Source(text, "pattern.txt")).lines
    assert [line.stitches[0] for line in lines] == [4, 12]
