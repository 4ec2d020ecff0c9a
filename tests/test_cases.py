"""Every case of the folders in tests/cases: what a tech editor gets out of it, we get too.

The least that each folder must reach stands in tests/cases/thresholds.toml. The table of
what was reached is printed with `pytest -s`, or when it falls short.
"""

from __future__ import annotations

import tomllib
from functools import cache
from pathlib import Path

import pytest
from judging import Score, judged

from hookwright.answer import answer
from hookwright.checking import check
from hookwright.reading import read_draft

CASES = Path(__file__).parent / "cases"
THRESHOLDS = tomllib.loads((CASES / "thresholds.toml").read_text(encoding="utf-8"))
DRAFTS = {".txt", ".md", ".html", ".docx", ".pdf"}
COLUMNS = ("rows", "uses", "spaces", "faults", "terms", "whole", "alarms")
NOTES_SHOWN = 60


@cache
def score_of(folder: str) -> Score:
    """The sum of all cases in a folder."""
    total = Score()
    for sheet in sorted((CASES / folder).glob("*.toml")):
        draft = next(p for p in sheet.parent.glob(f"{sheet.stem}.*") if p.suffix in DRAFTS)
        expected = tomllib.loads(sheet.read_text(encoding="utf-8"))
        found = answer(check(read_draft(draft)))
        total.take_in(judged(found, expected, THRESHOLDS[folder].keys()), sheet.stem)
    return total


def table(folder: str) -> str:
    """What a folder reached, with what was wrong."""
    score = score_of(folder)
    cells = [
        f"{what} {score.right[what]}"
        + (f"/{score.judged[what]}" if what != "alarms" else "")
        for what in COLUMNS
        if what == "alarms" or score.judged[what]
    ]
    return "\n".join([f"{folder}: {'  '.join(cells)}", *score.notes[:NOTES_SHOWN]])


@pytest.mark.parametrize("folder", THRESHOLDS)
def test_the_cases_of_a_folder_come_out_as_well_as_before(folder: str) -> None:
    score = score_of(folder)
    print(table(folder).splitlines()[0])  # noqa: T201 - seen with -s
    for what, least in THRESHOLDS[folder].items():
        if what == "alarms":
            assert score.right[what] <= least, table(folder)
        else:
            assert score.right[what] >= least, table(folder)


def test_every_folder_of_cases_has_its_thresholds() -> None:
    folders = {path.parent.name for path in CASES.glob("*/*.toml")}
    assert folders == set(THRESHOLDS)
