"""`hookwright colours`: what it prints, and how it ends."""

from __future__ import annotations

import json
import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner, Result
from colour_texts import FIVE, PATTERN, checked, planned, worksheet

from hookwright.cli import main
from hookwright.commands.check import Status
from hookwright.listing.colours import colour_listing
from hookwright.terminal import NO_INK, Ink

WISHES = 'keep_apart = [["A", "D"]]\nrows = 2\nfirst_equals_last = true\ntimes = 9\n'


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "pattern.md").write_text(PATTERN, encoding="utf-8")
    (tmp_path / "worksheet.toml").write_text(worksheet(FIVE, WISHES), encoding="utf-8")
    return tmp_path


def called(*words: str) -> Result:
    return CliRunner().invoke(main, ["colours", *words])


def test_orders_are_listed_with_their_line_and_their_reasons(folder: Path) -> None:
    result = called(str(folder))
    assert result.exit_code == Status.CLEAN
    text = result.stdout
    assert "Order 1: every rule is held, proven to be the best" in text
    assert "Work this sequence 9 times in all, then" in text
    assert "ends to weave in" in text
    assert "\x1b" not in text


def test_the_object_for_programs_has_what_is_promised(folder: Path) -> None:
    answer = json.loads(called(str(folder), "--json").stdout)
    assert len(answer["orders"]) >= 2
    for order in answer["orders"]:
        assert {"stripes", "proven", "score", "breaches", "reasons"} <= order.keys()
        assert all(set(stripe) == {"colour", "rows"} for stripe in order["stripes"])
        assert len(order["score"]) == 4
        assert sum(order["rows_of"].values()) == order["rows"]
        assert order["minutes"] == [order["ends"], 2 * order["ends"]]
    assert answer["orders"][0]["proven"] is True
    assert answer["palette"][0]["hex"] == "#5b7c99"
    assert answer["palette"][0]["differences"][0] == 0
    assert answer["clash"] == answer["findings"] == []


def test_the_same_seed_prints_the_same(folder: Path) -> None:
    first, again = (called(str(folder), "--seed", "7").stdout for _ in range(2))
    assert first == again


def test_a_rule_that_is_broken_ends_with_one_and_names_what_clashes(folder: Path) -> None:
    wishes = 'keep_apart = [["A", "D"]]\nkeep_together = [["A", "D"]]\n'
    (folder / "worksheet.toml").write_text(worksheet(FIVE, wishes), encoding="utf-8")
    result = called(str(folder))
    assert result.exit_code == Status.TO_MEND
    assert "These cannot all be held together:\n  A and D do not touch.\n" in result.stdout


def test_the_table_of_an_order_is_a_line_a_stripe(folder: Path) -> None:
    lines = called(str(folder), "--table", "1").stdout.splitlines()
    assert lines[:2] == ["Rows | Colour", "1-2 | A"]
    assert len(lines) == 1 + 5 * 9 + 1
    assert called(str(folder), "--table", "24").exit_code == Status.NOT_READ
    assert called(str(folder), "--table", "1", "--json").exit_code == Status.NOT_READ


@pytest.mark.parametrize("text", ["", "[[yarn]]\nhex = '#123456'\n", "[[yarn]\n"])
def test_where_there_is_nothing_to_arrange_it_says_so(folder: Path, text: str) -> None:
    (folder / "worksheet.toml").write_text(text, encoding="utf-8")
    result = called(str(folder))
    assert result.exit_code == Status.NOT_READ
    assert "fewer than two colours" in result.stdout


def test_without_a_worksheet_or_a_pattern_it_says_so(folder: Path) -> None:
    (folder / "worksheet.toml").unlink()
    result = called(str(folder))
    assert result.exit_code == Status.NOT_READ
    assert "There is no worksheet.toml beside the pattern" in result.stderr
    assert called(str(folder / "nowhere")).exit_code == Status.NOT_READ


def test_names_stand_beside_every_patch_of_colour() -> None:
    sheet = worksheet(FIVE, WISHES)
    plan, pattern = planned(sheet), checked(sheet)
    plain = colour_listing(pattern, plan, 92, NO_INK)
    painted = colour_listing(pattern, plan, 92, Ink(on=True))
    assert "48;2;91;124;153m" in painted  # #5B7C99
    words = painted
    while "\x1b[" in words:
        before, _, after = words.partition("\x1b[")
        words = before + after.partition("m")[2]
    # in colour the stripes touch, without it bars part them: the words are the same
    assert words.split() == plain.replace("|", " ").split()


def test_a_check_beside_colours_imports_nothing_of_them(folder: Path) -> None:
    program = (
        "import sys\n"
        "from hookwright.cli import main\n"
        "try:\n    main(['check', sys.argv[1], '--json'])\n"
        "except SystemExit:\n    pass\n"
        "print(*sorted(sys.modules), file=sys.stderr)\n"
    )
    run = subprocess.run(  # noqa: S603 - our own command
        [sys.executable, "-c", program, str(folder)],
        capture_output=True,
        check=True,
        text=True,
    )
    found = set(run.stderr.split())
    assert "hookwright.design.worksheet.reading" in found
    assert not {
        name for name in found if name.startswith(("coloraide", "hookwright.colour"))
    }
