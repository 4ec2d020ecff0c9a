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
