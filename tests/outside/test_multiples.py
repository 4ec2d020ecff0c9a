"""Chains that must be a multiple of m plus n: those that fit close, those beside them do not."""

import pytest
from working_texts import errors, made, told

ROWS = {
    # Arithmetic of a published statement: 5 and 1 is 11, 56 or 101, and not 12 or 30.
    # Source: stitchwhisperdesigns.com 2021/03, multiples.
    "5 + 1": (
        (
            "Sc in 2nd ch from hook, sc in next 3 ch, dc in next ch, *sc in next 4 ch, dc in "
            "next ch; rep from * across."
        ),
        [11, 56, 101],
        [12, 30],
    ),
    # Source: forum.knittinghelp.com, neat ripple questions: 14 k + 3 is 31, 255 and 283.
    "14 + 3": (
        (
            "Dc in 4th ch from hook, dc in next 4 ch, (dc2tog) twice, dc in next 4 ch, 2 dc in "
            "next ch, *2 dc in next ch, dc in next 4 ch, (dc2tog) twice, dc in next 4 ch, 2 dc in "
            "next ch; rep from * across."
        ),
        [31, 255, 283],
        [32, 30, 254, 284],
    ),
    # Source: oombawkadesigncrochet.com, using stitch multiples: 6 k + 2 near 70 is 68.
    "6 + 2": (
        (
            "Sc in 2nd ch from hook, *sk next 2 ch, 5 dc in next ch, sk next 2 ch, sc in next ch; "
            "rep from * across."
        ),
        [68],
        [67, 69, 70],
    ),
    # Source: theblogofteresa.com, blanket beginnings: 36 repeats of 4 k + 1 are 145 chains.
    # Here over all chains: the sc in the second chain and its skipped one are 1 of 4 and 1.
    "4 + 1": (
        (
            "Sc in 2nd ch from hook, sk next ch, dc in next ch, ch 1, sc in next ch, *sc in next "
            "ch, sk next ch, dc in next ch, ch 1, sc in next ch; rep from * across."
        ),
        [145, 9],
        [144, 146, 147],
    ),
    # Source: staceydaze.blogspot.com 2011: 15 k + 3 is 123 or 138.
    "15 + 3": (
        (
            "Sc in 2nd ch from hook, *sc in next 6 ch, 3 sc in next ch, sc in next 6 ch, sk next 2 "
            "ch; rep from * to last ch, sc in last ch."
        ),
        [123, 138],
        [122, 124, 137],
    ),
    # Source: crochetcabana.com, ripples, and the same 12 + 3 elsewhere: uses 12, makes 12.
    "12 + 3": (
        (
            "Dc in 4th ch from hook, dc in next 2 ch, (dc2tog) twice, dc in next 3 ch, 2 dc in "
            "each of next 2 ch, *dc in next 3 ch, (dc2tog) twice, dc in next 3 ch, 2 dc in each of "
            "next 2 ch; rep from * across."
        ),
        [15, 27, 135],
        [26, 28, 134],
    ),
}
"""A first row in words of our own, chains that fit it, and chains that do not."""

FITTING = [(row, chains) for row, fitting, _ in ROWS.values() for chains in fitting]
OTHERS = [(row, chains) for row, _, others in ROWS.values() for chains in others]


@pytest.mark.parametrize(("row", "chains"), FITTING)
def test_a_chain_of_the_multiple_closes(row: str, chains: int) -> None:
    assert errors(f"Ch {chains}.\n\nRow 1: {row} Turn.\n") == []


@pytest.mark.parametrize(("row", "chains"), OTHERS)
def test_a_chain_beside_the_multiple_is_told_once(row: str, chains: int) -> None:
    findings = told(f"Ch {chains}.\n\nRow 1: {row} Turn.\n")
    assert [row for _, row, _ in findings] == ["Row 1"]
    assert findings[0][0] in ("stitches-left", "past-the-end")


def test_dc_in_the_fourth_of_151_chains_and_across_makes_149() -> None:
    """Source: candejoscreations.blogspot.com 2009/08: the skipped chains are one dc."""
    text = (
        "Ch 3 counts as 1 dc.\n\nCh 151.\n\n"
        "Row 1: Dc in 4th ch from hook and in each ch across. Turn. (149 dc)\n"
    )
    assert made(text) == [151, 149]
    assert errors(text) == []


