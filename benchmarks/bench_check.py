"""How fast does hookwright read and check a pattern, beside the bare interpreter?

Prints two tables. Reading: bytes a second of our parser, beside CPython's own parser on
a Python text of the same size in the same run, so that the ratio holds on any machine. It
is done twice: on a pattern whose rows are mostly alike, as in most fabrics, and on one in
which no row is like another, where nothing read once can be used again.
Start-up: wall time of whole commands from the shell, beside an interpreter that does
nothing: on a wave in rows that are mostly alike, and on a jumper in four sizes.
Best and median of several runs; the best is the one least disturbed. The aims are printed
beside the figures and fail nothing, since a wall time depends on the machine.
"""

from __future__ import annotations

import ast
import gc
import importlib
import os
import statistics
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import partial
from pathlib import Path

ENTRY = ("hookwright.notation", "parse_text")  # the one place that names our reader
READING_RUNS = 9
COMMAND_RUNS = 15
ROWS_TO_CHECK = 300
BYTES_TO_READ = 100_000  # of plain ASCII, so a character is a byte
AIM_READING = 500_000  # bytes a second: a quarter of that parser on a slow machine
AIM_RATIO = 0.25  # of what CPython's parser, written in C, does with as many bytes
AIM_HELP_MS = 100
AIM_CHECK_MS = 150

HEADING = """# Long Wave

US terms. Ch 2 at the start of a row does not count as a stitch.

Ch 182.
"""
WAVE = "dc in next 8 {many}, 3 dc in next {one}, dc in next 8 {many}"


@dataclass(frozen=True, slots=True)
class Timing:
    """Wall times of one thing done several times, in seconds."""

    seconds: tuple[float, ...]

    @property
    def best(self) -> float:
        """The run least disturbed by the rest of the machine."""
        return min(self.seconds)

    @property
    def median(self) -> float:
        """What one usually waits."""
        return statistics.median(self.seconds)


def wave_pattern(rows: int) -> str:
    """A wave pattern of so many rows, every one written out and right."""
    in_chains = WAVE.format(many="ch", one="ch")
    in_stitches = WAVE.format(many="sts", one="st")
    first = (
        f"Row 1: Dc in 3rd ch from hook, {in_chains}, *dc3tog over next 3 ch, {in_chains};"
        " rep from * to last 2 ch, dc2tog over last 2 ch. Turn. (181 sts)\n"
    )
    later = (
        f"Ch 2, sk first st, dc in next st, {in_stitches}, *dc3tog over next 3 sts,"
        f" {in_stitches}; rep from * to last 2 sts, dc2tog over last 2 sts. Turn."
        " (181 sts)\n"
    )
    lines = [HEADING, first, *(f"Row {row}: {later}" for row in range(2, rows + 1))]
    return "\n".join(lines)


def motley_pattern(rows: int) -> str:
    """A pattern to be read, not worked, in which no two rows are alike."""
    row = (
        "Row {0}: Ch {1}, dc in next {2} sts, *ch {1}, sk next {3} sts, ({4} dc, ch {5},"
        " {4} dc) in next ch-{1} sp, hdc in each of next {6} sts; rep from * {7} more"
        " times, sc2tog over next 2 sts, sl st in top of ch-{1}. Turn. ({8} sts)\n"
    )
    lines = [
        row.format(
            n, 1 + n % 4, n + 1, 1 + n % 7, 2 + n % 5, 1 + n % 3, n + 2, n + 3, n * 17
        )
        for n in range(1, rows + 1)
    ]
    return "\n".join([HEADING, *lines])


