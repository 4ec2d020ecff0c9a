"""A text, and the charts of its pieces."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from hookwright.checking import Checked, check
from hookwright.drawing.chart import Chart, chart_of
from hookwright.drawing.chart_row import Mark
from hookwright.drawing.lying import left_handed, lying_pieces
from hookwright.drawing.stitch_symbols import symbols_of
from hookwright.drawing.yarn_colours import yarn_colours
from hookwright.reading import read_draft
from hookwright.source import Source

EXAMPLES = Path(__file__).parents[1] / "examples"
HEAD = "US terms. The ch 1 or ch 2 at the start of a row does not count as a stitch.\n\n"


def charts(
    text: str | Checked, *, repeat: bool = False, mirrored: bool = False
) -> list[Chart]:
    """The charts of all pieces of a text."""
    checked = text if isinstance(text, Checked) else check(Source(text))
    pieces = [left_handed(p) if mirrored else p for p in lying_pieces(checked)]
    symbols, colours = symbols_of(checked.worked), yarn_colours(checked)
    return [chart_of(piece, symbols, colours, repeat=repeat) for piece in pieces]


def chart(text: str | Checked, *, repeat: bool = False, mirrored: bool = False) -> Chart:
    """The chart of a text in one piece."""
    (only,) = charts(text, repeat=repeat, mirrored=mirrored)
    return only


@cache
def example(name: str) -> tuple[Chart, ...]:
    """The charts of one of the examples, whole and of one repeat."""
    checked = check(read_draft(EXAMPLES / f"{name}.md"))
    pieces, symbols = list(lying_pieces(checked)), symbols_of(checked.worked)
    return tuple(
        chart_of(piece, symbols, {}, repeat=repeat)
        for piece in pieces
        for repeat in (False, True)
    )


def in_row(drawn: Chart, row: int) -> list[Mark]:
    """The stitches of a row in working order."""
    return [mark for mark in drawn.marks if mark.row == row and mark.whole]
