"""One text, several sizes: numbers, rows and counts that only some sizes have."""

import pytest
from working_texts import checked, errors, last_row, made, numbers

CHAINS = "Sizes: S (M).\n\nCh 11 (13).\n\n"


def test_a_size_without_a_printed_count_is_worked_all_the_same() -> None:
    text = f"{CHAINS}Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (10 (-))\n"
    line = checked(text).lines[-1]
    assert (line.stitches, line.stated) == ((10, 12), (10, None))
    assert errors(text) == []


def test_a_row_number_may_differ_by_size() -> None:
    """Two or four plain rows, then one stitch fewer."""
    text = (
        f"{CHAINS}Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (10 (12))\n\n"
        "Rows 2-3 (2-5): Ch 1, sc in each st across. Turn. (10 (12))\n\n"
        "Row 4 (6): Ch 1, sc2tog, sc in each st across. Turn. (9 (11))\n"
    )
    line = checked(text).lines[-1]
    assert (line.first, line.stitches) == ((4, 6), (9, 11))
    assert errors(text) == []


def test_rows_under_the_name_of_a_size_are_for_that_size() -> None:
    text = (
        "Sizes: Small (Large)\n\nCh 11 (13).\n\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (10 (12))\n\n"
        "Size Small only:\n\n"
        "Row 2: Ch 1, sc in each st across. Turn. (10)\n\n"
        "Row 3: Ch 1, sc2tog, sc in each st across. Turn. (9)\n\n"
        "Size Large only:\n\n"
        "Row 2: Ch 1, sc2tog, sc in each st across. Turn. (11)\n"
    )
    assert [n for n in made(text) if n is not None] == [11, 10, 10, 9]
    assert [n for n in made(text, 1) if n is not None] == [13, 12, 11]
    assert errors(text) == []


def test_a_number_of_rows_is_not_a_count_of_stitches() -> None:
    text = (
        "Ch 13.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn.\n\n"
        "Row 2: Ch 1, sc in next 12 sts. Turn. (2 rows in all)\n"
    )
    assert last_row(text).made == 12
    assert checked(text).lines[-1].stated == (None,)
    assert numbers(checked(text).lines[-1]).used == 12


@pytest.mark.parametrize("told", ["Sizes S - M - L", "Size: small - medium - large"])
def test_sizes_may_be_told_with_dashes(told: str) -> None:
    text = (
        f"{told}\n\nCh 20 - 24 - 28, join.\n"
        "Rnd 1: Ch 1, sc in each ch around, join. 20 - 24 - 28 sc.\n"
        "Rnd 2: Ch 1, *sc in 2 sts, sc2tog* all around, join. 15 - 18 - 21 sc.\n"
    )
    assert checked(text).lines[-1].stitches == (15, 18, 21)
    assert errors(text) == []


def test_a_dash_stands_for_a_size_that_has_no_such_row() -> None:
    """6, 8 and 10 begin; the two larger sizes are doubled, the largest grows by half."""
    text = (
        "Sizes Baby (Child, Adult)\n\nRnd 1: 6 (8, 10) sc in ring. 6 (8, 10) sc\n"
        "Sizes Child and Adult only:\nRnd 2: 2 sc in each st. - (16, 20) sc\n"
        "For size Adult only, go on as follows:\nRnd 3: [sc, inc] around. - (-, 30) sc\n"
        "All sizes:\nRnd 4: Sc in each st around. 6 (16, 30) sc\n"
    )
    assert checked(text).lines[-1].stitches == (6, 16, 30)
    assert errors(text) == []


def test_a_list_with_a_number_too_few_is_told_at_its_place() -> None:
    text = (
        "Sizes: S (M, L, XL)\n\nCh 20 (24, 28, 32), join.\n"
        "Rnd 1: Ch 1, sc in each ch around, join. 20 (24, 28) sc.\n"
    )
    assert errors(text) == [("size-list", "20 (24, 28)")]


@pytest.mark.parametrize(
    ("ages", "only", "all_"),
    [
        ("For ages 2 (4-6-8)", "Ages 4, 6 and 8 only:", "All ages:"),
        ("Ages: 2 (4, 6, 8) years", "For ages 4, 6 and 8 only:", "Every age:"),
        ("To fit age 2 (4, 6, 8)", "Ages 4, 6 and 8:", "All sizes:"),
    ],
)
def test_sizes_may_be_ages(ages: str, only: str, all_: str) -> None:
    text = (
        f"{ages}\n\nRnd 1: 6 sc in magic ring.\n\nRnd 2: 2 sc in each st around. 12 sc.\n\n"
        f"{only} Rnd 3: *Sc in next st, 2 sc in next st; rep from * around. 18 sc.\n\n"
        f"{all_} Next rnd: Sc in each st around. 12 (18, 18, 18) sc.\n"
    )
    assert checked(text).lines[-1].stitches == (12, 18, 18, 18)
    assert errors(text) == []
    assert errors(text.replace("(18, 18, ", "(18, 20, ")) == [
        ("stated-count", "12 (18, 20, 18) sc")
    ]


