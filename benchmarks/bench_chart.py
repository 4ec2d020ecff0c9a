"""How long does a symbol chart take, from a piece at rest to SVG?

Prints one row a chart: its symbols, laying out, choosing and drawing the symbols, writing
SVG, and the ratio of the last two to the time the standard library takes to write and read
as many points as JSON.
"""

from __future__ import annotations

import json
import time

from bench_measure import plain, wave

from hookwright.checking import check
from hookwright.drawing.chart import chart_of, chart_sheets
from hookwright.drawing.lying import lying_pieces
from hookwright.drawing.stitch_symbols import symbols_of
from hookwright.drawing.yarn_colours import yarn_colours
from hookwright.source import Source

POINTS_A_SYMBOL = 8


def main() -> None:
    """Prints the table."""
    charts = {
        "sc 54 x 54": plain(54, 54),
        "wave 3,000": wave(4, 45),
        "wave 12,000": wave(8, 92),
    }
    print("chart          symbols  laid s  symbols s  svg s  both s  x json  pages")
    for name, text in charts.items():
        checked = check(Source(text))
        began = time.perf_counter()
        (piece,) = lying_pieces(checked)
        laid = time.perf_counter()
        chart = chart_of(piece, symbols_of(checked.worked), yarn_colours(checked))
        chosen = time.perf_counter()
        pages = [sheet.svg() for sheet in chart_sheets(chart, "", "chart")]
        written = time.perf_counter()
        both = written - laid
        print(
            f"{name:14} {len(chart.marks):7,} {laid - began:7.2f} {chosen - laid:10.2f} "
            f"{written - chosen:6.2f} {both:7.2f} {both / as_json(len(chart.marks)):7.1f} "
            f"{len(pages):6}"
        )


def as_json(symbols: int) -> float:
    """Seconds to write and read the points of so many symbols as JSON."""
    points = [[0.01 * n, 0.02 * n] for n in range(POINTS_A_SYMBOL * symbols)]
    began = time.perf_counter()
    json.loads(json.dumps(points))
    return time.perf_counter() - began


if __name__ == "__main__":
    main()
