"""The commands as a designer or a program calls them."""

from __future__ import annotations

import json
import os
import pty
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result

import hookwright.cli
from hookwright.cli import COMMANDS, command_of, main

CLEAN = """Knot Strap

US terms. Ch 1 does not count as a stitch.

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across, turn. (20 sc)
Rows 2-9: Ch 1, sc in each st across, turn. (20 sc)
"""
SLIP = CLEAN.replace("turn. (20 sc)\nRows", "turn. (19 sc)\nRows")
COMMAND = (sys.executable, "-m", "hookwright")

# What draws, computes on arrays, serves pages or reads other kinds of file has no part in
# the check of a text.
HEAVY = {
    "numpy", "pypdfium2", "typst", "coloraide", "starlette", "xml", "html.parser",
    "hookwright.reading.docx", "hookwright.reading.hypertext", "hookwright.reading.pdf",
    "hookwright.commands.fix", "hookwright.design.worksheet", "hookwright.reporting", "tomlkit",
    "asyncio", "email", "http", "logging",
}  # fmt: skip


def called(*words: str, piped: str | bytes = "") -> Result:
    return CliRunner().invoke(main, words, input=piped)


@pytest.fixture
def clean(tmp_path: Path) -> Path:
    path = tmp_path / "knot-strap.md"
    path.write_text(CLEAN, encoding="utf-8")
    return path


@pytest.fixture
def slip(tmp_path: Path) -> Path:
    path = tmp_path / "knot-strap-slip.md"
    path.write_text(SLIP, encoding="utf-8")
    return path


@pytest.mark.parametrize("text", ["The gulls were loud.\n", "Knot Strap\n\nCh 21.\n"])
def test_a_text_without_rows_ends_with_2(text: str) -> None:
    result = called("check", "-", piped=text)
    assert result.exit_code == 2
    assert "No rows were found to work" in result.stdout


def test_a_clean_pattern_ends_with_0(clean: Path) -> None:
    result = called("check", str(clean))
    assert result.exit_code == 0
    assert result.stdout.splitlines()[-1] == "9 rows: all counts proven."


def test_a_count_that_differs_ends_with_1_and_shows_the_words(slip: Path) -> None:
    result = called("check", str(slip))
    assert result.exit_code == 1
    lines = result.stdout.splitlines()
    marked = next(i for i, line in enumerate(lines) if set(line.strip()) == {"^"})
    start = lines[marked].index("^")
    assert lines[marked - 1][start:] in {"(19 sc)", "19 sc)", "19"}
    assert lines[-1] == "9 rows, 1 finding: 1 to mend."


def test_a_missing_file_ends_with_2_and_a_sentence(tmp_path: Path) -> None:
    path = tmp_path / "nowhere.md"
    result = called("check", str(path))
    assert result.exit_code == 2
    assert result.stdout == ""
    assert result.stderr == f"There is no file {path}.\n"


def test_a_project_folder_is_read_by_its_pattern(clean: Path) -> None:
    clean.rename(clean.with_name("pattern.md"))
    assert called("check", str(clean.parent)).exit_code == 0


def test_a_folder_without_a_pattern_says_so(tmp_path: Path) -> None:
    result = called("check", str(tmp_path))
    assert result.exit_code == 2
    assert result.stderr == f"There is no pattern.md in the folder {tmp_path}.\n"


def test_a_folder_whose_pattern_is_empty_says_that_instead(tmp_path: Path) -> None:
    (tmp_path / "pattern.md").touch()
    result = called("check", str(tmp_path))
    assert result.exit_code == 2
    assert "it is empty" in result.stderr


def test_a_dash_reads_what_is_piped_in() -> None:
    assert called("check", "-", piped=CLEAN).exit_code == 0
    assert called("check", "-", piped=SLIP).exit_code == 1


def test_nothing_piped_in_cannot_be_read() -> None:
    result = called("check", "-", piped="")
    assert result.exit_code == 2
    assert result.stderr.startswith("The text cannot be read:")


def test_bytes_that_are_no_utf_8_are_read_as_windows_writes_them() -> None:
    # Windows code page 1252 has the en dash at 0x96, as Unicode's mapping table
    # CP1252.TXT says.
    piped = CLEAN.replace("2-9", "2\N{EN DASH}9").encode("cp1252")
    result = called("check", "--text", "-", piped=piped)
    assert result.exit_code == 0
    assert "Rows 2\N{EN DASH}9:" in result.stdout


def test_bytes_that_are_no_text_are_refused_in_a_sentence() -> None:
    result = called("check", "-", piped=bytes(range(256)))
    assert result.exit_code == 2
    assert result.stderr.startswith("The text cannot be read: it is not a text file")


