"""How long does it take to draw a fabric, and what does it cost in memory?

Prints one row a picture: the time from the laid piece to its points, the best of three, and
the time that `scipy.ndimage` takes to blur a picture of that size in three colours by ten
points, in the same run, as a yardstick of the machine. The aims: 2,000 stitches in 0.5 s,
20,000 in 3 s, on two cores that have nothing else to do.
"""

from __future__ import annotations

import resource
import time

import numpy as np
from bench_measure import plain, wave
from scipy import ndimage

from hookwright.checking import check
from hookwright.drawing.fabric.files import as_png
from hookwright.drawing.fabric.picture import Seen, Wish, picture_of, pieces_seen
from hookwright.source import Source

TALL = (
    "US terms. The ch 3 at the start of a row counts as a dc.\n\nCh 62.\n"
    "Row 1: Dc in 4th ch from hook and in each ch across. Turn. (60 dc)\n"
    "Rows 2-34: Ch 3, sk first st, dc in next st and in each st across. Turn. (60 dc)\n"
)
PICTURES = (
    ("swatch, sc 14 x 14", plain(14, 14), 720),
    ("sc 50 x 40", plain(50, 40), 800),
    ("dc 60 x 34", TALL, 800),
    ("wave 177 x 112", wave(11, 112), 1000),
    ("queen, wave 385 x 234", wave(24, 234), 1600),
)


HEAD = "stitches  points   a stitch  draw s  processor s  x blur  PNG MB  memory MB"


def main() -> None:
    """Prints the table."""
    print(f"{'picture':24} {HEAD}")
    for name, text, width in PICTURES:
        wish = Wish(width=width)
        seen = next(iter(pieces_seen(check(Source(text)), wish)))
        assert isinstance(seen, Seen)
        taken, worked, points = drawn(seen, wish)
        memory = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
        picture = picture_of(seen, wish)
        size = len(as_png(picture)) / 1e6
        print(
            f"{name:24} {picture.stitches:8,} {points.shape[1]:5}x{points.shape[0]:<5}"
            f"{picture.scale:6.1f} {taken:9.2f} {worked:12.2f} "
            f"{taken / blurred(points):7.1f} {size:7.1f} {memory:10.0f}"
        )


def drawn(seen: Seen, wish: Wish) -> tuple[float, float, np.typing.NDArray[np.uint8]]:
    """The best of three times, that of the processors, and the points of the picture."""
    best = worked = float("inf")
    points = np.zeros((1, 1, 3), dtype=np.uint8)
    for _ in range(3):
        began, busy = time.perf_counter(), time.process_time()
        points = picture_of(seen, wish).points
        best = min(best, time.perf_counter() - began)
        worked = min(worked, time.process_time() - busy)
    return best, worked, points


def blurred(points: np.typing.NDArray[np.uint8]) -> float:
    """The time that a blur of three colours takes, the best of three."""
    own = points.astype(np.float32)
    best = float("inf")
    for _ in range(3):
        began = time.perf_counter()
        ndimage.gaussian_filter(own, (10, 10, 0))
        best = min(best, time.perf_counter() - began)
    return best


if __name__ == "__main__":
    main()
