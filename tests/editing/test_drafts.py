"""Whole drafts as they are published: the clean ones pass, and each slip is told once.

`drafts/clean` holds patterns that an editor would pass without a query; `drafts/slips`
drafts with several slips that bear on one another, each with a sheet of what is wrong and
where. A slip is found where a finding of a fitting rule stands on its line, or on the line
`told_at` where it first shows. Nothing else may be loud: what follows from a slip is no
second one.
"""

import tomllib
from pathlib import Path

import pytest

from hookwright.checking import check
from hookwright.finding import Finding, Severity
from hookwright.reading import read_draft

DRAFTS = Path(__file__).parent / "drafts"
CLEAN = sorted((DRAFTS / "clean").iterdir())
SLIPS = sorted((DRAFTS / "slips").glob("*.md"))
FITTING = {
    "stated-count": {"stated-count", "stitches-left", "past-the-end"},
    "multiple": {"multiple", "stitches-left", "past-the-end"},
    "undefined-abbreviation": {"undefined-abbreviation", "unknown-word"},
    "mixed-terms": {"mixed-terms", "unknown-word"},
    "row-range": {"row-range", "missing-target"},
    "measure": {"measure", "size-list"},
    "size-list": {"size-list", "measure"},
}
"""The rules that may tell a kind of slip, where it is not the one of its own name."""


def findings(path: Path) -> list[tuple[int, Finding]]:
    """The findings of a draft, each with its line."""
    checked = check(read_draft(path))
    return [(checked.source.line_of(f.span.start), f) for f in checked.findings]


@pytest.mark.parametrize("path", CLEAN, ids=lambda path: path.stem)
def test_a_clean_pattern_has_nothing_louder_than_advice(path: Path) -> None:
    loud = [(line, f.message) for line, f in findings(path) if is_loud(f)]
    assert loud == []


def is_loud(finding: Finding) -> bool:
    """Whether a designer is told of it unasked."""
    return finding.severity is not Severity.ADVICE


@pytest.mark.parametrize("path", SLIPS, ids=lambda path: path.stem)
def test_each_slip_is_told_and_nothing_that_follows_from_it(path: Path) -> None:
    told = findings(path)
    sheet = tomllib.loads(path.with_suffix(".toml").read_text("utf-8"))
    missed = []
    for slip in sheet["slip"]:
        line = slip.get("told_at", slip["line"])
        fitting = FITTING.get(slip["kind"], {slip["kind"]})
        found = [pair for pair in told if pair[0] == line and pair[1].rule in fitting]
        if not found:
            missed.append(slip["what"])
        told = [pair for pair in told if pair not in found[:1]]
    assert missed == []
    assert [(line, f.message) for line, f in told if is_loud(f)] == []
