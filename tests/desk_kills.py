"""A desk's saves cut off at any moment: is every file whole, and nothing lost?

A process saves text after text and says so after each. It is killed without warning, again
and again. What it said was saved must be there, or the text after it, and whole; so must
every earlier version. `python tests/desk_kills.py 1000` kills a thousand times.
"""

from __future__ import annotations

import random
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from hookwright.desk.folder import Folder, mark_of
from hookwright.desk.keeping import Keeper

_LINES = 400
_A_SAVE_S = 0.012


def text_of(number: int) -> str:
    """A text that shows by itself whether it is whole."""
    row = f"Row {number}: Sc in each st across. (20 sc)\n"
    return f"# Text {number}\n" + row * _LINES + f"End of {number}\n"


def number_of(text: str) -> int:
    """Which text it is; asserts that it is whole."""
    number = int(text.partition("\n")[0].removeprefix("# Text "))
    assert text == text_of(number), f"text {number} is torn"
    return number


def save_on(folder: Path, first: int) -> None:
    """Save texts from a number on, and say after each that it is saved."""
    keeper = Keeper(Folder(folder))
    mark = keeper.folder.read("pattern").mark
    for number in range(first, sys.maxsize):
        mark = keeper.save("pattern", text_of(number), mark, decided=number % 3 == 0).mark
        sys.stdout.write(f"{number}\n")
        sys.stdout.flush()


def kill_saves(folder: Path, kills: int, seed: int = 1) -> tuple[int, int]:
    """Kill so often, and assert after each that nothing is torn or lost.

    Returns:
        How many saves were made in all, and how many kills fell into one: those that left
        a half-made file behind, or a save that was done and not yet said.
    """
    chance = random.Random(seed)  # noqa: S311 - moments, not secrets
    last, amid = 0, 0
    for _ in range(kills):
        called = [sys.executable, __file__, "--save", str(folder), str(last + 1)]
        with subprocess.Popen(called, stdout=subprocess.PIPE, text=True) as saving:  # noqa: S603 - ourselves
            assert saving.stdout is not None
            said = [saving.stdout.readline()]
            time.sleep(chance.uniform(0, 3 * _A_SAVE_S))
            saving.send_signal(signal.SIGKILL)
            said += saving.stdout.readlines()
        told = max((int(line) for line in said if line.endswith("\n")), default=last)
        left = list(folder.glob(".pattern.md.*.new"))
        found = number_of((folder / "pattern.md").read_text("utf-8"))
        assert found in {told, told + 1}, f"{told} was saved, {found} is there"
        amid += bool(left) or found != told
        last = found
        keeper = Keeper(Folder(folder))
        assert not list(folder.glob(".*.new")), "what was left is cleared away"
        for version in keeper.earlier("pattern")[:20]:
            number_of(keeper.version("pattern", version.id))
        now = keeper.folder.read("pattern")
        assert now.mark == mark_of(now.data)
    return last, amid


if __name__ == "__main__":
    if sys.argv[1] == "--save":
        save_on(Path(sys.argv[2]), int(sys.argv[3]))
    with tempfile.TemporaryDirectory() as place:
        saves, cut = kill_saves(Path(place), int(sys.argv[1]))
    sys.stdout.write(
        f"{sys.argv[1]} kills, {saves} saves, {cut} cut off amid one; none lost.\n"
    )