CROWN = (
    "Sizes: Baby (Child, Adult S)\n\nCROWN\n\n"
    "Rnd 1: 6 sc in magic ring, sl st in first sc. (6 sc)\n\n"
    "Rnd 2: Ch 1, 2 sc in each st around, join.{} (12 sc)\n\n{}"
    "Rnd 3: Ch 1, *sc in next st, 2 sc in next st; rep from * around, join. (18 sc)\n\n{}"
    "Rnd 4: Ch 1, *sc in next 2 sts, 2 sc in next st; rep from * around, join. (24 sc)\n\n"
    "BODY\n\nNext rnd: Ch 1, sc in each st around, join. [12 (18, 24) sc]\n"
)


@pytest.mark.parametrize(
    ("first", "second"),
    [
        ("*Baby only: go on to Body.*", "*Child only: go on to Body.*"),
        ("Size Baby: skip to Body.", "Size Child: skip to Body."),
        ("Go on to the body for size Baby.", "Go on to the body for size Child."),
        ("Baby size is finished here.", "Child size is finished here."),
        (
            "Stop here for Baby; the other sizes go on with Rnd 3.",
            "For Child, move on to Body now. Adult S only works Rnd 4.",
        ),
        (
            "If you are making the Baby size, proceed to Body. All other sizes continue.",
            "If you are making the Child size, proceed to Body.",
        ),
    ],
)
def test_sizes_leave_the_rows_of_a_part_on_the_way(first: str, second: str) -> None:
    text = CROWN.format("", f"{first}\n\n", f"{second}\n\n")
    assert [n for n in made(text) if n is not None] == [6, 12, 12]
    assert [n for n in made(text, 1) if n is not None] == [6, 12, 18, 18]
    assert [n for n in made(text, 2) if n is not None] == [6, 12, 18, 24, 24]
    assert errors(text) == []


def test_sizes_leave_at_the_end_of_a_row() -> None:
    text = CROWN.format(" Baby only: go on to Body.", "", "Child only: go on to Body.\n\n")
    assert [n for n in made(text) if n is not None] == [6, 12, 12]
    assert errors(text) == []


def test_sizes_that_leave_come_back_at_a_row() -> None:
    text = (
        "Sizes: S (M)\n\nRnd 1: 6 sc in ring, join. (6)\n\n"
        "Size S: go on to Rnd 3.\n\n"
        "Rnd 2: 2 sc in each st around, join. (12)\n\n"
        "Rnd 3: Ch 1, sc in each st around, join. (6 (12))\n"
    )
    assert [n for n in made(text) if n is not None] == [6, 6]
    assert [n for n in made(text, 1) if n is not None] == [6, 12, 12]
    assert errors(text) == []


def test_sizes_that_leave_come_back_where_all_are_told() -> None:
    text = (
        "Sizes: S (M)\n\nRnd 1: 6 sc in ring, join. (6)\n\n"
        "Size S: go on to the edge.\n\n"
        "Rnd 2: 2 sc in each st around, join. (12)\n\n"
        "All sizes: Rnd 3: Ch 1, sc in each st around, join. (6 (12))\n\n"
        "Edge rnd: Ch 1, sc in each st around, join. (6 (12))\n"
    )
    assert [n for n in made(text) if n is not None] == [6, 6, 6]
    assert [n for n in made(text, 1) if n is not None] == [6, 12, 12, 12]
    assert errors(text) == []


def test_rounds_from_the_start_are_no_stitches() -> None:
    text = (
        "Sizes: S (M)\n\nTOP\n\nRnd 1: 6 sc in ring, join. (6)\n\n"
        "Rnd 2: 2 sc in each st around, join. (12)\n\nSIDES\n\n"
        "Next rnd: Ch 1, sc in each st around, join. (12)\n\n"
        "Rep the last rnd 4 (6) more times. You have worked 7 (9) rnds from the start.\n"
    )
    assert errors(text) == []
    assert errors(text.replace("7 (9)", "7 (8)")) != []
