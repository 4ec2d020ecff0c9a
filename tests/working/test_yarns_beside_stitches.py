"""Colours named beside their stitches, as in tapestry rows: on which stitches they lie."""

from __future__ import annotations

import pytest
from working_texts import errors

from hookwright.answer import answer
from hookwright.checking import check
from hookwright.source import Source

TEXT = """Ink Diamond Mat

US terms. A = Ink, B = Butter. Ch 1 does not count as a stitch.

With A, ch 16.
Row 1: With A, sc in 2nd ch from hook and in each ch across. (15 sc)
Row 2: Ch 1, {words}. ({count})
"""


@pytest.mark.parametrize(
    ("words", "colours"),
    [
        ("A sc 6, B sc 3, A sc 6", [["A", 12], ["B", 3]]),
        ("A 6 sc, B 3 sc, A 6 sc", [["A", 12], ["B", 3]]),
        ("6 sc A, 3 sc B, 6 sc A", [["A", 12], ["B", 3]]),
        ("sc 6 in A, sc 3 in B, sc 6 in A", [["A", 12], ["B", 3]]),
        ("6 A, 3 B, 6 A", [["A", 12], ["B", 3]]),
        ("sc in next 6 sts with A, sc in next 3 sts with B, sc in last 6 sts with A",
         [["A", 12], ["B", 3]]),
        ("(B sc 1, A sc 4) 3 times", [["B", 3], ["A", 12]]),
        ("with B, sc in each st across", [["B", 15]]),
    ],
)  # fmt: skip
def test_a_yarn_lies_on_the_stitches_it_is_told_of(
    words: str, colours: list[list[object]]
) -> None:
    text = TEXT.format(words=words, count=15)
    assert errors(text) == []
    row = answer(check(Source(text)))["rows"][-1]
    assert [list(pair) for pair in row["colours"]] == colours
    wrong = TEXT.format(words=words, count=16)
    assert errors(wrong) == [("stated-count", "(16)")]


def test_an_article_is_no_yarn() -> None:
    text = TEXT.format(words="a sc in each st to the end, in A", count=15)
    assert errors(text) == []
