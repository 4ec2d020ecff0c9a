"""Counts that are known without this program, from the trade and from plain arithmetic."""

import pytest

from hookwright.checking import Checked, check
from hookwright.finding import Severity
from hookwright.source import Source
from hookwright.working.printed_lines import Line


def worked(text: str) -> Checked:
    return check(Source(text, "pattern.txt"))


def made(text: str) -> list[int]:
    lines = [line for line in worked(text).lines if line.printed]
    return [number(line) for line in lines]


def number(line: Line) -> int:
    (stitches,) = line.stitches
    assert isinstance(stitches, int)
    return stitches


def errors(text: str) -> list[str]:
    return [f.rule for f in worked(text).findings if f.severity is Severity.ERROR]


WAVE = """\
Tern Wave

US terms. Ch 3 counts as a dc.

With Slate, ch 178.

Row 1: Dc in 3rd ch from hook, dc in next 6 ch, 3 dc in next ch, dc in next 6 ch, *dc3tog
over next 3 ch, dc in next 6 ch, 3 dc in next ch, dc in next 6 ch; rep from * to last 2 ch,
dc2tog over last 2 ch. Turn. (177 dc)

Rows 2-40: Ch 2, sk first st, dc in blo of next st, dc in blo of next 6 sts, 3 dc in blo of
next st, dc in blo of next 6 sts, *dc3tog in blo over next 3 sts, dc in blo of next 6 sts, 3 dc
in blo of next st, dc in blo of next 6 sts; rep from * to last 2 sts, dc2tog in blo over last
2 sts. Turn. (177 dc)

Row 41: Ch 1, sc in each st across. Fasten off. (177 sc)

Foundation edging

Row 1: Join with sl st in first ch of the foundation, ch 1, sc in each ch along the underside
of the foundation chain. Fasten off.
"""


def test_a_wave_of_sixteen_over_178_chains_stays_at_177() -> None:
    """Common practice, no source: eleven waves of 16, first and last stitch a half valley."""
    checked = worked(WAVE)
    rows = [number(line) for line in checked.lines if line.printed.startswith("Row")]
    assert rows[:3] == [177, 177, 177]
    assert not [f for f in checked.findings if f.severity is Severity.ERROR]


def test_a_straight_edging_fits_the_underside_of_a_wave() -> None:
    last = worked(WAVE).lines[-1]
    assert number(last) in (176, 177, 178)
    assert last.uses == last.below


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
    assert not errors(text)


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
    assert not errors(text)


@pytest.mark.parametrize(
    ("first", "stitch", "begin"),
    [(6, "sc", ""), (8, "hdc", "Ch 1. "), (12, "dc", "Ch 1. ")],
)
def test_flat_circles_grow_by_what_they_begin_with(
    first: int, stitch: str, begin: str
) -> None:
    """Common practice: a flat circle of sc begins with 6, of hdc with 8, of dc with 12.

    The growth is geometry: a ring one stitch height wider is 2 pi heights longer.
    """
    text = (
        "Work in a spiral; do not join.\n\n"
        f"Rnd 1: {begin}{first} {stitch} in magic ring. ({first})\n\n"
        f"Rnd 2: 2 {stitch} in each st around. ({2 * first})\n\n"
        f"Rnd 3: *{stitch} in next st, 2 {stitch} in next st; rep from * around. ({3 * first})\n\n"
        f"Rnd 4: *{stitch} in next 2 sts, 2 {stitch} in next st; rep from * around. "
        f"({4 * first})\n"
    )
    assert made(text) == [first, 2 * first, 3 * first, 4 * first]
    assert not errors(text)


def test_a_solid_square_grows_by_sixteen() -> None:
    """Arithmetic: four corners of (2 dc, ch 2, 2 dc) add 16 to a side-by-side round of dc."""
    corner = "(2 dc, ch 2, 2 dc) in next ch-2 sp"
    text = (
        "Ch 3 counts as a dc. Do not turn.\n\nCh 4; join with sl st to form a ring.\n\n"
        "Rnd 1: Ch 3, 2 dc in ring, ch 2, *3 dc in ring, ch 2; rep from * 2 more times; join "
        "with sl st in top of beg ch-3. (12 dc, 4 ch-2 sps)\n\n"
        f"Rnd 2: Ch 3, dc in next 2 sts, {corner}, *dc in next 3 sts, {corner}; rep from * 2 "
        "more times; join with sl st in top of beg ch-3. (28 dc)\n\n"
        f"Rnd 3: Ch 3, dc in next 4 sts, {corner}, *dc in next 7 sts, {corner}; rep from * 2 "
        "more times, dc in last 2 sts; join with sl st in top of beg ch-3. (44 dc)\n\n"
        f"Rnd 4: Ch 3, dc in next 6 sts, {corner}, *dc in next 11 sts, {corner}; rep from * 2 "
        "more times, dc in last 4 sts; join with sl st in top of beg ch-3. (60 dc)\n"
    )
    assert made(text)[-4:] == [12, 28, 44, 60]
    assert not errors(text)


def test_doubling_each_round_is_hyperbolic() -> None:
    """Mathematics of the hyperbolic plane (Henderson and Taimina, 2001): constant ratio."""
    rounds = "\n\n".join(
        f"Rnd {n}: 2 sc in each st around. ({6 * 2 ** (n - 1)})" for n in range(2, 6)
    )
    assert made(f"Do not join.\n\nRnd 1: 6 sc in magic ring. (6)\n\n{rounds}\n") == [
        6, 12, 24, 48, 96,
    ]  # fmt: skip


def test_five_stitches_in_four_turn_twenty_into_25() -> None:
    """The same source: at a ratio of 5 to 4, 20 become 25."""
    text = (
        "Ch 21.\n\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn. (20)\n\n"
        "Row 2: Ch 1, *sc in next 3 sts, 2 sc in next st; rep from * across. Turn. (25)\n"
    )
    assert made(text)[-2:] == [20, 25]
    assert not errors(text)
