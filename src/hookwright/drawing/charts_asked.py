"""The symbol charts of a pattern: one for each piece."""

from __future__ import annotations

from hookwright.checking import Checked
from hookwright.drawing.asked import (
    NotDrawn,
    Wanted,
    check_part,
    is_wanted,
    size_wanted,
    slug,
)
from hookwright.drawing.chart import chart_of, chart_sheets
from hookwright.drawing.lying import left_handed, lying_pieces
from hookwright.drawing.sheet import Sheet
from hookwright.drawing.stitch_symbols import symbols_of
from hookwright.drawing.yarn_colours import yarn_colours
from hookwright.progress import Progress, stretch, tell

MOST_SYMBOLS = 40_000
"""A larger chart fills hundreds of pages: one repeat of it says the same."""


def sheets(
    checked: Checked, wanted: Wanted, progress: Progress | None = None
) -> tuple[Sheet, ...]:
    """The charts, in working order of the pieces."""
    size = size_wanted(checked, wanted)
    pieces = list(lying_pieces(checked, size, stretch(progress, 0.0, 0.6)))
    check_part(wanted, tuple(piece.part for piece in pieces))
    symbols = symbols_of(checked.worked)
    used = dict.fromkeys(name for piece in pieces for name in piece.yarns)
    colours = yarn_colours(checked, used)
    title = checked.design.title
    found: list[Sheet] = []
    for number, piece in enumerate(pieces):
        tell(progress, 0.6 + 0.4 * number / len(pieces), "drawing symbols")
        if not is_wanted(wanted, piece.part):
            continue
        if piece.graph.size > MOST_SYMBOLS and not wanted.repeat:
            raise NotDrawn(
                f"A chart of all {piece.graph.size:,} stitches fills hundreds of pages. "
                "Ask for one repeat with its edges: --repeat."
            )
        drawn = left_handed(piece) if wanted.left_handed else piece
        chart = chart_of(drawn, symbols, colours, repeat=wanted.repeat)
        name = "chart" if len(pieces) == 1 else f"chart-{slug(piece.part, number)}"
        found.extend(chart_sheets(chart, title, name))
    return tuple(found)