TILES = """\
Skua Tiles

US terms. Chain spaces are not counted as stitches. Ch 1 does not count as a stitch.

Ch 41.

Row 1: Sc in 2nd ch from hook, sc in next 5 ch, *ch 1, sk next ch, sc in next 8 ch; rep from *
2 more times, ch 1, sk next ch, sc in last 6 ch. Turn. (36 sc)

Row 2: Ch 1, sc in first 6 sts, *sc in next ch-1 sp, sc in next 8 sts; rep from * 2 more
times, sc in next ch-1 sp, sc in last 6 sts. Turn. (40 sc)

Row 3: Ch 1, sc in each st across. Turn. (40 sc)

Row 4: Ch 1, sc in first 2 sts, *ch 1, sk next st, sc in next 6 sts; rep from * 4 more times,
ch 1, sk next st, sc in last 2 sts. Turn. (34 sc)

Row 5: Ch 1, sc in each st and ch-1 sp across. Turn. (40 sc)

Row 6: Ch 1, sc in first 6 sts, *ch 1, sk next st, sc in next 8 sts; rep from * 2 more times,
ch 1, sk next st, sc in last 6 sts. Turn. (36 sc)

Rows 7-10: Rep Rows 2-5. (40 sc)

Rows 11-30: Rep Rows 3-10 twice, then Rows 3-6 once. ({} sc)
"""


def test_spaces_left_out_of_the_count_and_rows_again_by_eight() -> None:
    """Source: bizzycrochet.blogspot.com, two-colour tiles: 41 ch; rows of 36, 40, 40, 34 and
    40; rows 11 to 30 are rows 3 to 10 twice and rows 3 to 6 once, 20 rows."""
    stitches = made(TILES.format(36))
    assert stitches[:6] == [41, 36, 40, 40, 34, 40]
    assert stitches[-20:-12] == stitches[-12:-4] == stitches[3:11]
    assert stitches[-4:] == stitches[3:7] == [40, 34, 40, 36]
    assert errors(TILES.format(36)) == []


def test_a_wrong_count_after_rows_again_is_told_on_their_line() -> None:
    assert [(rule, row) for rule, row, _ in told(TILES.format(40))] == [
        ("stated-count", "Rows 11-30")
    ]


SETS = """\
Ch 13.

Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (12)

Row 2: Ch 1, 2 sc in first st, sc in each st across. Turn. (13)

Row 3: Ch 1, sc2tog, sc in each st across. Turn. (12)

Row 4: Ch 1, sc in each st across. Turn. (12)

Rows 5-25: Rep Rows 2-3{}.
"""


def test_row_20_is_row_3_where_rows_5_to_25_are_rows_2_and_3_again() -> None:
    """Source: recrochetions.com 2014/09, row counting by numbers: row 20 is row 3."""
    stitches = made(SETS.format(""))
    assert stitches[0] == 13
    assert stitches[20] == stitches[3] == 12
    assert stitches[19] == stitches[2] == 13
    assert len(stitches) == 1 + 25


def test_21_rows_are_not_ten_sets_of_two() -> None:
    """The same source: 21 rows are no whole number of sets of two."""
    assert [(rule, row) for rule, row, _ in told(SETS.format(" ten times"))] == [
        ("row-range", "Rows 5-25")
    ]


@pytest.mark.parametrize(
    ("times", "expected"), [(9, 7 + 9 * 7), (900_000_000, 7 + 900_000_000 * 7)]
)
def test_a_repeat_is_worked_any_number_of_times(times: int, expected: int) -> None:
    text = (
        f"Ch {expected + 1}.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn.\n\n"
        f"Row 2: Ch 1, *sc in next 5 sts, 2 sc in next st, sk next st; rep from * {times} more "
        f"times. Turn. ({expected} sc)\n"
    )
    assert made(text)[-1] == expected
    assert errors(text) == []


def test_a_repeat_of_seven_runs_over_groups_of_five() -> None:
    """Arithmetic: 35 stitches are seven groups of five and five groups of seven."""
    groups, times = 7 * 10**6, 5 * 10**6
    text = (
        f"Ch {groups * 5 + 1}.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn.\n\n"
        f"Row 2: Ch 1, *sc in next 4 sts, dc in next st; rep from * {groups - 1} more times. "
        "Turn.\n\n"
        f"Row 3: Ch 1, *sc in next 6 sts, hdc in next st; rep from * {times - 1} more times. "
        f"Turn. ({groups * 5} sts)\n"
    )
    assert made(text)[-1] == groups * 5
    assert errors(text) == []
