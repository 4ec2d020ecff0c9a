"""`hookwright write` as a designer calls it."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hookwright.cli import main

EXAMPLES = Path(__file__).parents[2] / "examples"
CAP = str(EXAMPLES / "petrel-cap.md")


def called(*words: str, piped: str = "") -> Result:
    return CliRunner().invoke(main, ["write", *words], input=piped)


def test_the_marks_of_the_file_stay_in_the_other_terms(tmp_path: Path) -> None:
    file = tmp_path / "uk.md"
    result = called(CAP, "--terms", "uk", "-o", str(file))
    assert result.exit_code == 0, result.output
    text = file.read_text("utf-8")
    assert "## Tension" in text
    assert "**Yarn:** Skarrow Worsted" in text
    assert "Written in UK terms." in text
    assert CliRunner().invoke(main, ["check", str(file)]).exit_code == 0


def test_a_file_that_is_there_is_not_written_over(tmp_path: Path) -> None:
    file = tmp_path / "uk.md"
    file.write_text("mine")
    assert called(CAP, "--terms", "uk", "-o", str(file)).exit_code == 2
    assert file.read_text() == "mine"


def test_a_size_is_called_by_its_name() -> None:
    result = called(CAP, "--size", "child")
    assert result.exit_code == 0
    assert "Rnds 10-18:" in result.stdout
    wrong = called(CAP, "--size", "Giant")
    assert wrong.exit_code == 2
    assert "Baby, Toddler, Child, Adult, Large" in wrong.output


def test_what_is_heard_is_of_one_size() -> None:
    result = called(CAP, "--form", "spoken")
    assert result.exit_code == 2
    assert "choose one with --size" in result.output
    assert called(CAP, "--form", "spoken", "--size", "Adult").exit_code == 0


def test_a_house_style_stands_in_the_worksheet(tmp_path: Path) -> None:
    (tmp_path / "pattern.md").write_text(
        "# Mat\n\nWritten in US terms.\n\nCh 8.\n\nRow 1: Sc in 2nd ch from hook, *sc in next "
        "ch, sc in next ch; rep from * twice more. (7 sc)\n"
    )
    (tmp_path / "worksheet.toml").write_text('[house_style]\nrepeats = "brackets"\n')
    result = called(str(tmp_path))
    assert "[sc in next ch, sc in next ch] 3 times" in result.stdout


@pytest.mark.parametrize("text", ["", "The gulls were loud.\n"])
def test_a_text_without_rows_ends_with_2(text: str) -> None:
    assert called("-", piped=text).exit_code == 2
