"""`hookwright new`: a project folder with a fabric to begin from."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hookwright.checking import check
from hookwright.cli import main
from hookwright.commands.project import draft_at, worksheet_at
from hookwright.shelf import fabrics, starter


def called(*words: str) -> Result:
    return CliRunner().invoke(main, ["new", *words])


def names() -> list[str]:
    return [fabric.name for fabric in fabrics()]


def test_a_folder_is_made_that_is_clean(tmp_path: Path) -> None:
    folder = tmp_path / "gull"
    result = called(str(folder), "--fabric", "moss")
    assert result.exit_code == 0
    checked = check(draft_at(str(folder)), worksheet=worksheet_at(str(folder)))
    assert checked.all_findings == ()
    assert checked.has_rows()
    assert checked.worksheet is not None
    assert checked.worksheet.noted.title == "Moss Stitch"
    assert CliRunner().invoke(main, ["check", str(folder)]).exit_code == 0


def test_it_says_what_comes_next(tmp_path: Path) -> None:
    folder = tmp_path / "gull"
    words = " ".join(called(str(folder), "--fabric", "moss").stdout.split())
    assert "Moss Stitch, in US terms. 27 rows: all counts proven." in words
    assert f"Next: hookwright check {folder}" in words
    assert words.endswith(f"hookwright size {folder} --width 45in")


def test_without_a_name_it_begins_plain_and_says_how_to_choose(tmp_path: Path) -> None:
    folder = tmp_path / "gull"
    result = called(str(folder))
    assert result.exit_code == 0
    assert (folder / "pattern.md").read_text("utf-8").startswith("# Rows of Single Crochet")
    assert f"{len(names()) - 1} other fabrics: hookwright new --list" in result.stdout


def test_in_uk_terms_names_and_words_are_british(tmp_path: Path) -> None:
    folder = tmp_path / "gull"
    result = called(str(folder), "--fabric", "tr-wave", "--terms", "uk")
    assert result.exit_code == 0
    text = (folder / "pattern.md").read_text("utf-8")
    fabric = next(fabric for fabric in fabrics() if fabric.name == "dc-wave")
    assert text == starter(fabric, "UK")
    assert "## Tension" in text
    assert "3 tr in next ch" in text
    assert "gauge" not in text.lower()


@pytest.mark.parametrize("name", ["pattern.md", "worksheet.toml"])
def test_nothing_is_written_over(name: str, tmp_path: Path) -> None:
    (tmp_path / name).write_text("hers", encoding="utf-8")
    result = called(str(tmp_path))
    assert result.exit_code == 2
    assert "nothing was written over it" in result.stderr
    assert [path.name for path in tmp_path.iterdir()] == [name]
    assert (tmp_path / name).read_text("utf-8") == "hers"


def test_a_file_is_no_folder(tmp_path: Path) -> None:
    (tmp_path / "gull").write_text("hers", encoding="utf-8")
    result = called(str(tmp_path / "gull"))
    assert result.exit_code == 2
    assert "is a file" in result.stderr


@pytest.mark.parametrize(
    ("asked", "told"),
    [
        ("mos", 'There is no fabric "mos". Is "moss" meant?'),
        ("circle", 'Is "dc-circle", "hdc-circle" or "sc-circle" meant?'),
        ("qqqqq", 'There is no fabric "qqqqq".\n'),
        ("\x1b[31mred", "There is no fabric"),
    ],
)
def test_a_name_that_is_none_makes_nothing(asked: str, told: str, tmp_path: Path) -> None:
    result = called(str(tmp_path / "gull"), "--fabric", asked)
    assert result.exit_code == 2
    assert told in result.stderr
    assert "\x1b" not in result.stderr
    assert "hookwright new --list" in result.stderr
    assert list(tmp_path.iterdir()) == []


def test_a_name_of_the_other_terms_is_told_by_that_of_these(tmp_path: Path) -> None:
    result = called(str(tmp_path / "gull"), "--fabric", "sc-rows", "--terms", "uk")
    assert 'What it is in US terms is called "dc-rows" in UK terms.' in result.stderr
    assert "hookwright new --list --terms uk has all" in result.stderr


def test_the_list_has_every_fabric_with_its_multiple() -> None:
    result = called("--list")
    assert result.exit_code == 0
    lines = result.stdout.splitlines()
    first = [line.split("  ")[0] for line in lines]
    assert [name for name in first if name in names()] == names()
    assert any(line.startswith("dc-wave") and "16 + 2" in line for line in lines)
    assert any(line.startswith("sc-rows") and "any + 1" in line for line in lines)
    assert max(map(len, lines)) <= 92
    assert all(line == line.rstrip() for line in lines)


def test_the_list_can_be_in_uk_terms() -> None:
    told = called("--list", "--terms", "uk").stdout
    assert "tr-wave" in told
    assert "hdc" not in told
    assert "single crochet" not in told


@pytest.mark.parametrize("words", [[], ["--list", "gull"]])
def test_a_folder_or_the_list(words: list[str]) -> None:
    result = called(*words)
    assert result.exit_code == 2
    assert "FOLDER" in result.stderr
