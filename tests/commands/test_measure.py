"""`hookwright measure`: what it prints, for people and for programs."""

from __future__ import annotations

import json
from functools import cache
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner

from hookwright.cli import main

EXAMPLES = Path(__file__).parents[2] / "examples"


def measured(*arguments: str) -> tuple[int, str]:
    result = CliRunner().invoke(main, ["measure", *arguments])
    return result.exit_code, result.output


@cache
def answer(*arguments: str) -> dict[str, Any]:
    status, printed = measured(*arguments, "--json")
    assert status == 0
    found: dict[str, Any] = json.loads(printed)
    return found


@pytest.mark.parametrize(
    ("name", "width", "height", "within"),
    [
        # What each of our patterns says of its size, in mm, and how near the layout comes.
        ("turnstone-wave-throw", 1040, 1420, 0.03),
        ("kelp-square", 150, 150, 0.04),
        ("shingle-cloth", 230, 230, 0.02),
        ("fulmar-lace-scarf", 220, 1680, 0.05),
    ],
)
def test_the_examples_come_out_as_large_as_they_say(
    name: str, width: float, height: float, within: float
) -> None:
    size = answer(str(EXAMPLES / f"{name}.md"))["sizes"][0]
    assert size["width_mm"] == pytest.approx(width, rel=within)
    assert size["height_mm"] == pytest.approx(height, rel=within)


def test_a_ripple_meets_its_gauge() -> None:
    # "One wave is 11.5 cm, and 8 rows in the wave pattern are 10 cm."
    size = answer(str(EXAMPLES / "turnstone-wave-throw.md"))["sizes"][0]
    assert size["repeat_width_mm"] == pytest.approx(115, rel=0.005)
    assert size["row_pitch_mm"] == pytest.approx(12.5, rel=0.005)
    assert 25 < size["angle_deg"] < 35
    assert (size["verdict"], size["degree"]) == ("flat", "none")


def test_every_size_of_a_cap_is_told_and_stands_up() -> None:
    found = answer(str(EXAMPLES / "petrel-cap.md"))
    names = [size["name"] for size in found["sizes"]]
    assert names == ["Baby", "Toddler", "Child", "Adult", "Large"]
    widths = [size["width_mm"] for size in found["sizes"]]
    # Half of the way around that the pattern states for each size.
    assert widths == pytest.approx([180, 205, 230, 255, 280], rel=0.04)
    assert {size["verdict"] for size in found["sizes"]} == {"cups"}
    assert "cap" in found["sizes"][0]["advice"]


def test_a_gauge_asked_for_takes_the_place_of_the_stated_one(tmp_path: Path) -> None:
    path = tmp_path / "mat.md"
    path.write_text(
        "US terms. Ch 1 does not count as a stitch.\n\nCh 29.\n"
        "Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (28 sc)\n"
        "Rows 2-32: Ch 1, sc in each st across. Turn. (28 sc)\n"
    )
    size = answer(str(path), "--gauge", "14 sts and 16 rows = 4 in")["sizes"][0]
    # Source: arithmetic, 28 sts are 8 in and 32 rows 8 in.
    assert size["width_mm"] == pytest.approx(203.2, abs=0.1)
    assert size["height_mm"] == pytest.approx(203.2, abs=0.1)
    status, printed = measured(str(path), "--gauge", "blue")
    assert status == 1
    assert "cannot be read as a gauge" in printed


def test_people_are_told_both_units_and_how(tmp_path: Path) -> None:
    status, printed = measured(str(EXAMPLES / "kelp-square.md"))
    assert status == 0
    assert "15.4 cm (6 in)" in printed
    assert "lies" in printed
    assert "come to rest" in " ".join(printed.split())
    nothing = tmp_path / "empty.md"
    nothing.write_text("Just a few words.\n")
    status, printed = measured(str(nothing))
    assert (status, printed) == (2, "There is no row to measure.\n")
