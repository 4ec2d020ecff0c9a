"""The example patterns: clean as they stand, and one finding where a slip is planted."""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from pathlib import Path

import pytest
from click.testing import CliRunner

from hookwright.cli import main

EXAMPLES = Path(__file__).parent.parent / "examples"
CLEAN = [path for path in EXAMPLES.glob("*.md") if path.stem != "README"]
CLEAN = sorted(path for path in CLEAN if not path.stem.endswith("-slip"))


@dataclass(frozen=True, slots=True)
class Slip:
    """A planted slip as examples/README.md names it.

    Attributes:
        told: All that is said of it there.
    """

    file: str
    part: str
    row: str
    size: str
    told: str


def slips() -> list[Slip]:
    """The table under "The slips": file, then "Part, Row 1, what" or "Row 1, what"."""
    found = []
    told = (EXAMPLES / "README.md").read_text(encoding="utf-8").partition("## The slips")[2]
    for line in told.splitlines():
        cells = [cell.strip(" `") for cell in line.strip("|").split("|")]
        if cells[0].endswith("-slip.md"):
            where = re.match(r"(?:(?P<part>[^,]+), )?(?P<row>(?:Row|Rnd)s? \d+)", cells[1])
            assert where is not None
            size = re.search(r"size (\w+)", cells[1])
            found.append(
                Slip(
                    cells[0],
                    where["part"] or "",
                    where["row"],
                    size[1] if size else "",
                    " ".join(cells[1:]),
                )
            )
    return found


@pytest.mark.parametrize("path", CLEAN, ids=lambda path: path.stem)
def test_an_example_is_clean(path: Path) -> None:
    result = CliRunner().invoke(main, ["check", str(path)])
    assert result.exit_code == 0, result.output


@pytest.mark.parametrize("slip", slips(), ids=lambda slip: slip.file)
def test_a_planted_slip_is_the_one_thing_to_mend(slip: Slip) -> None:
    path = str(EXAMPLES / slip.file)
    result = CliRunner().invoke(main, ["check", "--json", path])
    errors = [f for f in json.loads(result.stdout)["findings"] if f["severity"] == "error"]
    told = CliRunner().invoke(main, ["check", "--quiet", path]).output
    assert result.exit_code == 1, told
    assert len(errors) == 1, told
    assert re.match(rf"{slip.row}\b", errors[0]["row"] or ""), told
    assert not slip.part or errors[0]["part"] == slip.part, told
    assert errors[0]["sizes"] == ([slip.size] if slip.size else []), told
    number = re.search(r"makes (\d+)|(\d+) are left over", errors[0]["message"])
    assert number is not None, told
    assert re.search(rf"\b{number[1] or number[2]}\b", slip.told), told


def test_every_slip_is_named_and_has_its_clean_twin() -> None:
    named = {slip.file for slip in slips()}
    assert named == {path.name for path in EXAMPLES.glob("*-slip.md")}
    assert {name.replace("-slip", "") for name in named} == {path.name for path in CLEAN}
