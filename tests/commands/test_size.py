"""`size` tells chains, repeats and rows, says what cannot be made, and never raises."""

from __future__ import annotations

import json
import re
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from click.testing import CliRunner, Result
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st
from sizing_texts import STRIP, sized

from hookwright.cli import main
from hookwright.commands.check import Status

EXAMPLES = Path(__file__).parents[2] / "examples"
DRAFTS = sorted(path for path in EXAMPLES.glob("*.md") if path.stem != "README")
WAVES = str(EXAMPLES / "turnstone-wave-throw.md")


def called(*words: str, piped: str = "") -> Result:
    return CliRunner().invoke(main, ["size", *words], input=piped)


def answered(*words: str, piped: str = "") -> dict[str, Any]:
    found: dict[str, Any] = json.loads(called(*words, "--json", piped=piped).stdout)
    return found


def test_a_wish_is_told_in_both_units_with_its_spread() -> None:
    result = called(WAVES, "--width", "45in", "--height", "150cm")
    assert result.exit_code == Status.CLEAN
    row = next(line for line in result.stdout.splitlines() if line.startswith("As asked"))
    # 45 in over 115 mm a wave is 9.9: 10 waves, 20 x 10 + 2 chains, 1150 + 5.75 mm wide;
    # rows in whole sequences of 12 and 2 more, 12.5 mm each: 122.
    assert row.split() == [
        "As", "asked", "10", "202", "201", "122", "115.6", "45", "1/2", "1.4", "152.5",
        "60", "4.8",
    ]  # fmt: skip


def test_without_a_wish_multiple_gauge_present_size_and_swatch_are_told() -> None:
    words = called(WAVES).stdout
    for told in (
        "multiple",
        "20 + 2",
        "20 + 1",
        "as written",
        "9 repeats",
        "gauge",
        "Swatch",
    ):
        assert told in words
    # As printed in the pattern: about 104 cm wide and 142 cm long with both edgings.
    assert "104.1 cm (41 in) wide" in words


def test_the_answer_for_programs() -> None:
    found = answered(WAVES, "--size", "throw", "--width", "45in")
    part = found["parts"][0]
    assert found["multiple"] == part["multiple"]
    assert found["sizes"] == part["sizes"]
    assert part["part"] == "Throw"
    assert part["make"] == 1
    assert part["multiple"]["chains"] == [20, 2]
    assert part["multiple"]["stitches"] == [20, 1]
    assert part["multiple"]["rows"][0] == 1
    asked, throw = part["sizes"]
    assert (asked["name"], asked["repeats"], asked["chain"]) == ("As asked", 10, 202)
    assert (throw["name"], throw["repeats"], throw["stitches"]) == ("Throw", 11, 221)
    assert throw["width_mm"] == pytest.approx(11 * 115 + 5.75)
    assert throw["width_spread_mm"] > 0
    assert throw["height_mm"] == pytest.approx(throw["rows"] * 12.5)
    assert throw["height_spread_mm"] > 0
    assert found["gauge"]["repeat_mm"] == 115
    assert found["gauge"]["from"] == "the pattern"
    assert [f for f in found["findings"] if f["severity"] == "error"] == []


def test_what_is_not_known_is_null_with_its_reason() -> None:
    found = answered(str(EXAMPLES / "petrel-cap.md"), "--size", "hat child")
    crown = found["parts"][0]
    assert crown["multiple"] is None or crown["multiple"]["chains"] is None
    assert crown["reason"]
    (size,) = crown["sizes"]
    assert size["repeats"] is None
    assert size["chain"] is None
    # 18 1/2 in around are 75.2 hdc of 6.25 mm: 72, the nearest that rounds of 8 more make.
    assert (size["stitches"], size["rows"]) == (72, 24)


