"""Corrections: what changed in the fabric, what only in words, and what to do then."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner
from edits_made import Edited, sampled
from edits_told import compared_with, told_rightly
from examples_checked import FOLDER, NAMES, example

from hookwright.checking import check
from hookwright.cli import main
from hookwright.notation.printing import print_pattern, translate
from hookwright.source import Source
from hookwright.versions.advice import affected, if_past
from hookwright.versions.comparing import compare
from hookwright.versions.corrections_sheet import corrections_sheet, stamp
from hookwright.versions.facts import Kind

SAMPLE = [
    edit for edit in sampled(60, changes=False) if edit.name != "turnstone-wave-throw"
]
CHANGED = [
    edit for edit in sampled(60, changes=True) if edit.name != "turnstone-wave-throw"
]


def named(edit: Edited) -> str:
    return f"{edit.name}, {edit.row or 'beside'}: {edit.what}"


@pytest.mark.parametrize("edit", SAMPLE[:24], ids=named)
def test_other_words_change_nothing(edit: Edited) -> None:
    # All hundred stand in benchmarks/bench_corrections.py.
    assert told_rightly(edit)


@pytest.mark.parametrize("edit", CHANGED[:24], ids=named)
def test_another_fabric_is_told_in_its_row(edit: Edited) -> None:
    assert told_rightly(edit)


@pytest.mark.parametrize("name", NAMES)
def test_a_text_compared_with_itself_has_no_changes(name: str) -> None:
    assert compare(example(name), example(name), "1", "1").changes == ()


def test_the_other_terms_are_only_words() -> None:
    old = example("shingle-cloth")
    told = print_pattern(translate(old.reading.pattern, "UK"))
    compared = compare(old, check(Source(told)), "1.0", "1.1")
    assert compared.of_fabric == ()


def edited(name: str, old: str, new: str, row: str = "") -> Edited:
    text = (FOLDER / f"{name}.md").read_text("utf-8")
    assert old in text
    return Edited(name, "by hand", text.replace(old, new, 1), changes=True, row=row)


def test_what_follows_from_a_change_is_told_as_that() -> None:
    compared = compared_with(edited("shingle-cloth", "front loop only", "back loop only"))
    first, second = compared.of_fabric
    assert (first.kind, first.rows, first.follows) == (Kind.PLACE, "Row 6", False)
    # Rows 8-37 are Rows 2-7 five more times: Row 6 again every six rows.
    assert (second.rows, second.follows) == ("Rows 12, 18, 24, 30, 36", True)


def test_a_count_tells_what_to_do_with_both_numbers() -> None:
    compared = compared_with(
        edited("puffling", "Rnd 2: Inc in each st", "Rnd 2: Sc in each st")
    )
    (advice, *_) = if_past(compared)
    assert "With 6" in advice
    assert "With 12" in advice


def test_a_colour_needs_nothing_pulled_out() -> None:
    compared = compared_with(edited("kelp-square", "Join B", "Join A"))
    assert {change.kind for change in compared.of_fabric} == {Kind.COLOUR}
    assert "nothing has to come out" in if_past(compared)[0]


def test_a_colour_by_another_name_is_no_other_colour() -> None:
    text = (FOLDER / "kelp-square.md").read_text("utf-8")
    text = text.replace("6 balls of B", "6 balls of C").replace("Join B", "Join C")
    edit = Edited("kelp-square", "renamed", text, changes=False, row="")
    assert compared_with(edit).of_fabric == ()


def test_a_printed_count_put_right_is_no_change_of_the_fabric() -> None:
    compared = compared_with(edited("puffling", "(Sc in next st, inc) 6 times. (18)",
                                    "(Sc in next st, inc) 6 times. (19)"))  # fmt: skip
    assert [change.kind for change in compared.changes] == [Kind.STATED]
    assert affected(compared).startswith("Nobody")


def test_only_the_sizes_that_change_are_affected() -> None:
    compared = compared_with(edited("skerry-yoke-tee", "ch 6 (6, 8), sk next 34 (38, 42)",
                                    "ch 6 (6, 10), sk next 34 (38, 42)"))  # fmt: skip
    assert affected(compared) == "Makers of Large."


def test_the_page_has_the_stamp_and_who_is_affected() -> None:
    compared = compared_with(edited("kelp-square", "Join B", "Join A"))
    sheet = corrections_sheet(compared, "Kelp Square", "2026-11-30")
    assert ("Replaces", "1.0") in sheet.band
    assert stamp(compared, "2026-11-30") == (
        "Version 1.1, 2026-11-30. Replaces version 1.0."
    )


def test_versions_are_kept_and_compared(tmp_path: Path) -> None:
    run = CliRunner()
    text = (FOLDER / "kelp-square.md").read_text("utf-8")
    (tmp_path / "pattern.md").write_text(text, "utf-8")
    words = ["corrections", str(tmp_path)]
    assert run.invoke(main, words).exit_code == 2
    assert (
        run.invoke(main, [*words, "--keep", "1.0", "--date", "2026-01-02"]).exit_code == 0
    )
    assert run.invoke(main, [*words, "--keep", "1.0"]).exit_code == 2
    assert run.invoke(main, words).exit_code == 0
    (tmp_path / "pattern.md").write_text(text.replace("Join B", "Join A"), "utf-8")
    page = tmp_path / "corrections.html"
    result = run.invoke(main, [*words, "--json", "--version", "1.1", "--write", str(page)])
    told = json.loads(result.stdout)
    assert result.exit_code == 1
    assert told["changes"][0]["kind"] == "colour"
    assert "Version 1.1" in page.read_text("utf-8")


@pytest.mark.parametrize("name", ["", "../x", "a b", "-1"])
def test_a_version_has_a_plain_name(name: str, tmp_path: Path) -> None:
    (tmp_path / "pattern.md").write_text("Ch 9.\n", "utf-8")
    result = CliRunner().invoke(main, ["corrections", str(tmp_path), f"--keep={name}"])
    assert result.exit_code == 2
    assert not (tmp_path / "versions").exists()
