"""`hookwright draw` writes drawings, and nothing over what is none."""

from __future__ import annotations

from pathlib import Path

import pytest
from click.testing import CliRunner

from hookwright.cli import main
from hookwright.commands.check import Status

TEXT = (
    "US terms. The ch 1 at the start of a row does not count as a stitch.\n\n"
    "Gauge: 16 sts and 18 rows in single crochet are 10 cm (4 in).\n\nCh 7.\n"
    "Row 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (6 sc)\n"
    "Row 2: Ch 1, sc in each st across. Turn. (6 sc)\n"
)


@pytest.fixture
def strap(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.chdir(tmp_path)
    path = tmp_path / "strap.md"
    path.write_text(TEXT, encoding="utf-8")
    return path


@pytest.mark.parametrize("kind", ["chart", "schematic"])
def test_a_drawing_is_named_by_its_draft(strap: Path, kind: str) -> None:
    result = CliRunner().invoke(main, ["draw", str(strap), f"--{kind}"])
    assert result.exit_code == Status.CLEAN, result.output
    drawn = strap.with_name(f"strap-{kind}.svg").read_text("utf-8")
    assert drawn.startswith("<svg xmlns=")
    assert "<desc" in drawn


def test_a_png_is_as_wide_as_is_asked(strap: Path) -> None:
    words = [
        "draw",
        str(strap),
        "--chart",
        "--left-handed",
        "-o",
        "out.png",
        "--pixels",
        "300",
    ]
    assert CliRunner().invoke(main, words).exit_code == Status.CLEAN
    data = strap.with_name("out.png").read_bytes()
    # Source: Portable Network Graphics, IHDR: the width behind the first 16 bytes.
    assert int.from_bytes(data[16:20], "big") == 300


def test_what_is_no_drawing_is_not_written_over(strap: Path) -> None:
    kept = strap.with_name("notes.svg")
    kept.write_text("her own words", encoding="utf-8")
    result = CliRunner().invoke(main, ["draw", str(strap), "--chart", "-o", "notes.svg"])
    assert result.exit_code == Status.NOT_READ
    assert kept.read_text("utf-8") == "her own words"


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (["--chart", "-o", "chart.pdf"], ".svg or .png"),
        (["--chart", "--part", "Sleeve"], "Sleeve"),
        (["--chart", "--size", "Large"], "one size"),
        (["--stripes"], "no second yarn"),
    ],
)
def test_what_cannot_be_drawn_is_told(strap: Path, words: list[str], said: str) -> None:
    result = CliRunner().invoke(main, ["draw", str(strap), *words])
    assert result.exit_code == Status.NOT_READ
    assert said in result.output
