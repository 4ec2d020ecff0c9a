"""A folder has one desk; a second says where the first is."""

from __future__ import annotations

import subprocess
import sys
from pathlib import Path

import pytest
from click.testing import CliRunner

from hookwright.cli import main
from hookwright.desk.alone import LOCK, Address, AlreadyOpen, Hold

HOLDING = """
import sys
from pathlib import Path
from hookwright.desk.alone import Address, Hold
hold = Hold(Path(sys.argv[1]))
hold.tell(Address(4321, "secret"))
print("held", flush=True)
sys.stdin.read()
"""


def test_a_second_desk_is_told_where_the_first_is(tmp_path: Path) -> None:
    called = [sys.executable, "-c", HOLDING, str(tmp_path)]
    with subprocess.Popen(  # noqa: S603 - ourselves
        called, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True
    ) as other:
        assert other.stdout is not None
        assert other.stdout.readline() == "held\n"
        with pytest.raises(AlreadyOpen) as told:
            Hold(tmp_path)
        assert told.value.where == Address(4321, "secret")
        result = CliRunner().invoke(main, ["desk", str(tmp_path), "--no-browser"])
        assert result.exit_code == 2
        assert "A desk is open on this folder already." in result.stderr
        assert "http://127.0.0.1:4321/#key=secret" in result.stderr
        other.kill()
        other.wait()
        again = Hold(tmp_path)
        assert again.before == Address(4321, "secret")
        again.let_go()


def test_one_that_ends_in_order_leaves_nothing_behind(tmp_path: Path) -> None:
    hold = Hold(tmp_path)
    hold.tell(Address(1, "secret"))
    assert (tmp_path / LOCK).stat().st_mode & 0o077 == 0
    hold.let_go()
    assert list(tmp_path.iterdir()) == []
    assert Hold(tmp_path).before is None


def test_a_note_of_something_else_is_no_address(tmp_path: Path) -> None:
    (tmp_path / LOCK).write_text("hello", "utf-8")
    hold = Hold(tmp_path)
    assert hold.before is None
    hold.let_go()


def test_a_file_is_not_opened_as_a_folder(tmp_path: Path) -> None:
    draft = tmp_path / "draft.docx"
    draft.write_bytes(b"")
    result = CliRunner().invoke(main, ["desk", str(draft), "--no-browser"])
    assert result.exit_code == 2
    assert "hookwright desk" in result.stderr
