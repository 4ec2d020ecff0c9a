"""The charts and outlines of a pattern, for the right hand and the left, laid out once.

A chart is of the first size. Of the other sizes only the measures are wanted, and they are
worked out by themselves: somewhere else meanwhile, where that can be.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.drawing.asked import NotDrawn, Wanted
from hookwright.drawing.chart import chart_of, chart_sheets
from hookwright.drawing.lying import Lying, left_handed, lying_of
from hookwright.drawing.schematics import outlines
from hookwright.drawing.sheet import Sheet
from hookwright.drawing.stitch_symbols import symbols_of
from hookwright.drawing.yarn_colours import yarn_colours
from hookwright.progress import Progress
from hookwright.shape.measures import PieceMeasured, measures_from, size_measured
from hookwright.shape.resting import Stitches, as_fitted, pieces_at_rest, stitches_of

Measured = tuple[PieceMeasured, ...]


class LaidOut(Struct, frozen=True, eq=False):
    """A pattern in its first size.

    Attributes:
        checked: The pattern.
        pieces: Its pieces as they are drawn.
        measured: The same as they are measured.
        stitches: How large the stitches of each part are, as they came to lie.
    """

    checked: Checked
    pieces: tuple[Lying, ...]
    measured: Measured
    stitches: Stitches


def laid_out(checked: Checked, progress: Progress | None = None) -> LaidOut:
    """A pattern laid out in its first size.

    Raises:
        Cancelled: When `progress` answers False.
    """
    stitches = stitches_of(checked)
    rests = list(pieces_at_rest(checked, 0, progress, stitches))
    pieces = tuple(lying_of(checked, 0, rests))
    measured = size_measured(checked, 0, rests)
    return LaidOut(checked, pieces, measured, as_fitted(stitches, rests))


def measured_in_size(
    laid: LaidOut, size: int, progress: Progress | None = None
) -> Measured:
    """The pieces of another size as they are measured.

    Raises:
        Cancelled: When `progress` answers False.
    """
    rests = pieces_at_rest(laid.checked, size, progress, laid.stitches)
    return size_measured(laid.checked, size, rests)


def charts_in_repeats(laid: LaidOut, *, left: bool) -> tuple[Sheet, ...]:
    """A chart of each piece, one repeat with its edges."""
    checked = laid.checked
    symbols, colours = symbols_of(checked.worked), yarn_colours(checked)
    pieces = [left_handed(piece) if left else piece for piece in laid.pieces]
    charts = [chart_of(piece, symbols, colours, repeat=True) for piece in pieces]
    title = checked.design.title
    return tuple(sheet for chart in charts for sheet in chart_sheets(chart, title, "chart"))


def outlines_measured(
    laid: LaidOut, others: Sequence[Measured], *, left: bool
) -> tuple[Sheet, ...]:
    """The outline of each piece with its measures; none where nothing tells how large.

    Args:
        laid: The pattern in its first size.
        others: The measures of its other sizes.
        left: Whether they are for the left hand.
    """
    measures = measures_from((laid.measured, *others))
    try:
        return outlines(laid.checked, Wanted(left_handed=left), measures, laid.pieces)
    except NotDrawn:
        return ()
