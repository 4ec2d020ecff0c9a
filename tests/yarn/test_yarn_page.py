"""What docs/yarn.md shows is what there is."""

from __future__ import annotations

import json
import re
from pathlib import Path

import pytest
from click.testing import CliRunner

from hookwright.cli import main
from hookwright.commands.check import Status
from hookwright.design.worksheet.keys import BUDGET
from hookwright.design.worksheet.reading import read_worksheet
from hookwright.source import Source
from hookwright.yarn.loops import named, table

ROOT = Path(__file__).parents[2]
PAGE = (ROOT / "docs" / "yarn.md").read_text(encoding="utf-8")
STEPS = re.findall(r"^hookwright ([^\n]*)$", PAGE, re.MULTILINE)


@pytest.mark.parametrize("step", STEPS)
def test_its_commands_can_be_called(step: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(ROOT)
    words = [word.strip('"') for word in re.findall(r'"[^"]*"|\S+', step)]
    result = CliRunner().invoke(main, words)
    assert result.exit_code == Status.CLEAN, result.output


@pytest.mark.parametrize("sheet", re.findall(r"```toml\n(.*?)```", PAGE, re.DOTALL))
def test_its_worksheets_can_be_read(sheet: str) -> None:
    assert read_worksheet(Source(sheet)).findings == ()


def test_its_loops_are_those_of_the_table() -> None:
    assert "ch and sl st 1, sc 2,\nhdc 3, dc 4, tr 6" in PAGE
    assert [table()[s] for s in ("ch", "sl st", "sc", "hdc", "dc", "tr")] == [
        1,
        1,
        2,
        3,
        4,
        6,
    ]
    assert f"dc3tog {named('dc3tog', 'US', {}).loops}" in PAGE


def test_it_has_every_key_of_the_budget_and_of_the_object() -> None:
    assert all(f"{key.name} =" in PAGE for key in BUDGET.keys)
    example = str(ROOT / "examples" / "low-water-blanket")
    answer = json.loads(CliRunner().invoke(main, ["yarn", example, "--json"]).stdout)
    quoted = set(re.findall(r"`(\w+)`", PAGE))
    size = answer["sizes"][0]
    left_out = {"name", "from_row", "width_mm", "height_mm", "lengths_cut", "leftover_m",
                "tails_m", "instead", "rows"}  # fmt: skip
    assert answer.keys() - left_out <= quoted
    assert size.keys() - left_out <= quoted
    assert size["colours"][0].keys() - left_out <= quoted
