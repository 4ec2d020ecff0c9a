"""The smallest repair in one place: told where it is the only one, and not guessed else."""

import pytest
from working_texts import checked, flat, is_error


def repair(text: str) -> str:
    """What is said to do about the one thing that is wrong in a text."""
    found = [finding for finding in checked(text).findings if is_error(finding)]
    assert len(found) == 1, [finding.message for finding in found]
    return found[0].why


def mended(text: str) -> str:
    """A text with the change made that its one finding offers."""
    found = [finding for finding in checked(text).findings if is_error(finding)]
    assert len(found) == 1, [finding.message for finding in found]
    edit = found[0].edit
    assert edit is not None
    return text[: edit.span.start] + edit.replacement + text[edit.span.end :]


BALL = """Ball in a spiral, US terms.

Rnd 1: 6 sc in a magic ring. (6)
Rnd 2: Inc in each st around. (12)
Rnd 3: (Sc in next st, inc) 6 times. (18)
Rnd 4: {} ({})
Rnd 5: Sc in each st around. ({})
"""

ARCHES = """US terms.

Ch 23.

Row 1: Sc in 2nd ch from hook, *ch 3, sk 3 ch, sc in next ch; rep from * across, turn.
Row 2: Ch 1, sc in first sc, *3 sc in ch-3 sp, sc in next sc; rep from * across.
"""

PUT_RIGHT = {
    "a repeat too often": (
        BALL.format("(Sc in next 2 sts, inc) 7 times.", 24, 24),
        'With "6 times" (not 7) the row comes out even: 24.',
    ),
    "a repeat too seldom": (
        BALL.format("*Sc in next 2 sts, inc; rep from * 4 more times.", 24, 24),
        'With "5 more times" (not 4) the row comes out even: 24.',
    ),
    "a word for the number": (
        BALL.format("*Sc in next 2 sts, inc; rep from * twice more.", 24, 24),
        'With "5 times more" (not twice) the row comes out even: 24.',
    ),
    "stitches past the end": (
        flat(20, "Row 2: Ch 1, 2 sc in first st, sc in next 20 sts, turn. (21)"),
        'With "sc in next 19 sts" (not 20) the row comes out even: 21.',
    ),
    "a count that the next row closes over": (
        flat(
            12,
            "Row 2: Ch 1, (sc in next st, 2 sc in next st) 6 times, turn. (24)",
            "Row 3: Ch 1, (sc in next 2 sts, sk next st, 2 sc in next st) 6 times. (24)",
        ),
        'With "3 sc in next st" (not 2) it makes 24, as Row 3 needs.',
    ),
    "the chain below": (
        ARCHES,
        'With "Ch 22" (not 23) every row comes out even.',
    ),
}


@pytest.mark.parametrize(("text", "told"), PUT_RIGHT.values(), ids=PUT_RIGHT)
def test_the_one_number_is_told(text: str, told: str) -> None:
    assert repair(text) == told
    assert len(told) <= 90, "never longer than a line"


@pytest.mark.parametrize("text", [text for text, _ in PUT_RIGHT.values()], ids=PUT_RIGHT)
def test_the_change_puts_the_text_right(text: str) -> None:
    assert [f.message for f in checked(mended(text)).findings if is_error(f)] == []


def test_one_size_is_put_right_by_its_own_number() -> None:
    text = (
        "US terms. Sizes S (M, L).\n\nCh 21 (25, 29).\n\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20 (24, 28) sc)\n"
        "Row 2: Ch 1, sc in next 20 (22, 28) sts, turn. (20 (24, 28) sc)\n"
    )
    assert repair(text).startswith('With "sc in next 20 (24, 28) sts" (not 22) the row')
    assert [f.message for f in checked(mended(text)).findings if is_error(f)] == []


def test_two_numbers_that_would_do_are_not_told() -> None:
    row = "Row 2: Ch 1, sc in next 9 sts, 2 sc in next st, sc in next 9 sts. (21)"
    text = f"Ch 1 does not count.\n\n{flat(20, row)}"
    assert repair(text) == "Look at the last repeat and what comes after it."


@pytest.mark.parametrize(("after", "is_told"), [(24, True), (20, False)])
def test_a_number_is_told_only_if_later_rows_agree(after: int, *, is_told: bool) -> None:
    text = BALL.format("(Sc in next 2 sts, inc) 5 times.", 24, after)
    first = checked(text.replace(" (24)\nRnd 5", "\nRnd 5")).findings[0]
    assert ('"6 times"' in first.why) == is_told


def test_a_printed_count_that_nothing_else_denies_is_put_right_itself() -> None:
    text = BALL.format("(Sc in next 2 sts, inc) 6 times.", 25, 24)
    assert repair(text) == "Correct the count, or look at the repeat before it."
    assert "(24)\nRnd 5" in mended(text)


def test_a_stated_multiple_is_put_right() -> None:
    text = (
        "US terms.\nCh a multiple of 4 plus 3.\n\nCh 22.\n\n"
        "Row 1: Sc in 2nd ch from hook, *ch 3, sk 3 ch, sc in next ch; rep from * across.\n"
    )
    assert repair(text) == 'With "4 plus 2" (not 3) it agrees, if it is one of chains.'
    assert "multiple of 4 plus 2." in mended(text)


NO_SUCH_ROW = flat(
    20,
    "Row 2: Ch 1, 2 sc in first st, sc in each st across, turn. (21)",
    "Row 3: Rep Row 12, turn. ({})",
    "Row 4: Ch 1, sc in each st across.",
)


def test_the_row_that_is_meant_is_told_where_the_counts_bear_it_out() -> None:
    text = NO_SUCH_ROW.format(22)
    assert repair(text) == 'With "Rep Row 2" (not 12) the counts agree.'
    assert [f.message for f in checked(mended(text)).findings if is_error(f)] == []


def test_a_row_that_is_meant_is_not_guessed() -> None:
    assert repair(NO_SUCH_ROW.format(30)) == "Check the row number."
    assert repair(NO_SUCH_ROW.replace(" ({})", "")) == "Check the row number."


def test_a_text_full_of_mistakes_is_not_searched() -> None:
    rows = [
        f"Row {n}: Ch 1, sc in first st, (sc in next {n} sts, sk next st, inc) {n} times."
        for n in range(2, 20)
    ]
    whys = {f.why for f in checked(flat(20, *rows)).findings if is_error(f)}
    assert not any("comes out" in why for why in whys)
