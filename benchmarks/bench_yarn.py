"""How long do `colours` and `yarn` take from the shell, and orders of many colours?

The first table is of whole commands on the project in `examples/`: eight colours, three
sizes. Beside each stands an interpreter that does nothing, started in the same run. The
second is of the first order of so many colours by chance, with how many were proven. The
aims are printed beside the figures and fail nothing, since a time depends on the machine.
"""

from __future__ import annotations

import subprocess
import sys
import time
from pathlib import Path
from random import Random

from hookwright.colour.arrangement import Arrangement
from hookwright.colour.orders import arranged

PROJECT = Path(__file__).parents[1] / "examples" / "low-water-blanket"
RUNS = 7
AIM_SECONDS = 1.0
AIM_ORDER_SECONDS = 2.0
PALETTES = 5


def best_of(*words: str) -> float:
    """The wall time of the run least disturbed, in seconds."""
    times = []
    for _ in range(RUNS):
        began = time.perf_counter()
        subprocess.run([sys.executable, *words], check=True, capture_output=True)
        times.append(time.perf_counter() - began)
    return min(times)


def by_chance(colours: int, seed: int) -> Arrangement:
    """Colours spread in a cube, each once, worked over and over."""
    random = Random(seed)  # noqa: S311 - chance for a benchmark
    points = [[random.random() for _ in range(3)] for _ in range(colours)]
    apart = tuple(
        tuple(
            round(6000 * sum((a - b) ** 2 for a, b in zip(one, other, strict=True)) ** 0.5)
            for other in points
        )
        for one in points
    )
    twins = tuple(tuple(int(a == b) for b in range(colours)) for a in range(colours))
    light = tuple(round(10_000 * point[0]) for point in points)
    return Arrangement((1,) * colours, apart, light, (twins,), repeated=True)


def main() -> None:
    """Prints the tables."""
    bare = best_of("-c", "pass")
    print(f"command              best s  times the bare interpreter ({bare:.3f} s)  aim s")
    for words in (("colours",), ("yarn",), ("yarn", "--json")):
        took = best_of("-m", "hookwright", words[0], str(PROJECT), *words[1:])
        name = " ".join(words)
        print(f"{name:20} {took:6.2f}  {took / bare:33.0f}  {AIM_SECONDS:17.1f}")
    print("\ncolours  first order s  proven  aim s")
    for colours in (8, 12, 16, 20, 24, 30):
        began = time.perf_counter()
        proven = sum(
            arranged(by_chance(colours, seed), 1, 1)[0].proven for seed in range(PALETTES)
        )
        took = (time.perf_counter() - began) / PALETTES
        print(f"{colours:7} {took:14.2f}  {proven} of {PALETTES}  {AIM_ORDER_SECONDS:5.1f}")


if __name__ == "__main__":
    main()
