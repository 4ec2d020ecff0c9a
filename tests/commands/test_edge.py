"""`hookwright edge`: what is printed and written, and what never is."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hookwright.cli import main
from hookwright.reading import read_draft

ROOT = Path(__file__).parents[2]
CLOTH = ROOT / "examples" / "shingle-cloth.md"
THROW = ROOT / "examples" / "turnstone-wave-throw.md"


def edge(*words: str | Path) -> Result:
    """The command with some words."""
    return CliRunner().invoke(main, ["edge", *map(str, words)])


def test_every_side_is_told_by_itself() -> None:
    found = edge(CLOTH)
    assert found.exit_code == 0
    for title in ("Along the last row", "Along the left side", "All round"):
        assert title in found.stdout
    assert "Lies flat (+6 %)" in found.stdout


def test_an_object_for_programs() -> None:
    found = edge(THROW, "--json")
    sides = json.loads(found.stdout)["sides"]
    first = sides[0]
    assert (first["side"], first["shape"], first["stitches"]) == ("top", "straight", [163])
    assert first["rows"][0].startswith("Row 1 (RS): Ch 3, tr2tog over first 2 sts")
    left = next(side for side in sides if side["side"] == "left")
    assert (left["picked_up"], left["usual"], left["verdict"]) == ([9, 5], 2, "lies flat")
    last = sides[-1]
    assert last["side"] == "all"
    assert "tr3tog" in last["rows"][0]
    assert last["verdict"] in {"lies flat", "slight, blocks out"}


def test_the_pattern_is_written_with_its_edging(tmp_path: Path) -> None:
    file = tmp_path / "cloth.md"
    found = edge(CLOTH, "--side", "all", "--write", file)
    assert found.exit_code == 0
    text = file.read_text("utf-8")
    assert text.index("## Edging") < text.index("## Finishing")
    assert "sc in the end of each of the 37 rows" not in text
    # all else stays as it is in the file, marks and all
    kept = CLOTH.read_text("utf-8").partition("## Edging")[0]
    assert text.startswith(kept)
    assert CliRunner().invoke(main, ["check", str(file)]).exit_code == 0


def test_without_a_side_the_round_is_written(tmp_path: Path) -> None:
    file = tmp_path / "cloth.txt"
    assert edge(CLOTH, "--write", file).exit_code == 0
    assert "Rnd 2: " in file.read_text("utf-8")


def test_several_sides_are_worked_one_behind_the_other(tmp_path: Path) -> None:
    file = tmp_path / "throw.md"
    sides = [
        word for side in ("top", "foundation", "left", "right") for word in ("--side", side)
    ]
    found = edge(THROW, *sides, "--shape", "straight", "--write", file)
    assert found.exit_code == 0
    headings = [h for h in read_draft(file).headings if h.level == 2]
    assert len(headings) >= 4
    assert CliRunner().invoke(main, ["check", "--quiet", str(file)]).exit_code == 0


def test_no_other_file_is_written_over(tmp_path: Path) -> None:
    file = tmp_path / "cloth.md"
    file.write_text("mine", encoding="utf-8")
    found = edge(CLOTH, "--side", "top", "--write", file)
    assert found.exit_code == 2
    assert "is there already" in found.stderr
    assert file.read_text("utf-8") == "mine"


def test_the_same_file_may_be_written_again(tmp_path: Path) -> None:
    file = tmp_path / "cloth.md"
    words = (CLOTH, "--side", "top", "--write", file)
    assert edge(*words).exit_code == 0
    again = edge(*words)
    assert again.exit_code == 0
    assert "and the same" in again.stderr


@pytest.mark.parametrize("name", ["cloth.pdf", "cloth.docx", "cloth"])
def test_other_kinds_of_file_are_not_written(name: str, tmp_path: Path) -> None:
    found = edge(CLOTH, "--side", "top", "--write", tmp_path / name)
    assert found.exit_code == 2
    assert not (tmp_path / name).exists()


def test_nothing_is_written_where_a_side_has_no_edging(tmp_path: Path) -> None:
    file = tmp_path / "square.md"
    square = ROOT / "examples" / "kelp-square.md"
    found = edge(square, "--side", "left", "--side", "all", "--write", file)
    assert found.exit_code == 2
    assert "Nothing was written." in found.stderr
    assert not file.exists()


def test_a_pattern_without_an_edging_ends_so() -> None:
    found = edge(ROOT / "examples" / "puffling.md")
    assert found.exit_code == 1
    assert "which one is to be edged" in found.stdout


@pytest.mark.parametrize("repeat", ["", "x", "0", "6+", "-3", "6+x", "99999"])
def test_a_repeat_that_is_none_is_told(repeat: str) -> None:
    found = edge(CLOTH, "--repeat", repeat)
    assert found.exit_code == 2
    assert "A repeat is given as" in found.stderr


def test_her_own_repeat_is_fitted() -> None:
    found = edge(CLOTH, "--side", "top", "--repeat", "8 + 3")
    assert "35 sts are 4 repeats of 8 + 3" in found.stdout


def test_a_draft_that_is_not_there_is_told() -> None:
    assert edge("nowhere.md").exit_code == 2
