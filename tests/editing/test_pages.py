"""The pages of the findings: their bad snippets fire, and their better ones are silent."""

import re
from pathlib import Path

import pytest

from hookwright.checking import check
from hookwright.sizing.multiples import multiples_of
from hookwright.sizing.sized import Request, size_pattern
from hookwright.source import Source

PAGES = sorted((Path(__file__).parents[2] / "docs" / "findings").glob("*.md"))
RULE_PAGES = [page for page in PAGES if page.stem != "README"]
HEADINGS = ["Why", "Bad", "Better", "Is the change safe?"]
SNIPPET = re.compile(r"```(?:text|toml)\n(.*?)```", re.DOTALL)
STRIP = Source(
    "# Eider Strip\n\nUS terms.\n\nCh 10.\n"
    "Row 1: Sc in 2nd ch from hook and in each ch across. (9 sc)\n",
    "pattern.md",
)
"""The pattern beside the worksheets that a page shows."""


def snippets(page: Path, heading: str) -> list[str]:
    """The patterns under a heading of a page."""
    section = re.split(rf"^## {heading}\n", page.read_text("utf-8"), flags=re.MULTILINE)[1]
    return SNIPPET.findall(section.partition("\n## ")[0])


def rules_told(text: str) -> set[str]:
    """The rules that have something to say of a pattern."""
    if not text.startswith("["):
        return {finding.rule for finding in check(Source(text, "pattern.md")).findings}
    checked = check(STRIP, worksheet=Source(text, "worksheet.toml"))
    assert checked.worksheet is not None
    sized = size_pattern(checked, multiples_of(checked), Request())
    return {finding.rule for finding in (*checked.worksheet.findings, *sized.noted)}


@pytest.mark.parametrize("page", RULE_PAGES, ids=lambda page: page.stem)
def test_a_page_has_its_headings_and_the_name_of_its_rule(page: Path) -> None:
    lines = page.read_text("utf-8").splitlines()
    assert lines[0] == f"# {page.stem}"
    assert [line[3:] for line in lines if line.startswith("## ")] == HEADINGS


@pytest.mark.parametrize("page", RULE_PAGES, ids=lambda page: page.stem)
def test_what_a_page_calls_bad_is_told(page: Path) -> None:
    assert snippets(page, "Bad")
    for text in snippets(page, "Bad"):
        assert page.stem in rules_told(text)


@pytest.mark.parametrize("page", RULE_PAGES, ids=lambda page: page.stem)
def test_what_a_page_calls_better_is_not_told(page: Path) -> None:
    assert snippets(page, "Better")
    for text in snippets(page, "Better"):
        assert page.stem not in rules_told(text)