@pytest.mark.parametrize(
    ("words", "told"),
    [
        (("--width", "2 in"), "is the least that can be made"),
        (("--width", "0 in"), "more than 0"),
        (("--height", "0 cm"), "more than 0"),
        (("--height", "-5 cm"), "more than 0"),
        (("--height", "1 mm"), "is lower than the least"),
        (("--width", "banana"), "cannot be read as a length"),
        (("--width", "45"), "has no unit"),
        (("--width", "45 in", "--gauge", "0 sts = 4 in"), "more than 0"),
        (("--width", "45 in", "--gauge", "-14 sts = 4 in"), "below 0"),
        (("--width", "45 in", "--gauge", "thick"), "cannot be read as a gauge"),
        (("--size", "trow"), 'Is "throw" meant?'),
        (("--size", "zzzzzz"), 'There is no size "zzzzzz".'),
        (("--size", ""), 'There is no size "".'),
        (("--size", "45 in"), "is one length"),
        (("--size", "50x60"), "Write the unit behind them: 50x60 in, or 50x60 cm."),
        (("--size", "0 x 0 in"), "more than 0"),
        (("--size", "1000 m x 900 m"), "is longer than 100 m"),
        (("--width", ""), '"" cannot be read as a length'),
        (("--width", "45 in", "--gauge", ""), '"" cannot be read as a gauge'),
        (("--width", "45 in", "--gauge", "9999 sts = 0.1 in"), "too small or too large"),
        (("--width", "45 in", "--gauge", "1 st = 90 m"), "too small or too large"),
    ],
)
def test_what_cannot_be_is_said_with_what_can(words: tuple[str, ...], told: str) -> None:
    result = called(WAVES, *words)
    assert result.exit_code == Status.TO_MEND
    said = " ".join(result.stdout.split())
    assert told in said
    assert "size" in said


def test_the_other_sizes_are_made_all_the_same() -> None:
    found = answered(WAVES, "--size", "throw", "--size", "trow", "--width", "1 in")
    made = {size["name"]: size["repeats"] for size in found["sizes"]}
    assert made == {"As asked": None, "Throw": 11}
    errors = [f for f in found["findings"] if f["severity"] == "error"]
    assert [(f["text"], f["rule"]) for f in errors] == [("asked", "size")] * 2
    assert found["sizes"][0]["reason"]


def test_a_pattern_with_errors_says_so_and_ends_as_a_check_does() -> None:
    result = called(str(EXAMPLES / "turnstone-wave-throw-slip.md"), "--size", "throw")
    assert result.exit_code == Status.TO_MEND
    assert "1 finding to mend" in result.stdout


def test_no_rows_and_no_draft_end_as_a_check_does(tmp_path: Path) -> None:
    assert called("-", piped="Nothing here.\n").exit_code == Status.NOT_READ
    assert called(str(tmp_path / "none.md")).exit_code == Status.NOT_READ


def test_the_working_is_told_when_it_is_asked_for() -> None:
    short = called(WAVES, "--size", "throw").stdout
    whole = called(WAVES, "--size", "throw", "--how").stdout
    assert "Worked out so" not in short
    assert "rounded up to the nearer" in " ".join(whole.split())
    assert "10 stripe sequences of 12 rows and 2 more" in " ".join(whole.split())
    assert "48 x 60 to 52 x 60 in" in whole


def project(folder: Path, sheet: str, text: str = STRIP) -> str:
    (folder / "pattern.md").write_text(text, encoding="utf-8")
    (folder / "worksheet.toml").write_text(sheet, encoding="utf-8")
    return str(folder)


SHEET = """\
[[swatch]]
stitches = 16
rows = 20
width = "4 in"
height = "4 in"

[[size]]
name = "Throw"
width = "40 in"
height = "50 in"

[[size]]
name = "Bookmark"
width = "1/8 in"
"""


def test_the_sizes_of_the_worksheet_are_wanted_where_no_other_is(tmp_path: Path) -> None:
    path = project(tmp_path, SHEET)
    found = answered(path)
    assert [size["name"] for size in found["sizes"]] == ["Throw", "Bookmark"]
    assert found["sizes"][0]["stitches"] == 160
    (wrong,) = (f for f in found["findings"] if f["rule"] == "size")
    assert wrong["text"] == "worksheet"
    assert wrong["line"] == SHEET.splitlines().index('name = "Bookmark"') + 1
    assert called(path).exit_code == Status.TO_MEND


