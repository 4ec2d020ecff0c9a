"""`check --fix` makes safe changes in the file, keeps the earlier one, and says so."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from msgspec.structs import replace

from hookwright.checking import Checked, check
from hookwright.cli import main
from hookwright.commands.fix import Fixed, changed_safely, make_changes, numbers_of
from hookwright.commands.writing import NotWritten
from hookwright.finding import Edit, Finding, Severity
from hookwright.reading import read_bytes, read_draft
from hookwright.source import Span
from hookwright.terminal import NO_INK, Ink

ROOT = Path(__file__).parents[2]
DRAFTS = sorted(
    path
    for path in (ROOT / "tests" / "cases").glob("*/*")
    if path.suffix in {".md", ".txt"}
)[::9]
PAGES = sorted((ROOT / "docs" / "findings").glob("*.md"))
SNIPPET = re.compile(r"```text\n(.*?)```", re.DOTALL)

STRIP = """# Eider Strip

US terms. Ch 1 does not count as a stitch.

**Abbreviations:** ch = chain, sc = single crochet.

Ch 21.
**Row 1:** Sc in 2nd ch from hook and in each ch across, turn. (20 sc)
**Row 2:** Ch 1, sc in each st across, turn. (20 sc)
"""


@pytest.fixture
def strip(tmp_path: Path) -> Path:
    path = tmp_path / "strip.md"
    path.write_text(STRIP, encoding="utf-8")
    return path


def again(data: bytes) -> Checked:
    return check(read_bytes(data, ".md", "strip.md"))


def with_edits(data: bytes, *edits: tuple[str, str, bool]) -> Checked:
    """A pattern with findings by hand: words, what comes in their place, whether safely."""
    checked = again(data)
    text = checked.source.text
    findings = []
    for old, new, safe in edits:
        at = text.index(old)
        span = Span(at, at + len(old))
        edit = Edit(span, new, safe)
        findings.append(Finding("side", Severity.ADVICE, span, "A word.", edit=edit))
    return replace(checked, findings=tuple(findings))


def made(path: Path, *edits: tuple[str, str, bool], colours: Ink = NO_INK) -> Fixed:
    data = path.read_bytes()
    return make_changes(path, data, with_edits(data, *edits), again, colours)


def test_safe_changes_are_made_and_the_earlier_file_is_kept(strip: Path) -> None:
    fixed = made(strip, ("sc = single crochet", "sc = single crochet, st = stitch", True))
    assert strip.read_text("utf-8") == STRIP.replace("crochet.", "crochet, st = stitch.")
    kept = strip.with_name("strip.earlier-1.md")
    assert kept.read_text("utf-8") == STRIP
    assert fixed.told == (
        f"1 change was made in {strip}. The text as it was is kept in {kept}.",
    )
    assert fixed.checked.source.text.count("st = stitch") == 1


def test_the_difference_shows_the_lines_as_they_stand_in_the_file(strip: Path) -> None:
    words = ("in each st across", "in every st across", True)
    assert made(strip, words).difference.splitlines() == [
        "--- strip.earlier-1.md",
        "+++ strip.md",
        "@@ -8,2 +8,2 @@",
        " **Row 1:** Sc in 2nd ch from hook and in each ch across, turn. (20 sc)",
        "-**Row 2:** Ch 1, sc in each st across, turn. (20 sc)",
        "+**Row 2:** Ch 1, sc in every st across, turn. (20 sc)",
    ]


def test_the_difference_is_coloured_where_colours_are(strip: Path) -> None:
    words = ("in each st across", "in every st across", True)
    shown = made(strip, words, colours=Ink(on=True)).difference
    assert "\x1b[31m-**Row 2" in shown
    assert "\x1b[94m+**Row 2" in shown


def test_what_is_not_safe_is_left(strip: Path) -> None:
    fixed = made(strip, ("20 sc", "21 sc", False))
    assert strip.read_text("utf-8") == STRIP
    assert list(strip.parent.iterdir()) == [strip]
    assert fixed.difference == ""
    assert "nothing that is safe to change unread" in fixed.told[0]


def test_nothing_is_written_where_the_rows_would_come_to_other_numbers(strip: Path) -> None:
    fixed = made(strip, ("sc in each st across", "sc in next 9 sts", True))
    assert strip.read_text("utf-8") == STRIP
    assert list(strip.parent.iterdir()) == [strip]
    assert "other numbers" in fixed.told[0]


def test_changes_that_touch_wait_for_the_next_run(strip: Path) -> None:
    first = ("Eider Strip", "Eider Band", True)
    fixed = made(strip, first, ("Strip", "Sash", True))
    assert strip.read_text("utf-8") == STRIP.replace("Strip", "Band")
    assert fixed.told[1] == "1 change in the same words waits: run the command again."


def test_words_with_marks_among_them_are_left_and_told(strip: Path) -> None:
    fixed = made(strip, ("Row 2:   Ch", "Row 2: Then ch", True), ("Eider", "Gannet", True))
    assert strip.read_text("utf-8") == STRIP.replace("Eider", "Gannet")
    assert fixed.told[1] == (
        "Left as it is, for marks stand among its words: line 9, column 3."
    )


def test_a_file_that_was_changed_meanwhile_is_not_written(strip: Path) -> None:
    data = strip.read_bytes()
    strip.write_text("Her own words.\n", encoding="utf-8")
    checked = with_edits(data, ("Eider", "Gannet", True))
    with pytest.raises(NotWritten, match="changed since it was read"):
        make_changes(strip, data, checked, again, NO_INK)
    assert strip.read_text("utf-8") == "Her own words.\n"


def called(*words: str, piped: str = "") -> Result:
    return CliRunner().invoke(main, ["check", *words], input=piped)


def test_a_pattern_without_safe_changes_is_checked_as_ever(strip: Path) -> None:
    result = called("--fix", str(strip))
    assert result.exit_code == 0
    assert result.stdout.startswith("There is nothing that is safe to change unread")
    assert called(str(strip)).stdout in result.stdout
    assert strip.read_text("utf-8") == STRIP


def test_other_files_are_to_be_brought_in_first(tmp_path: Path) -> None:
    page = tmp_path / "strip.html"
    page.write_text(f"<pre>{STRIP}</pre>", encoding="utf-8")
    result = called("--fix", str(page))
    assert (result.exit_code, result.stdout) == (2, "")
    assert "hookwright bring" in result.stderr
    assert called("--fix", "-", piped=STRIP).exit_code == 2


def test_a_text_alone_is_not_changed(strip: Path) -> None:
    assert called("--fix", "--text", str(strip)).exit_code == 2


def test_an_object_for_programs_stays_one(strip: Path) -> None:
    result = called("--fix", "--json", str(strip))
    assert result.stdout.startswith("{")
    assert result.stdout.count("\n") == 1


@pytest.mark.parametrize("path", DRAFTS, ids=lambda path: f"{path.parent.name}/{path.name}")
def test_safe_changes_leave_every_row_its_numbers(path: Path) -> None:
    data = path.read_bytes()
    before = check(read_draft(path))
    changed = changed_safely(data, path.suffix, before.draft, before.findings)
    if changed.made:
        after = check(read_bytes(changed.data, path.suffix, path.name))
        assert numbers_of(after) == numbers_of(before)


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.stem)
def test_safe_changes_of_what_the_pages_show_are_made(page: Path, tmp_path: Path) -> None:
    for number, text in enumerate(SNIPPET.findall(page.read_text("utf-8"))):
        path = tmp_path / f"{number}.md"
        path.write_text(text, encoding="utf-8")
        before = check(read_draft(path))
        safe = [f.edit for f in before.findings if f.edit is not None and f.edit.safe]
        result = called("--fix", "--quiet", str(path))
        assert (path.read_text("utf-8") != text) == bool(safe), result.output
        assert numbers_of(check(read_draft(path))) == numbers_of(before)
