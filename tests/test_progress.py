"""Progress of long work: told without falling, stopped at once, shown on a terminal."""

from __future__ import annotations

import io
import os
import pty
import signal
import subprocess
import sys
from itertools import pairwise
from pathlib import Path

import click
import pytest
from click.testing import CliRunner
from hypothesis import given, settings
from hypothesis import strategies as st

import hookwright.cli
from hookwright.cli import STOPPED, main
from hookwright.progress import Cancelled, Progress, stretch, stretches, tell
from hookwright.terminal import ProgressLine


def test_nobody_needs_to_listen() -> None:
    tell(None, 0.5)
    assert stretch(None, 0, 1) is None
    assert list(stretches(None, [1, 2])) == [None, None]


def test_the_answer_no_stops_the_work() -> None:
    with pytest.raises(Cancelled):
        tell(lambda _done, _doing: False, 0.5)


def work(progress: Progress | None, depth: int, parts: list[float]) -> None:
    """Work of so many parts, each again of so many."""
    if not depth:
        for step in range(3):
            tell(progress, step / 2, "stitching" if step else "")
        return
    for share in stretches(progress, parts):
        work(share, depth - 1, parts)


@settings(max_examples=25)
@given(
    st.integers(0, 2),
    st.lists(st.floats(0, 1e6), min_size=1, max_size=4),
)
def test_parts_of_parts_go_from_nothing_to_all_and_never_back(
    depth: int, parts: list[float]
) -> None:
    told: list[float] = []
    work(lambda done, _: not told.append(done), depth, parts)  # type: ignore[func-returns-value]
    assert told[0] == 0
    assert all(one <= other + 1e-12 for one, other in pairwise(told))
    if sum(parts):
        assert told[-1] == pytest.approx(1)


def test_a_part_that_says_nothing_is_told_as_its_whole_is() -> None:
    told: list[str] = []

    def keep(_done: float, doing: str) -> bool:
        told.append(doing)
        return True

    work(stretch(keep, 0, 1, "laying out"), 0, [1])
    assert told == ["laying out", "stitching", "stitching"]


class Screen(io.StringIO):
    def isatty(self) -> bool:
        return True


def shown(monkeypatch: pytest.MonkeyPatch, screen: io.StringIO, seconds: float) -> str:
    """What a line of progress writes that is told something every so many seconds."""
    now = [0.0]
    monkeypatch.setattr(sys, "stderr", screen)
    with ProgressLine(lambda: now[0]) as line:
        for step in range(3):
            now[0] += seconds
            assert line(step / 2, "laying out Body")
    return screen.getvalue()


def test_a_terminal_shows_how_far_long_work_is_and_is_left_clean(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    written = shown(monkeypatch, Screen(), 1.0)
    assert "\r 50 %  laying out Body\x1b[K" in written
    assert written.endswith("\r\x1b[K")


def test_short_work_and_a_pipe_show_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    assert shown(monkeypatch, Screen(), 0.1) == ""
    assert shown(monkeypatch, io.StringIO(), 1.0) == ""


def test_a_command_that_is_stopped_has_a_status_of_its_own(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    @click.command()
    def check() -> None:
        raise KeyboardInterrupt

    monkeypatch.setattr(hookwright.cli, "command_of", lambda _name: check)
    result = CliRunner().invoke(main, ["check"])
    assert (result.exit_code, result.stderr) == (STOPPED, "Stopped.\n")


def test_long_work_at_a_terminal_ends_at_once_when_it_is_stopped(tmp_path: Path) -> None:
    blanket = tmp_path / "wide-water.md"
    blanket.write_text(
        "US terms. Ch 1 does not count as a stitch. Gauge: 14 sts and 16 rows = 4 in.\n\n"
        "Ch 551.\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn. (550 sc)\n"
        "Rows 2-600: Ch 1, sc in each st across. Turn. (550 sc)\n"
    )
    ours, theirs = pty.openpty()
    # What a shell runs behind hears no Ctrl-C, nor does what that runs in turn.
    before = signal.signal(signal.SIGINT, signal.default_int_handler)
    run = subprocess.Popen(  # noqa: S603 - our own command
        [sys.executable, "-m", "hookwright", "measure", str(blanket)],
        stdout=subprocess.DEVNULL,
        stderr=theirs,
    )
    signal.signal(signal.SIGINT, before)
    os.close(theirs)
    written = b""
    while b"%" not in written:
        written += os.read(ours, 4096)
    run.send_signal(signal.SIGINT)
    while b"Stopped." not in written:
        written += os.read(ours, 4096)
    assert run.wait() == STOPPED
    assert b"laying out" in written or b"putting the stitches together" in written