NECK, SLEEVE, UNDERARM = (80, 88, 96, 104), (48, 50, 52, 52), (8, 8, 10, 10)
EACH = "Ch 1, sc in each st around, join with sl st to first sc. {} sc."
MORE = "Ch 1, *sc in next {} sts, 2 sc in next st; rep from * 7 more times, join. {} sc."
DIVIDE = (
    "Ch 1, *sc in next {} sts, ch {}, sk next {} sts; rep from * once more, join. {} sc."
)
OVER_CHAINS = "Ch 1, sc in each st and ch around, join. {} sc."
MESH = "Ch 1, *sc in next st, ch 1, sk next st; rep from * around, join. {} sc."
OVER_MESH = "Ch 1, sc in each sc and in each ch-1 sp around, join. {} sc."
FEWER = (
    "Ch 1, sc2tog over next 2 sts, sc in each st to last 2 sts, sc2tog over last 2 sts,"
    " join. {} sc."
)
SLEEVE_START = (
    "Join yarn in the first underarm ch, ch 1, sc in each underarm ch and in each skipped"
    " st around, join. {} sc."
)


def garment_pattern() -> str:
    """A jumper worked from the neck down in four sizes: 200 rounds, every one right."""
    panel = [
        (neck + 160 - 2 * sleeve) // 2 for neck, sleeve in zip(NECK, SLEEVE, strict=True)
    ]
    body = [2 * (side + under) for side, under in zip(panel, UNDERARM, strict=True)]
    cuff = [sleeve + under for sleeve, under in zip(SLEEVE, UNDERARM, strict=True)]
    divide = DIVIDE.format(*map(in_sizes, (panel, UNDERARM, SLEEVE, _times(2, panel))))
    mesh = (
        (EACH, in_sizes(body)),
        (MESH, in_sizes(_times(0.5, body))),
        (OVER_MESH, in_sizes(body)),
    )
    rounds = [
        *_yoke(),
        divide,
        OVER_CHAINS.format(in_sizes(body)),
        *(words.format(count) for _ in range(36) for words, count in mesh),
    ]
    return "\n".join(
        (
            "# Breakwater jumper\n\nUS terms. Sizes: S (M, L, XL). Ch 1 does not count.\n",
            f"## Yoke\n\nCh {in_sizes(NECK)}, join with sl st to form a ring.",
            *_labelled(rounds),
            "Fasten off.\n\n## Sleeves (make 2)\n",
            *_labelled(_sleeve(cuff)),
            "",
        )
    )