def test_a_size_of_the_worksheet_goes_before_the_usual_one(tmp_path: Path) -> None:
    (size,) = answered(project(tmp_path, SHEET), "--size", "throw")["sizes"]
    assert size["wanted_width_mm"] == pytest.approx(40 * 25.4)


def test_a_narrow_screen_has_each_size_in_lines(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr("hookwright.commands.size.width", lambda: 40)
    lines = called(WAVES, "--size", "throw").stdout.splitlines()
    table = lines[lines.index("Throw", 5) : lines.index("Throw", 5) + 4]
    assert "repeats 11, chain 222" in " ".join(" ".join(table).split())
    assert all(len(line) <= 40 for line in lines[:-1])


@pytest.mark.parametrize("draft", DRAFTS, ids=lambda path: path.stem)
def test_every_example_can_be_sized(draft: Path) -> None:
    result = called(str(draft), "--width", "20 in", "--height", "20 in", "--size", "hats")
    assert result.exception is None or isinstance(result.exception, SystemExit)
    assert result.exit_code in {Status.CLEAN, Status.TO_MEND}


def test_the_numbers_of_a_size_are_written_into_a_new_text(tmp_path: Path) -> None:
    file = tmp_path / "wide.md"
    scarf = str(EXAMPLES / "fulmar-lace-scarf.md")
    result = called(scarf, "--width", "12in", "--height", "40in", "--write", str(file))
    assert result.exit_code == Status.CLEAN
    text = file.read_text("utf-8")
    # 12 in over 44 mm a fan are 6.7: 7 fans, 8 x 7 + 2 chains; 25 sets of 4 rows.
    assert "Ch 58." in text
    assert "Rows 7-98: Rep Rows 3-6 23 more times." in text
    again = CliRunner().invoke(main, ["check", "--quiet", str(file)])
    assert "100 rows: all counts proven." in again.stdout
    before = Path(scarf).read_text("utf-8").splitlines()
    assert len(before) == len(text.splitlines())


def test_several_sizes_are_written_as_lists(tmp_path: Path) -> None:
    file = tmp_path / "both.md"
    scarf = str(EXAMPLES / "fulmar-lace-scarf.md")
    found = answered(scarf, "--size", "scarf", "--size", "stole", "--write", str(file))
    assert found["written"] == str(file)
    chains = [size["chain"] for size in found["sizes"]]
    assert f"Ch {chains[0]} ({chains[1]})." in file.read_text("utf-8")
    again = CliRunner().invoke(main, ["check", "--json", str(file)])
    assert len(json.loads(again.stdout)["sizes"]) == 2


def test_nothing_is_written_over_nor_where_no_size_is_asked(tmp_path: Path) -> None:
    scarf = str(EXAMPLES / "fulmar-lace-scarf.md")
    file = tmp_path / "there.md"
    file.write_text("mine", encoding="utf-8")
    result = called(scarf, "--width", "12in", "--write", str(file))
    assert result.exit_code == Status.NOT_READ
    assert file.read_text("utf-8") == "mine"
    other = tmp_path / "other.md"
    assert called(scarf, "--write", str(other)).exit_code == Status.TO_MEND
    assert not other.exists()
    assert called(scarf, "--width", "12in", "--write", "x.pdf").exit_code == Status.NOT_READ
    mistyped = tmp_path / "no such folder" / "scarf.md"
    result = called(scarf, "--width", "12in", "--write", str(mistyped))
    assert result.exit_code == Status.NOT_READ
    assert "there is no folder" in result.output
    assert not mistyped.parent.exists()


def test_what_has_sizes_of_its_own_is_not_written(tmp_path: Path) -> None:
    file = tmp_path / "cap.md"
    cap = str(EXAMPLES / "petrel-cap.md")
    result = called(cap, "--size", "child hat", "--write", str(file))
    assert result.exit_code == Status.TO_MEND
    assert "The text has 5 sizes of its own" in result.stdout
    assert not file.exists()


FANS = str(EXAMPLES / "fulmar-lace-scarf.md")


@pytest.mark.parametrize(
    "wish",
    [
        ("--width", "1 cm"),
        ("--size", "scarf", "--size", "bogus"),
        ("--size", "scarf", "--gauge", "thick"),
        ("--size", "50 x 60 in", "--size", "50 x 60 in"),
        ("--width", "12 in", "--size", "\u4e00 x"),
    ],
)
def test_where_not_all_can_be_made_no_text_is_written(
    tmp_path: Path, wish: tuple[str, ...]
) -> None:
    file = tmp_path / "none.md"
    result = called(FANS, *wish, "--write", str(file))
    assert result.exit_code == Status.TO_MEND
    assert "The text with the new numbers" not in result.output
    assert not file.exists()


def test_sizes_are_written_from_small_to_large(tmp_path: Path) -> None:
    """Common practice, no source: a list of sizes begins with the smallest."""
    file = tmp_path / "both.md"
    called(FANS, "--size", "stole", "--size", "scarf", "--write", str(file))
    assert "Sizes: Adult scarf (Stole)." in file.read_text("utf-8")
    again = json.loads(CliRunner().invoke(main, ["check", "--json", str(file)]).stdout)
    assert again["sizes"] == ["Adult scarf", "Stole"]


def test_what_the_text_still_says_of_its_old_size_is_told(tmp_path: Path) -> None:
    file = str(tmp_path / "wide.md")
    asked = ("--width", "45 in", "--gauge", "1 repeat = 4 in")
    result = called(WAVES, *asked, "--write", file)
    assert "The amounts of yarn stand as they were" in result.stderr
    assert "is still of its own gauge" in result.stderr
    found = answered(WAVES, *asked, "--write", str(tmp_path / "again.md"))
    assert len(found["look_at"]) == 2


def test_stitches_without_a_name_are_said_to_be_counted_across_the_waves() -> None:
    told = "taken as counted straight across the waves"
    gauge = ("--width", "45 in", "--gauge")
    assert told in " ".join(called(WAVES, *gauge, "14 sts = 4 in").stdout.split())
    assert told not in " ".join(called(WAVES, *gauge, "14 dc = 4 in").stdout.split())
    assert told not in " ".join(called(WAVES, *gauge, "1 repeat = 5 in").stdout.split())


WORDS = st.one_of(
    st.text(max_size=20),
    st.sampled_from(
        ["45 in", "0 in", "1 mm", "99 m", "throw", "hats", "bodies", "50 x 60 in"]
    ),
)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(WORDS, WORDS, st.lists(WORDS, max_size=2), st.one_of(WORDS, st.just("1 sts = 9 m")))
def test_no_wish_raises(width: str, height: str, sizes: list[str], gauge: str) -> None:
    found = sized(STRIP, width=width, height=height, sizes=sizes, gauge=gauge)
    for part in found.parts:
        for size in part.sizes:
            assert (size.nearest is None) == bool(size.reason)


def test_a_check_imports_nothing_of_the_sizes(tmp_path: Path) -> None:
    path = tmp_path / "strip.md"
    path.write_text(STRIP, encoding="utf-8")
    run = subprocess.run(  # noqa: S603 - our own command
        [sys.executable, "-X", "importtime", "-m", "hookwright", "check", str(path)],
        capture_output=True, check=True, text=True,
    )  # fmt: skip
    assert "hookwright.sizing" not in run.stderr


@pytest.mark.parametrize("name", ["piped.md", "piped.txt"])
def test_what_is_piped_in_is_written_as_it_stands(tmp_path: Path, name: str) -> None:
    text = Path(FANS).read_text("utf-8")
    file = tmp_path / name
    called("-", "--width", "12 in", "--write", str(file), piped=text)
    written = file.read_text("utf-8")
    assert "\\" not in written
    was, now = text.splitlines(), written.splitlines()
    assert len(was) == len(now)
    headings = [line for line in was if line.startswith("#")]
    assert [line for line in now if line.startswith("#")] == headings


def test_markdown_written_as_text_has_no_marks(tmp_path: Path) -> None:
    file = tmp_path / "plain.txt"
    assert called(FANS, "--width", "12 in", "--write", str(file)).exit_code == Status.CLEAN
    lines = file.read_text("utf-8").splitlines()
    assert lines[0] == "Fulmar Lace Scarf"
    assert any(line.startswith("Yarn: Skarrow") for line in lines)
    again = CliRunner().invoke(main, ["check", "--quiet", str(file)])
    assert "168 rows: all counts proven." in again.stdout


BORDERED = """\
# Knot Mat

US terms. Ch 1 does not count as a stitch.

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across; turn. (20 sc)
Rows 2-20: Ch 1, sc in each st across; turn. (20 sc)

## Initials

Row 1: Ch 1, sc in next 9 sts, hdc in next 2 sts, dc in next 4 sts, sc in next 5 sts. (20 sts)
"""


def test_what_stands_in_the_way_is_said_to_be_of_the_new_numbers(tmp_path: Path) -> None:
    file = tmp_path / "wide.md"
    asked = ("--width", "12 in", "--write", str(file))
    result = called("-", *asked, piped=BORDERED)
    assert result.exit_code == Status.TO_MEND
    assert "No text was written: with the new numbers this stands" in result.stdout
    assert not file.exists()


def test_what_of_the_worksheet_counts_for_nothing_is_told(tmp_path: Path) -> None:
    for sheet in ("garbage [[[", '[[size]]\nname = "Lap"\nwidth = "-5 in"\n'):
        words = " ".join(called(project(tmp_path, sheet)).stdout.split())
        assert "The worksheet has 1 finding. What cannot be read there" in words
        assert "The pattern itself has" not in words


def test_sizes_may_be_named_by_their_lengths(tmp_path: Path) -> None:
    file = tmp_path / "three.md"
    wishes = ("30 x 40 in", "1.2m x 1.8 m", "20cm x 60in")
    asked = [word for wish in wishes for word in ("--size", wish)]
    result = called(FANS, *asked, "--write", str(file))
    assert result.exit_code == Status.CLEAN
    text = file.read_text("utf-8")
    assert "Sizes: 20cm x 60in (30 x 40 in, 1.2m x 1.8 m)." in text
    again = json.loads(CliRunner().invoke(main, ["check", "--json", str(file)]).stdout)
    assert again["sizes"] == ["20cm x 60in", "30 x 40 in", "1.2m x 1.8 m"]


RIMMED = """\
UK terms.

Make 21 ch.
Row 1: 1 dc in 2nd ch from hook, 1 dc in each ch to end, turn. (20 dc)
Rows 2-20: 1 ch (does not count), 1 dc in each dc to end, turn. (20 dc)
Do not fasten off.

Border
Round 1: 1 ch, work 18 dc evenly along top, 3 dc in corner, work 18 dc down side, 3 dc in \
corner, 18 dc along foundation, 3 dc in corner, 18 dc up side, 3 dc in corner, ss to first dc.
"""


def test_numbers_told_for_each_edge_follow_that_edge(tmp_path: Path) -> None:
    """18 on 20, with a corner at either end, are 33 on 35; no gauge tells, so 12 in are
    guessed: what matters is that both edges and the chain agree."""
    file = tmp_path / "rimmed.md"
    found = called("-", "--width", "12 in", "--write", str(file), piped=RIMMED)
    assert found.exit_code == Status.CLEAN
    text = file.read_text("utf-8")
    (made,) = re.findall(r"Make (\d+) ch", text)
    along = int(made) - 3
    assert f"work {along} dc evenly along top" in text
    assert f"{along} dc along foundation" in text
    assert text.count("18 dc") == 2  # the sides: no other height is asked for


def test_one_number_for_all_edges_is_named_and_nothing_is_written(tmp_path: Path) -> None:
    file = tmp_path / "rimmed.md"
    text = f"{RIMMED[: RIMMED.index('Round 1')]}Round 1: 1 ch, work 80 dc evenly around.\n"
    found = called("-", "--width", "12 in", "--write", str(file), piped=text)
    told = " ".join((found.stdout + found.stderr).split())
    assert 'Nothing settles "work 80 dc evenly around"' in told
    assert not file.exists()


def test_an_edging_is_said_to_come_on_top() -> None:
    told = "What the text works along its edges is not in these sizes"
    assert told in " ".join(called(WAVES, "--height", "60 in").stdout.split())
    assert told not in " ".join(called(FANS, "--height", "60 in").stdout.split())
