"""`bring` makes a project folder of any draft, and writes over nothing."""

from __future__ import annotations

import re
from fractions import Fraction
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

from hookwright.checking import check
from hookwright.cli import main
from hookwright.commands.fix import numbers_of
from hookwright.commands.project import draft_at, worksheet_at
from hookwright.design.facts import (
    Along,
    Colour,
    Design,
    Finished,
    Gauge,
    Measure,
    State,
    YarnListed,
)
from hookwright.design.worksheet.keys import TABLES
from hookwright.design.worksheet.reading import read_worksheet
from hookwright.design.worksheet.template import worksheet_for
from hookwright.reading import read_draft
from hookwright.source import Source, Span

ROOT = Path(__file__).parents[1]
DRAFTS = [
    *(ROOT / "reading" / "files" / name for name in ("typeset.pdf", "word-processor.docx")),
    *sorted((ROOT.parent / "examples").glob("*-slip.md")),
    *sorted((ROOT / "cases").glob("round*/*.txt"))[::20],
]
NOWHERE = Span(0, 0)
CUFF = """Skerry Cuff

US terms. Ch 1 does not count as a stitch.

Sizes: S (M, L)

Ch 31 (37, 43).
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (30 (36, 42) sc)
"""


def called(*words: str, piped: str = "") -> Result:
    return CliRunner().invoke(main, ["bring", *words], input=piped)


@pytest.mark.parametrize("path", DRAFTS, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_the_folder_reads_as_the_draft_did(path: Path, tmp_path: Path) -> None:
    folder = tmp_path / "eider"
    result = called(str(path), str(folder))
    assert result.exit_code == 0
    assert "read otherwise" not in result.stdout
    before = check(read_draft(path))
    after = check(draft_at(str(folder)), worksheet=worksheet_at(str(folder)))
    assert numbers_of(after) == numbers_of(before)
    assert after.terms == before.terms
    assert [f.rule for f in after.findings] == [f.rule for f in before.findings]
    assert after.worksheet is not None
    assert after.worksheet.findings == ()


def test_it_says_what_it_did_and_what_comes_next(tmp_path: Path) -> None:
    folder = tmp_path / "cuff"
    result = called("-", str(folder), piped=CUFF)
    words = " ".join(result.stdout.split())
    assert (
        f"{folder / 'pattern.md'}: 1 row, as they were read from what was piped in."
        in words
    )
    filled = re.search(r"filled in from the pattern: ([^.]*)\.", words)
    assert filled is not None
    assert {"the terms", "3 sizes"} <= set(filled[1].split(", "))
    assert result.stdout.splitlines()[-1] == f"Next: hookwright check {folder}"


def test_a_markdown_draft_keeps_its_own_marks(tmp_path: Path) -> None:
    draft = tmp_path / "eider.md"
    text = "# Eider\n\n![chart](a.png)\n\n**Row 1:** Ch 3.\n"
    draft.write_bytes(b"\xef\xbb\xbf" + text.replace("\n", "\r\n").encode())
    assert called(str(draft), str(tmp_path / "eider")).exit_code == 0
    assert (tmp_path / "eider" / "pattern.md").read_bytes() == text.encode()


@pytest.mark.parametrize("name", ["pattern.md", "worksheet.toml"])
def test_nothing_is_written_over(name: str, tmp_path: Path) -> None:
    (tmp_path / name).write_text("hers", encoding="utf-8")
    result = called("-", str(tmp_path), piped=CUFF)
    assert result.exit_code == 2
    assert "nothing was written over it" in result.stderr
    assert [path.name for path in tmp_path.iterdir()] == [name]
    assert (tmp_path / name).read_text("utf-8") == "hers"


def test_a_file_is_no_folder(tmp_path: Path) -> None:
    (tmp_path / "eider").write_text("hers", encoding="utf-8")
    result = called("-", str(tmp_path / "eider"), piped=CUFF)
    assert result.exit_code == 2
    assert "is a file" in result.stderr


def test_a_draft_that_is_not_there_is_told(tmp_path: Path) -> None:
    result = called(str(tmp_path / "lost.md"), str(tmp_path / "eider"))
    assert result.exit_code == 2
    assert "There is no file" in result.stderr
    assert not (tmp_path / "eider").exists()


def inches(*numbers: int) -> Measure:
    """Lengths; an inch is 25.4 mm."""
    return Measure(tuple(Fraction(254, 10) * number for number in numbers), "in", NOWHERE)


def test_what_the_text_says_of_the_design_is_filled_in() -> None:
    checked = check(Source(CUFF))
    design = Design(
        title='The "Cuff"\\',
        gauges=(
            Gauge(
                NOWHERE,
                Fraction(33, 2),
                Fraction(12),
                inches(4),
                inches(4),
                stitch="hdc",
                state=State.BLOCKED,
                hook_mm=Fraction(11, 2),
            ),
        ),
        yarns=(
            YarnListed(
                NOWHERE,
                "Skarrow",
                4,
                Fraction(200),
                Fraction(100),
                (Colour("A", "Foam", NOWHERE), Colour("B", "Squall", NOWHERE)),
            ),
        ),
        finished=(Finished(Along.WIDTH, inches(8, 9, 10), NOWHERE),),
    )
    template = worksheet_for(checked.reading.pattern, design, "")
    assert template.filled == (
        "the title",
        "the terms",
        "the units",
        "1 swatch",
        "2 yarns",
        "3 sizes",
    )
    sheet = read_worksheet(Source(template.text))
    assert sheet.findings == ()
    noted = sheet.noted
    assert (noted.title, noted.terms, noted.units) == ('The "Cuff"\\', "US", "in")
    (swatch,) = noted.swatches
    assert (swatch.stitches, swatch.rows, swatch.stitch) == (
        Fraction(33, 2),
        Fraction(12),
        "hdc",
    )
    assert swatch.width is not None
    assert swatch.width.mm == inches(4).mm
    assert [yarn.colours[0].name for yarn in noted.yarns] == ["Foam", "Squall"]
    assert [size.name for size in noted.sizes] == ["S", "M", "L"]
    assert [size.width and size.width.mm for size in noted.sizes] == [
        inches(8).mm, inches(9).mm, inches(10).mm,
    ]  # fmt: skip


def test_every_example_may_be_taken_up() -> None:
    text = worksheet_for(check(Source("Ch 3.\n")).reading.pattern, Design(), "").text
    for table in TABLES:
        assert f"# {table.heading}\n" in text
    taken = "\n".join(
        line.removeprefix("# ") if " = " in line or line.startswith("# [") else line
        for line in text.splitlines()
    )
    found = read_worksheet(Source(taken)).findings
    assert {f.message.split('"')[0] for f in found} <= {
        "A swatch is counted in stitches or in repeats, and this says both.", "",
    }  # fmt: skip
