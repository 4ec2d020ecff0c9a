"""Stitches in each place, up to a place that the words name. Arithmetic by hand."""

import pytest
from working_texts import LACE_OF_FIVES, errors, flat, last_row, made


@pytest.mark.parametrize(
    ("row", "makes", "used"),
    [
        # Ten of twelve are doubled: 10 * 2 + 2.
        ("2 sc in each st except the last 2, sc in last 2 sts", 22, 12),
        ("2 sc in each st except the last 2 sts, sc in last 2 sts", 22, 12),
        # The others are left on purpose.
        ("sc in each st across leaving the last 2 sts unworked", 10, 10),
        # Five pairs are drawn together, two stitches stay.
        ("sc2tog across to last 2 sts, sc in last 2 sts", 7, 12),
        ("sc in each st to tch", 12, 12),
        ("sc in next 0 sts, sc in next 12 sts", 12, 12),
    ],
)
def test_each_stops_where_the_words_say(row: str, makes: int, used: int) -> None:
    numbers = last_row(flat(12, f"Row 2: Ch 1, {row}. Turn. ({makes})"))
    assert (numbers.made, numbers.used) == (makes, used)


def test_each_runs_up_to_the_turning_chain() -> None:
    """Eleven dc and a chain that counts are twelve, row after row."""
    row = "Ch 3, dc in each st to tch, dc in top of tch. Turn. (12)"
    text = flat(12, "Row 2: Ch 3, dc in next 11 sts. Turn. (12)", f"Row 3: {row}")
    assert last_row(text)[:2] == (12, 12)


def test_each_runs_up_to_the_middle_of_a_shell() -> None:
    """Before the middle dc of the first shell lie 1 sc and 2 dc; 15 of 19 lie behind it."""
    text = (
        f"{LACE_OF_FIVES}\nRow 2: Ch 1, sc in each st to centre dc of next shell, 3 sc in "
        "next st, sc in next 15 sts. Turn. (21)\n"
    )
    assert last_row(text)[:2] == (3 + 3 + 15, 19)


def test_a_kind_that_is_not_there_takes_no_places() -> None:
    """Six sc and six spaces: there is no dc, and two go in each space."""
    mesh = "Row 2: Ch 1, *sc in next st, ch 1, sk next st; rep from * across. Turn. (6 sc)"
    text = flat(
        12, mesh, "Row 3: Ch 1, 1 sc in each dc and 2 sc in each ch-1 sp. Turn. (12)"
    )
    assert last_row(text).made == 12


def test_several_kinds_are_taken_as_they_come() -> None:
    """Six sc, one in each, and six spaces, two in each."""
    mesh = "Row 2: Ch 1, *sc in next st, ch 1, sk next st; rep from * across. Turn. (6 sc)"
    text = flat(
        12, mesh, "Row 3: Ch 1, 1 sc in each sc and 2 sc in each ch-1 sp. Turn. (18)"
    )
    assert last_row(text)[:2] == (18, 6)


def test_a_list_goes_in_each_of_so_many_places() -> None:
    row = "Row 2: Ch 1, (sc, dc) in each of next 10 sts, sc in last 2 sts. Turn. (22)"
    assert last_row(flat(12, row))[:2] == (22, 12)


SHAWL = """\
US terms. Ch 4 at the start of a row always counts as a dc and a ch 1.

Ch 4, join with a sl st to form a ring.
Row 1: Ch 4, (3 dc, ch 2, 3 dc) in ring, ch 1, dc in ring. (8 dc)
Row 2: Ch 4, turn, 3 dc in first ch-1 sp, ch 1, (3 dc, ch 2, 3 dc) in center ch-2 sp, ch 1,
3 dc in last sp, ch 1, dc in 3rd ch of beg ch-4. (14 dc)
"""


@pytest.mark.parametrize(
    "words",
    [
        "sc in each dc and in each ch-1 sp, working 3 sc in the center ch-2 sp, last sc in 3rd ch",
        "sc in each dc and ch-1 sp, 3 sc in the middle sp, putting the last sc in 3rd ch",
        "sc in each st and each ch-1 sp, 3 sc in center ch-2 sp, ending in 3rd ch of beg ch-4",
        "sc in each dc and each ch-1 sp across, placing 3 sc in the ch-2 sp at the point",
        "sc in each dc and each ch-1 sp across, but work 3 sc in ch-2 sp at center",
    ],
)
def test_more_in_the_centre_than_in_each(words: str) -> None:
    # 14 dc, 4 ch-1 spaces and 3 in the centre; then 2 more in the middle of 21
    rows = (
        f"{SHAWL}Row 3: Ch 1, turn, {words}. ({{}} sc)\n"
        "Row 4: Ch 1, turn, sc in each sc across, working 3 sc in center sc. (23 sc)\n"
    )
    assert errors(rows.format(21)) == []
    assert made(rows.format(21))[-1] == 23
    assert [rule for rule, _ in errors(rows.format(20))] == ["stated-count"]
