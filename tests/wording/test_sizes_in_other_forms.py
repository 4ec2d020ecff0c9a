"""A pattern for one of its sizes, however it tells them; and what reads alike in both terms."""

from __future__ import annotations

import pytest

from hookwright.checking import Checked, check
from hookwright.source import Source
from hookwright.wording import Asked, Form, write_pattern

ROWS = """
US terms.

Ch 11 (13, 15).
Row 1: Sc in 2nd ch from hook and in each ch across. [10 (12, 14)]
Row 2: Ch 1, turn, sc in each st across. 10 (12, 14) sc
Next 2 (4, 6) rows: Ch 1, turn, sc in each st across. (10 (12, 14) sc)
"""
TOLD = [
    ("Sizes: S (M, L)", "Size: M"),
    ("To fit chest S[M:L]. Larger sizes stand in brackets.", "To fit chest M. Larger"),
    (
        "Directions are for size Small. Changes for Medium and Large are in parentheses.",
        "Directions are for size Medium.",
    ),
    ("Tern Socks - 3 months (6 months, 12 months)", "Tern Socks - 6 months"),
]


def pattern(head: str, rows: str = ROWS) -> Checked:
    return check(Source(f"{head}\n{rows}"))


@pytest.mark.parametrize(("head", "told"), TOLD)
def test_one_size_is_told_by_its_name_and_has_its_numbers(head: str, told: str) -> None:
    checked = pattern(head)
    assert len(checked.sizes) == 3
    worded = write_pattern(checked, Asked(size=1))
    assert worded.differs is None
    assert worded.checked.sizes == ()
    assert worded.text.startswith(told)
    assert "Next 4 rows" in worded.text
    assert "[12]" in worded.text


def test_a_size_from_one_number_to_another_is_no_list_of_sizes() -> None:
    rows = ROWS.replace("(13, 15)", "(13)").replace("(12, 14)", "(12)")
    checked = pattern("Size: 0-3 months (3-6 months).", rows.replace("(4, 6)", "(4)"))
    worded = write_pattern(checked, Asked(size=0))
    assert worded.differs is None
    assert worded.text.startswith("Size: 0 to 3 months.")


@pytest.mark.parametrize("form", list(Form))
def test_a_form_keeps_the_sizes(form: Form) -> None:
    rows = ROWS.replace("(13, 15)", "(13)").replace("(12, 14)", "(12)")
    checked = pattern("Size: 0-3 months (3-6 months).", rows.replace("(4, 6)", "(4)"))
    assert write_pattern(checked, Asked(form=form)).differs is None


A_ROW = "Ch 8.\nRow 1: Sc in 2nd ch from hook and in each ch across. (7 sc)\nRow 2: "
ALIKE = [
    # A V-stitch that nothing defines is of trebles in UK terms. Common practice, no source.
    "Ch 1, turn, sc in first st, sk 2 sts, V-st in next st, sk 2 sts, sc in last st.",
    # A long single crochet is a long double crochet in UK terms, which a US maker would
    # take for a taller stitch: it is called a spike there.
    "Ch 1, turn, long sc in first st, sc in next 5 sts, long sc in last st. (7 sts)",
    # A slip into the other terms is the same stitch in both.
    "Ch 2, turn, htr in each st across. (7 hdc)",
]


@pytest.mark.parametrize("text", ALIKE)
def test_uk_words_make_the_same_fabric(text: str) -> None:
    assert (
        write_pattern(check(Source(A_ROW + text), "US"), Asked(terms="UK")).differs is None
    )


def test_sizes_under_one_label_each_have_it() -> None:
    text = (
        "Hat, child (adult)\n\nUS terms. Ch 2 does not count as a stitch. Join every round.\n"
        "Rnd 1: 8 (8) hdc in a magic loop.\n"
        "Rnd 2: Ch 2, 2 hdc in each st. 16 (16)\n"
        "Rnd 3: Child: ch 2, hdc in each st. 16. Adult: ch 2, [hdc 1, inc] around. 24\n"
    )
    checked = check(Source(text))
    for size, says in enumerate(
        ("Rnd 3: ch 2, hdc in each st. 16", "Rnd 3: ch 2, [hdc 1, inc]")
    ):
        worded = write_pattern(checked, Asked(size=size))
        assert says in worded.text
        assert worded.differs is None


def test_a_list_without_a_number_for_a_size_stays_as_she_wrote_it() -> None:
    text = (
        "Vest\n\nSizes 2-4-6 years.\nCh 44-50-56.\n"
        "Row 1: Sc in 2nd ch from hook and in next 42-48 ch, turn. 43-49-55 sc.\n"
    )
    worded = write_pattern(check(Source(text), "US"), Asked(size=2))
    assert "in next 42-48 ch" in worded.text
    assert "next 0 ch" not in worded.text


@pytest.mark.parametrize("form", [Form.LONG, Form.SPOKEN])
def test_a_stitch_of_her_own_is_told_in_every_form(form: Form) -> None:
    text = (
        "Chick\n\nUS terms.\nAbbreviations: MR = magic ring; sc = single crochet; "
        "inc = 2 sc in the same stitch.\nWorked in a continuous spiral.\n\n"
        "Rnd 1: MR, 6 sc (6)\nRnd 2: inc x 6 (12)\n"
    )
    worded = write_pattern(check(Source(text)), Asked(form=form))
    assert worded.differs is None


def test_a_label_that_states_a_convention_keeps_it_over_words_in_full() -> None:
    text = (
        "Mat\n\nUS terms.\nCh 11.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. Ch 1, turn. (10 sc)\n"
        "Row 2 (in BLO, except at the edges): Sc in next 10 sc. Ch 1, turn. (10 sc)\n"
    )
    worded = write_pattern(check(Source(text)), Asked(form=Form.SPOKEN))
    assert worded.differs is None
    assert "single crochet in next 10 single crochet" in worded.text.lower()