def test_several_drafts_stand_under_their_names(clean: Path, slip: Path) -> None:
    result = called("check", "--quiet", str(clean), str(slip))
    assert result.exit_code == 1
    lines = result.stdout.splitlines()
    assert lines[0] == str(clean)
    assert lines[lines.index(str(slip)) + 1] == "-" * len(str(slip))


def test_a_draft_that_cannot_be_read_does_not_keep_the_others_waiting(
    clean: Path, slip: Path, tmp_path: Path
) -> None:
    result = called("check", str(tmp_path / "lost.md"), str(clean), str(slip))
    assert result.exit_code == 2
    assert "all counts proven" in result.stdout
    assert "1 finding" in result.stdout
    assert "lost.md" in result.stderr


def test_quiet_leaves_out_the_rows(slip: Path) -> None:
    assert "Rows 2-9" in called("check", str(slip)).stdout
    quiet = called("check", "--quiet", str(slip))
    assert "Rows 2-9" not in quiet.stdout
    assert "1 finding" in quiet.stdout


def test_all_rows_are_listed_one_by_one(clean: Path) -> None:
    lines = called("check", "--all-rows", str(clean)).stdout.splitlines()
    labels = [line.split("  ")[0] for line in lines if line.startswith("Row ")]
    assert labels == [f"Row {number}" for number in range(1, 10)]


def test_an_object_for_programs_stands_on_one_line(slip: Path, clean: Path) -> None:
    result = called("check", "--json", str(slip), str(clean))
    assert result.exit_code == 1
    first, second = map(json.loads, result.stdout.splitlines())
    assert (first["terms"], first["sizes"]) == ("US", [])
    assert [row["printed"] for row in first["rows"][-2:]] == ["Row 1", "Rows 2-9"]
    assert first["rows"][-1]["times"] == 8
    assert first["rows"][-1]["stitches"] == [20]
    assert first["rows"][-2]["stated"] == [19]
    (finding,) = first["findings"]
    assert (finding["rule"], finding["severity"]) == ("stated-count", "error")
    assert (finding["line"], finding["row"], finding["first"]) == (6, "Row 1", 1)
    assert SLIP[finding["start"] : finding["end"]].strip("()") == "19 sc"
    assert second["findings"] == []
    assert second["name"] == str(clean)


def test_the_object_has_every_key_that_programs_were_promised(slip: Path) -> None:
    (found,) = [json.loads(called("check", "--json", str(slip)).stdout)]
    assert set(found) >= {"terms", "sizes", "rows", "findings"}
    assert set(found["rows"][0]) >= {
        "part", "printed", "first", "last", "times", "line", "stitches", "uses", "spaces",
        "stated", "colours",
    }  # fmt: skip
    assert set(found["findings"][0]) >= {
        "rule", "severity", "line", "column", "row", "first", "last", "part", "sizes",
        "message", "why", "edit",
    }  # fmt: skip


SHEET = '[design]\ntitel = "Knot Strap"\n'


def test_a_worksheet_beside_the_pattern_is_read_with_it(clean: Path) -> None:
    pattern = clean.rename(clean.with_name("pattern.md"))
    clean.with_name("worksheet.toml").write_text(SHEET, encoding="utf-8")
    for path in (str(clean.parent), str(pattern)):
        result = called("check", path)
        assert result.exit_code == 0
        assert "worksheet.toml, line 2: to look at (worksheet)" in result.stdout
        (finding,) = json.loads(called("check", "--json", path).stdout)["findings"]
        assert (finding["text"], finding["line"], finding["column"]) == ("worksheet", 2, 1)
        assert finding["edit"]["replacement"] == "title"


def test_a_worksheet_that_cannot_be_read_is_to_be_mended(clean: Path) -> None:
    clean.rename(clean.with_name("pattern.md"))
    clean.with_name("worksheet.toml").write_text("[design\n", encoding="utf-8")
    result = called("check", str(clean.parent))
    assert result.exit_code == 1
    assert "Rows 2-9" in result.stdout


def test_a_worksheet_that_is_no_text_is_refused_in_a_sentence(clean: Path) -> None:
    clean.rename(clean.with_name("pattern.md"))
    clean.with_name("worksheet.toml").write_bytes(bytes(range(256)))
    result = called("check", str(clean.parent))
    assert result.exit_code == 2
    assert "worksheet.toml cannot be read: it is not a text file" in result.stderr


def test_a_draft_by_another_name_has_no_worksheet(clean: Path) -> None:
    clean.with_name("worksheet.toml").write_text("[design\n", encoding="utf-8")
    assert called("check", str(clean)).exit_code == 0


