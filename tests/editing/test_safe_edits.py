"""A change that is called safe leaves every row as it was, and nothing new to say."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from hookwright.checking import Checked, check
from hookwright.finding import Edit
from hookwright.reading import read_draft
from hookwright.source import Source

ROOT = Path(__file__).parents[2]
RULES = frozenset(
    "undefined-abbreviation unused-abbreviation two-spellings terms-unstated".split()
)
EXAMPLES = sorted(ROOT.glob("examples/*.md"))
CASES = [
    path
    for path in sorted(ROOT.glob("tests/cases/*/*.txt"))
    if re.search("abbreviation|stitches used", path.read_text("utf-8"), re.IGNORECASE)
]


SMALL = [
    pytest.param(text.partition("\n--- ")[0] + "\n", id=f"{rule}: {title}")
    for rule in sorted(RULES)
    for piece in re.split(
        r"^=== ",
        (ROOT / "tests/editing/cases" / f"{rule}.txt").read_text("utf-8"),
        flags=re.MULTILINE,
    )[1:]
    for title, _, text in [piece.partition("\n")]
]


def changed(text: str, edit: Edit) -> str:
    return text[: edit.span.start] + edit.replacement + text[edit.span.end :]


def rows(found: Checked) -> list[tuple[object, ...]]:
    return [
        (line.part, line.printed, line.stitches, line.uses, line.spaces, line.times)
        for line in found.lines
    ]


@pytest.mark.parametrize(
    "path",
    [path for path in [*EXAMPLES, *CASES] if path.stem != "README"],
    ids=lambda path: f"{path.parent.name}: {path.stem}",
)
def test_a_safe_change_changes_no_row(path: Path) -> None:
    changes_no_row(read_draft(path).source.text)


@pytest.mark.parametrize("text", SMALL)
def test_a_safe_change_of_a_small_pattern_changes_no_row(text: str) -> None:
    changes_no_row(text)


def changes_no_row(text: str) -> None:
    """Take each safe change by itself: the rows stay, and one finding goes."""
    before = check(Source(text))
    told = {(finding.rule, finding.span) for finding in before.findings}
    for finding in before.findings:
        if finding.rule in RULES and finding.edit is not None and finding.edit.safe:
            after = check(Source(changed(text, finding.edit)))
            assert rows(after) == rows(before)
            assert len(after.findings) < len(told)
            assert {other.rule for other in after.findings} <= {rule for rule, _ in told}
