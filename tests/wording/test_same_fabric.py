"""Whatever words a pattern is put in, reading them gives the same fabric."""

from __future__ import annotations

from functools import cache
from pathlib import Path

import pytest

from hookwright.checking import Checked, check
from hookwright.reading import read_draft
from hookwright.shelf.facts import Fabric
from hookwright.shelf.starter import starter
from hookwright.shelf.stock import fabrics
from hookwright.source import Source
from hookwright.wording import Asked, Form, Worded, write_pattern
from hookwright.wording.asked import HouseStyle
from hookwright.wording.same_fabric import Difference, differing_row

ROOT = Path(__file__).parents[2]
EXAMPLES = [
    path
    for path in sorted((ROOT / "examples").glob("*.md"))
    if path.name != "README.md" and not path.stem.endswith("-slip")
]
CASES = sorted((ROOT / "tests" / "cases").glob("*/*.txt"))
WORDINGS = {
    "in UK terms": Asked(terms="UK"),
    "in full": Asked(form=Form.LONG),
    "in full, UK": Asked(terms="UK", form=Form.LONG),
    "an action a line": Asked(one_a_line=True),
    "to be heard": Asked(form=Form.SPOKEN),
    "to be heard, UK": Asked(terms="UK", form=Form.SPOKEN),
    "left-handed": Asked(left_handed=True),
    "in brackets": Asked(style=HouseStyle(repeats="brackets", counts="dash")),
}


@cache
def example(path: Path) -> Checked:
    return check(read_draft(path))


def worded(checked: Checked, asked: Asked) -> Worded:
    """A wording; what is heard is of one size."""
    several = asked.form is Form.SPOKEN and len(checked.sizes) > 1
    one = Asked(asked.terms, asked.form, 1) if several else asked
    return write_pattern(checked, one)


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
@pytest.mark.parametrize("wording", WORDINGS)
def test_an_example_in_other_words_is_the_same_fabric(path: Path, wording: str) -> None:
    found = worded(example(path), WORDINGS[wording])
    assert found.differs is None
    assert [kept for kept in found.kept if kept.row] == []


def in_turn(number: int) -> Asked:
    """One wording after another, so that a sample has all of them."""
    return list(WORDINGS.values())[number % len(WORDINGS)]


SHELF = [
    pytest.param(number, fabric, id=fabric.name)
    for number, fabric in enumerate(fabrics()[::3])
]
SAMPLE = [
    pytest.param(number, path, id=f"{path.parent.name}/{path.stem}")
    for number, path in enumerate(CASES[3::14])
]


@pytest.mark.parametrize(("number", "fabric"), SHELF)
def test_a_fabric_of_the_shelf_in_other_words_is_the_same(
    number: int, fabric: Fabric
) -> None:
    checked = check(Source(starter(fabric)))
    assert worded(checked, in_turn(number)).differs is None


@pytest.mark.parametrize(("number", "path"), SAMPLE)
def test_a_case_in_other_words_is_the_same_fabric(number: int, path: Path) -> None:
    checked = check(read_draft(path))
    assert worded(checked, in_turn(number)).differs is None


@pytest.mark.parametrize("name", ["petrel-cap", "skerry-yoke-tee"])
def test_each_size_by_itself_is_that_size_of_the_pattern(name: str) -> None:
    checked = example(ROOT / "examples" / f"{name}.md")
    for size in range(len(checked.sizes)):
        found = write_pattern(checked, Asked(size=size))
        assert found.differs is None
        assert found.checked.sizes == ()
        assert (
            "("
            not in found.text.partition("To fit")[2].partition("\n")[0].partition("with")[0]
        )


def test_two_fabrics_that_differ_are_told_apart() -> None:
    rows = "Ch 11.\nRow 1: Sc in 2nd ch from hook and in each ch. (10)\nRow 2: {}\n"
    one, other = (
        check(Source("Written in US terms.\n\n" + rows.format(words)))
        for words in ("Ch 1, sc in each st.", "Ch 1, sc in back loop only of each st.")
    )
    assert differing_row(one, one, None) is None
    assert differing_row(one, other, None) == Difference("Row 2", 2)


def test_a_row_that_would_read_otherwise_keeps_its_words_and_is_told() -> None:
    checked = check(
        Source(
            "Mat\n\nUS terms. Ch 1 does not count.\n\nCh 8.\n"
            "Row 1: Sc in 2nd ch from hook and in each ch, flurble. (7 sc)\n"
            "Row 2: Ch 1, *sc in next st, sc in next st; rep from * to last st, sc in last "
            "st. (7 sc)\n"
        )
    )
    found = write_pattern(checked, Asked(form=Form.SPOKEN))
    assert "flurble" in found.text
    assert found.differs is None