def test_a_path_is_needed_unless_a_rule_is_explained() -> None:
    assert called("check").exit_code == 2
    assert called("check", "--explain", "row-labels").exit_code == 0


def test_the_text_is_printed_as_it_was_read(clean: Path) -> None:
    clean.write_text("# Knot Strap\r\n\r\n**Row 1:** Ch 3.\r\n", encoding="utf-8")
    result = called("check", "--text", str(clean))
    assert result.exit_code == 0
    assert result.stdout == "  Knot Strap\n\n  Row 1:   Ch 3.\n"


def test_terms_can_be_given(clean: Path) -> None:
    for terms in ("uk", "UK"):
        result = called("check", "--json", "--terms", terms, str(clean))
        assert json.loads(result.stdout)["terms"] == "UK"


def test_no_colours_in_a_pipe(slip: Path) -> None:
    assert "\x1b" not in called("check", str(slip)).stdout


def on_a_terminal(*words: str, **settings: str) -> str:
    """What a command writes to a terminal."""
    keep = {name: text for name, text in os.environ.items() if name != "NO_COLOR"}
    ours, theirs = pty.openpty()
    run = subprocess.Popen(  # noqa: S603 - our own command
        [*COMMAND, *words], stdout=theirs, env=keep | {"TERM": "xterm"} | settings
    )
    os.close(theirs)
    written = b""
    while True:
        try:
            piece = os.read(ours, 4096)
        except OSError:  # on Linux, the end of what a terminal has to give
            break
        if not piece:
            break
        written += piece
    run.wait()
    os.close(ours)
    return written.decode()


def test_colours_on_a_terminal_unless_they_are_declined(slip: Path) -> None:
    """Source: no-color.org; an empty NO_COLOR declines nothing."""
    assert "\x1b[31m^" in on_a_terminal("check", str(slip))
    assert "\x1b[31m^" in on_a_terminal("check", str(slip), NO_COLOR="")
    assert "\x1b" not in on_a_terminal("check", str(slip), NO_COLOR="1")
    assert "\x1b" not in on_a_terminal("check", str(slip), TERM="dumb")


def test_a_pipe_that_is_closed_early_ends_quietly_with_what_was_found(slip: Path) -> None:
    run = subprocess.Popen(  # noqa: S603 - our own command
        [*COMMAND, "check", str(slip), str(slip)],
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
    )
    assert run.stdout is not None
    assert run.stderr is not None
    run.stdout.close()
    complaint = run.stderr.read()
    run.stderr.close()
    assert (run.wait(), complaint) == (1, b"")


def test_letters_that_the_output_does_not_have_are_spelled_out(tmp_path: Path) -> None:
    path = tmp_path / "strap.md"
    path.write_text(SLIP.replace("turn. (19", "wende \N{SNOWMAN}. (19"), encoding="utf-8")
    run = subprocess.run(  # noqa: S603 - our own command
        [*COMMAND, "check", str(path)],
        capture_output=True,
        check=False,
        env=os.environ | {"PYTHONIOENCODING": "ascii"},
    )
    assert b"Traceback" not in run.stderr
    assert b"\\u2603" in run.stdout


def modules_after(*words: str) -> set[str]:
    """What has been imported when a command has ended, in an interpreter of its own."""
    program = (
        "import sys\n"
        "from hookwright.cli import main\n"
        "try:\n"
        "    main(sys.argv[1:])\n"
        "except SystemExit:\n"
        "    pass\n"
        "print(*sorted(sys.modules), sep='\\n', file=sys.stderr)\n"
    )
    run = subprocess.run(  # noqa: S603 - our own command
        [sys.executable, "-c", program, *words], capture_output=True, check=True, text=True
    )
    return set(run.stderr.split())


def test_help_imports_nothing_of_ours_but_the_commands() -> None:
    found = modules_after("--help")
    ours = {name for name in found if name.startswith("hookwright")}
    assert ours == {"hookwright", "hookwright.cli"}
    assert not found & HEAVY


def test_every_command_is_listed_with_the_first_line_of_its_help() -> None:
    modules = {
        path.stem
        for path in Path(str(hookwright.cli.__file__)).parent.glob("*.py")
        if path.stem not in {"__init__", "options"}
    }
    assert set(COMMANDS) == modules
    for name, line in COMMANDS.items():
        assert (command_of(name).help or "").splitlines()[0] == line


def test_a_check_imports_nothing_heavy(clean: Path) -> None:
    found = modules_after("check", str(clean))
    assert "hookwright.working" in found
    assert not found & HEAVY


def test_the_help_tells_what_the_exit_status_means() -> None:
    told = called("check", "--help").stdout
    assert "exit status" in told
    assert "!" not in told