def _yoke() -> Iterator[str]:
    """A round of increases, and a plain one, by turns."""
    now = NECK
    yield EACH.format(in_sizes(now)).replace("each st", "each ch")
    for number in range(2, 41):
        before = in_sizes([stitches // 8 - 1 for stitches in now])
        if number % 2:
            yield EACH.format(in_sizes(now))
        else:
            now = tuple(stitches + 8 for stitches in now)
            yield MORE.format(before, in_sizes(now))


def _sleeve(now: Sequence[int]) -> Iterator[str]:
    """A decrease at both ends of every fifth round."""
    yield SLEEVE_START.format(in_sizes(now))
    for number in range(2, 51):
        now = now if number % 5 else [stitches - 2 for stitches in now]
        yield (EACH if number % 5 else FEWER).format(in_sizes(now))


def _labelled(rounds: Iterable[str]) -> Iterator[str]:
    return (f"Rnd {number}: {words}" for number, words in enumerate(rounds, 1))


def _times(factor: float, numbers: Sequence[int]) -> list[int]:
    return [int(factor * number) for number in numbers]


def in_sizes(numbers: Sequence[int]) -> str:
    """One number a size, as a pattern writes them: "80 (88, 96, 104)"."""
    return f"{numbers[0]} ({', '.join(map(str, numbers[1:]))})"


def python_text(size: int) -> str:
    """Ordinary Python of at least so many bytes."""
    function = (
        "def stitches_of_row_{0}(repeats: int, edge: int = 2) -> int:\n"
        '    """How many stitches the row makes."""\n'
        "    if repeats < 1 or edge not in (1, 2):\n"
        "        return 0\n"
        "    waves = [8 + 3 + 8 + 1 for _ in range(repeats)]\n"
        '    return sum(waves) + len({{"first": edge, "last": edge}}) - 1\n\n\n'
    )
    texts: list[str] = []
    while size > 0:
        texts.append(function.format(len(texts)))
        size -= len(texts[-1])
    return "".join(texts)


def time_in_turn(tasks: list[Callable[[], object]], runs: int) -> list[Timing]:
    """Time tasks in turn, so that a busy moment of the machine falls on all alike."""
    for task in tasks:
        task()
    seconds: list[list[float]] = [[] for _ in tasks]
    for _ in range(runs):
        for task, taken in zip(tasks, seconds, strict=True):
            gc.collect()
            start = time.perf_counter()
            task()
            taken.append(time.perf_counter() - start)
    return [Timing(tuple(taken)) for taken in seconds]


def print_reading(read: Callable[[str], object]) -> None:
    """Print bytes a second of our parser and of CPython's, and their ratio."""
    texts = {"rows alike": wave_pattern, "no two rows alike": motley_pattern}
    print(f"{'reading':32}{'bytes':>12}{'best B/s':>14}{'median B/s':>14}{'aim':>12}")
    for name, make in texts.items():
        row_size = len(make(101)) - len(make(100))
        pattern = make(BYTES_TO_READ // row_size)
        program = python_text(len(pattern))
        ours, theirs = time_in_turn(
            [partial(read, pattern), partial(ast.parse, program)], READING_RUNS
        )
        for what, text, timing, aim in (
            (name, pattern, ours, f"{AIM_READING:,}"),
            ("ast.parse", program, theirs, ""),
        ):
            best, median = len(text) / timing.best, len(text) / timing.median
            print(f"{what:32}{len(text):>12,}{best:>14,.0f}{median:>14,.0f}{aim:>12}")
        ratio = (len(pattern) / ours.median) / (len(program) / theirs.median)
        print(f"{'ratio of the medians':32}{'':12}{'':14}{ratio:>14.3f}{AIM_RATIO:>12}")


def run(*command: str) -> None:
    """Run a command and let nobody see what it prints; one that fails is no measurement.

    Compiled modules are kept from the first run on, as an installed program has them.
    """
    kept = {k: v for k, v in os.environ.items() if k != "PYTHONDONTWRITEBYTECODE"}
    subprocess.run(command, check=True, stdout=subprocess.DEVNULL, env=kept)


def print_commands(hookwright: str, pattern: str, garment: str) -> None:
    """Print wall times of whole commands, the bare interpreter first."""
    commands = {
        "python -c pass": (sys.executable, "-c", "pass"),
        "hookwright --help": (hookwright, "--help"),
        f"hookwright check, {ROWS_TO_CHECK} rows": (hookwright, "check", pattern),
        "check, 4 sizes of 200 rounds": (hookwright, "check", garment),
    }
    aims = ("", f"{AIM_HELP_MS} ms", f"{AIM_CHECK_MS} ms", f"{AIM_CHECK_MS} ms")
    timings = time_in_turn(
        [partial(run, *command) for command in commands.values()],
        COMMAND_RUNS,
    )
    print(f"{'command':32}{'best ms':>12}{'median ms':>14}{'bare x':>14}{'aim':>12}")
    for name, timing, aim in zip(commands, timings, aims, strict=True):
        best, median = timing.best * 1000, timing.median * 1000
        bare = timing.median / timings[0].median
        print(f"{name:32}{best:>12.1f}{median:>14.1f}{bare:>14.1f}{aim:>12}")


def main() -> None:
    """Print both tables."""
    module, function = ENTRY
    print(f"Python {sys.version.split()[0]}, best and median of several runs\n")
    print_reading(getattr(importlib.import_module(module), function))
    print()
    with tempfile.TemporaryDirectory() as folder:
        pattern = Path(folder) / "long-wave.md"
        pattern.write_text(wave_pattern(ROWS_TO_CHECK), encoding="utf-8")
        garment = Path(folder) / "breakwater-jumper.md"
        garment.write_text(garment_pattern(), encoding="utf-8")
        hookwright = str(Path(sys.executable).with_name("hookwright"))
        print_commands(hookwright, str(pattern), str(garment))


if __name__ == "__main__":
    main()
