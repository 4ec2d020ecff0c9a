"""docs/constructs.md agrees with the cases, and the cases hold what it names."""

from __future__ import annotations

import runpy
from pathlib import Path
from typing import Any

ROOT = Path(__file__).parents[1]
GENERATE = runpy.run_path(str(ROOT / "docs" / "generate.py"))
PAGE = (ROOT / "docs" / "constructs.md").read_text(encoding="utf-8")
CASES = GENERATE["all_cases"]()
CONSTRUCTS = GENERATE["all_constructs"]()


def listed(heading: str) -> set[str]:
    """The names in a list of the page."""
    behind = PAGE.partition(f"## {heading}\n\n")[2].partition("\n\n")[0]
    return {line.removeprefix("- ") for line in behind.splitlines()}


def test_the_page_is_what_the_cases_give() -> None:
    assert GENERATE["page"]() == PAGE, "docs/constructs.md is out of date: make docs"


def test_a_name_in_the_sheets_stands_under_one_construct_only() -> None:
    called = [name for construct in CONSTRUCTS for name in construct.called]
    assert len(called) == len(set(called))
    assert len({construct.name for construct in CONSTRUCTS}) == len(CONSTRUCTS)


def test_every_name_in_the_table_is_in_a_sheet() -> None:
    in_sheets = {name for case in CASES for name in case.names}
    assert not {name for one in CONSTRUCTS for name in one.called} - in_sheets


def test_a_name_that_two_sheets_give_stands_in_the_table() -> None:
    called = {name for construct in CONSTRUCTS for name in construct.called}
    names = [name for case in CASES for name in case.names - called]
    assert {name for name in names if names.count(name) > 1} == set()


def test_two_cases_one_with_a_fault_hold_a_construct_or_the_page_says_not() -> None:
    wanting = {one.name for one in CONSTRUCTS if not _is_well_held(one.cases(CASES))}
    heading = "Not held by two cases, or by none with a fault"
    assert listed(heading) == (wanting or {"none"})


def _is_well_held(cases: list[Any]) -> bool:
    return len(cases) >= 2 and any(case.faulty for case in cases)


def test_every_case_says_what_it_holds() -> None:
    assert [case.draft.name for case in CASES if not case.names] == []
