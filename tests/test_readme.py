"""What README.md shows and promises is what the program does."""

from __future__ import annotations

import re
import tomllib
from pathlib import Path

import click
import pytest
from click.testing import CliRunner

from hookwright.cli import command_of, main
from hookwright.commands.check import Status

ROOT = Path(__file__).parents[1]
README = (ROOT / "README.md").read_text(encoding="utf-8")
CASES = ROOT / "tests" / "cases"
FOLDERS = {
    "worked in rows": ("flat", "flat-b", "sample-flat"),
    "worked in rounds": ("round", "sample-round"),
}


def behind(mark: str) -> str:
    """What stands behind a comment, up to the next gap after it or the end of its fence."""
    found = re.search(rf"<!-- {mark} -->\n(?:```\n(.*?)```|(.*?)\n\n)", README, re.DOTALL)
    assert found, f"README.md has no <!-- {mark} -->"
    return str(found[1] or found[2])


def table(mark: str) -> dict[str, str]:
    """The first two columns of a table, without its heading."""
    rows = [line.strip("| ").split(" | ") for line in behind(mark).splitlines()[2:]]
    return {row[0]: row[1] for row in rows}


def test_the_pattern_has_eight_lines() -> None:
    assert len(behind("pattern").splitlines()) == 8


def test_the_finding_is_what_the_command_says_of_the_pattern(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    command = re.search(r"`hookwright (check [^`]*\.md)`", README)
    assert command
    *words, name = command[1].split()
    (tmp_path / name).write_text(behind("pattern"), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    result = CliRunner().invoke(main, [*words, name])
    assert result.stdout == behind("finding")
    assert result.exit_code == Status.TO_MEND


def test_without_the_slip_the_pattern_is_clean() -> None:
    # 25 = 4 x 6 + 1; in Row 3: 3 + 3 x (1 + 5) + 1 + 3.
    mended = behind("pattern").replace("4 dc in next st; rep", "5 dc in next st; rep")
    assert mended != behind("pattern")
    result = CliRunner().invoke(main, ["check", "-"], input=mended)
    assert result.stdout.splitlines()[-1] == "12 rows: all counts proven."
    assert result.exit_code == Status.CLEAN


@pytest.mark.parametrize(
    ("mark", "name"),
    [
        ("options", "check"),
        ("new options", "new"),
        ("desk options", "desk"),
        ("edge options", "edge"),
        ("size options", "size"),
        ("write options", "write"),
        ("measure options", "measure"),
        ("draw options", "draw"),
        ("colours options", "colours"),
        ("yarn options", "yarn"),
        ("release options", "release"),
        ("answer options", "answer"),
        ("corrections options", "corrections"),
        ("lesson options", "lesson"),
        ("trials options", "trials"),
        ("costs options", "costs"),
    ],
)
def test_the_options_are_those_of_the_help(mark: str, name: str) -> None:
    command = command_of(name)
    context = click.Context(command, parent=click.Context(main, **main.context_settings))
    params = [p for p in command.get_params(context) if isinstance(p, click.Option)]
    assert table(mark) == {_as_written(p): p.help for p in params}


def test_the_first_steps_can_be_taken(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(tmp_path)
    steps = re.findall(r"^hookwright ([^#\n]*?) *#", README, re.MULTILINE)
    assert len(steps) >= 3
    for step in steps:
        result = CliRunner().invoke(main, step.split())
        assert result.exit_code == Status.CLEAN, result.output


def _as_written(option: click.Option) -> str:
    choices = option.type.choices if isinstance(option.type, click.Choice) else [""]
    words = [f"{name} {choice}".strip() for name in option.opts for choice in choices]
    return ", ".join(f"`{word}`" for word in words)


def test_the_drafts_are_those_that_the_help_names() -> None:
    told = re.search(r"a draft \((.*?)\)", command_of("check").help or "")
    assert told
    files = {cell.strip("`") for cell in table("drafts") if cell.startswith("`.")}
    assert files == set(told[1].split())
    assert {"a folder", "`-`"} <= table("drafts").keys()


def test_the_exit_statuses_are_those_of_the_command() -> None:
    assert table("statuses").keys() == {str(status.value) for status in Status}


def test_a_mistyped_command_ends_as_one_that_could_not_read() -> None:
    assert CliRunner().invoke(main, ["check", "--qiet", "-"]).exit_code == Status.NOT_READ


def test_as_many_rows_come_out_right_as_is_said() -> None:
    least = tomllib.loads((CASES / "thresholds.toml").read_text(encoding="utf-8"))
    said = table("cases")
    assert said.keys() == FOLDERS.keys()
    for what, folders in FOLDERS.items():
        right, of = (int(number) for number in said[what].split(" in "))
        rows = sum(_rows_judged(folder) for folder in folders)
        assert of * sum(least[folder]["rows"] for folder in folders) >= right * rows


def _rows_judged(folder: str) -> int:
    sheets = [
        tomllib.loads(path.read_text(encoding="utf-8"))
        for path in (CASES / folder).glob("*.toml")
    ]
    return sum(
        "stitches" in row and not row.get("not_judged")
        for sheet in sheets
        for row in sheet.get("row", [])
    )


def test_every_place_that_is_named_is_there() -> None:
    named = re.findall(r"^\| `([\w./-]+(?:/|\.md))` \|", README, re.MULTILINE)
    linked = re.findall(r"\]\(([\w./-]+)\)", README)
    assert len(named) >= 5
    for place in [*named, *linked]:
        assert (ROOT / place).exists(), place
