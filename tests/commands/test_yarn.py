"""`hookwright yarn`: what it prints, and how it ends."""

from __future__ import annotations

import json
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from yarn_texts import checked, plain, planned, sheet

from hookwright.cli import main
from hookwright.commands.check import Status
from hookwright.listing.yarn import yarn_listing
from hookwright.terminal import NO_INK, Ink

EXAMPLE = Path(__file__).parents[2] / "examples" / "low-water-blanket"


def called(*words: str) -> Result:
    return CliRunner().invoke(main, ["yarn", *words])


@pytest.fixture(scope="module")
def blanket() -> str:
    return called(str(EXAMPLE)).stdout


def test_every_size_has_its_table(blanket: str) -> None:
    heads = [
        line for line in blanket.splitlines() if line.startswith(("Cot", "Lap", "Throw"))
    ]
    assert heads == [
        "Cot: 10 repeats, 82 rows, 75.5 cm (29 3/4 in) x 102.5 cm (40 1/4 in)",
        "Lap: 14 repeats, 102 rows, 105.5 cm (41 1/2 in) x 127.5 cm (50 1/4 in)",
        "Throw: 17 repeats, 122 rows, 128 cm (50 1/2 in) x 152.5 cm (60 in)",
    ]
    assert "£131.75" in blanket
    assert "By weighed swatches" in blanket
    assert "H has 5 of 5.8 balls" in blanket
    assert max(map(len, blanket.splitlines()[:-1])) <= 92


def test_the_object_for_programs_has_what_is_promised() -> None:
    answer = json.loads(called(str(EXAMPLE), "--json").stdout)
    assert [size["name"] for size in answer["sizes"]] == ["Cot", "Lap", "Throw"]
    for size in answer["sizes"]:
        assert size["basis"] == "swatch"
        assert len(size["colours"]) == 8
        for colour in size["colours"]:
            low, mid, high = colour["length_m"]
            assert low < mid < high
            assert colour["balls"] * 120 >= mid
            assert colour["cost"] == colour["balls"] * 4.25
            assert colour["ends"] % 2 == 0
            assert colour["leftover_g"] == pytest.approx(
                colour["balls"] * 50 - colour["weight_g"][1], abs=0.01
            )
        whole = sum(colour["length_m"][1] for colour in size["colours"])
        assert size["length_m"][1] == pytest.approx(whole, abs=0.02)
    assert answer["findings"] == answer["asked"] == []


def test_one_size_and_what_is_left_of_it() -> None:
    text = called(str(EXAMPLE), "--size", "throw", "--from-row", "101").stdout
    assert text.startswith("Throw: from Row 101 to the end, 26 rows")
    assert "with allowance, g" in text
    assert "Cot" not in text


def test_every_number_says_how_it_came_about() -> None:
    text = called(str(EXAMPLE), "--size", "lap", "--how").stdout
    assert "198 foundation ch: a loop of 24.9 mm, 25 mm each, 4.9 m." in text
    assert "By least squares a loop is 24.9 mm" in " ".join(text.split())
    assert "3 balls of 120 m have 360 m" in text
    assert "told with --how" not in text


def test_a_colour_on_a_terminal_lies_on_its_own_ground() -> None:
    read = checked(plain(20, 8), sheet("A", 'hex = "#22324a"\n'))
    plan = planned(plain(20, 8), sheet("A", 'hex = "#22324a"\n'))
    assert "\x1b[97;48;2;34;50;74mA" in yarn_listing(read, plan, "in", 92, Ink(on=True))
    assert "\x1b" not in yarn_listing(read, plan, "in", 92, NO_INK)


def test_a_narrow_terminal_has_lines_of_words() -> None:
    read, plan = checked(plain(20, 8), sheet("A")), planned(plain(20, 8), sheet("A"))
    lines = yarn_listing(read, plan, "in", 40, NO_INK).splitlines()
    assert max(map(len, lines)) <= 40 or "--how" in lines[-1]
    assert any(line.startswith("  A: m ") for line in lines)


def test_how_it_ends(tmp_path: Path) -> None:
    assert called(str(EXAMPLE)).exit_code == Status.CLEAN
    assert called(str(EXAMPLE), "--size", "nowhere").exit_code == Status.TO_MEND
    assert called(str(tmp_path / "none")).exit_code == Status.NOT_READ
    (tmp_path / "words.md").write_text("Nothing to work.", encoding="utf-8")
    assert called(str(tmp_path / "words.md")).exit_code == Status.NOT_READ
    (tmp_path / "pattern.md").write_text(plain(20, 8), encoding="utf-8")
    (tmp_path / "worksheet.toml").write_text('[[yarn]]\nletter = "A"\n', encoding="utf-8")
    result = called(str(tmp_path))
    assert result.exit_code == Status.TO_MEND
    assert "worksheet.toml, line 2: to look at (worksheet)" in result.stdout
