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


STRIPES = """Eider Blanket

US terms. A = Ink, B = Butter, C = Moss. Ch 1 does not count as a stitch.
{}
With A, ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20)
{}
"""


def yarns_by_row(text: str) -> dict[int, str]:
    """The yarn of every row that is worked in one."""
    return {
        number: row["colours"][0][0]
        for row in answer(check(Source(text)))["rows"]
        if row["first"] is not None
        for number in range(row["first"], row["last"] + 1)
    }


@pytest.mark.parametrize(
    "table",
    [
        "\n| Rows | Colour |\n|---|---|\n| 1-2 | A |\n| 3 | B |\n| 4-6 | C |\n",
        "\nRows\tYarn\n1-2\tA\n3\tB\n4-6\tC\n",
        "\nColour order\n\nRows 1-2: A\nRow 3: B\nRows 4-6: C\n",
    ],
)
def test_a_table_of_stripes_tells_the_yarn_of_its_rows(table: str) -> None:
    text = STRIPES.format(table, "Rows 2-6: Ch 1, sc in each st across, turn. (20)")
    assert "".join(yarns_by_row(text).values()) == "AABCCC"
    own = STRIPES.format(table, "Rows 2-6: With B, ch 1, sc in each st across. (20)")
    assert "".join(yarns_by_row(own).values()) == "ABBBBB"


SET = """Row 2: With B, ch 1, sc in each st across, turn. (20)
Row 3: Ch 1, sc in each st across, turn. (20)
Row 4: With A, ch 1, sc in each st across, turn. (20)
"""


@pytest.mark.parametrize(
    ("again", "yarns"),
    [
        ("Rows 5-10: Rep Rows 2-4. (20)", "BBABBA"),
        ("Rows 5-8: Rep Rows 1-4. (20)", "ABBA"),
        ("Rows 5-8: With C, rep Row 3. (20)", "CCCC"),
        ("Rows 5-6: Rep Row 3. (20)", "AA"),
    ],
)
def test_rows_worked_again_keep_their_changes_of_yarn(again: str, yarns: str) -> None:
    found = yarns_by_row(STRIPES.format("", SET + again))
    assert "".join(found[number] for number in sorted(found) if number > 4) == yarns
