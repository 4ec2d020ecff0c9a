"""The symbol of one stitch, drawn by itself."""

from __future__ import annotations

from hookwright.drawing.bounds import Box
from hookwright.drawing.chart_legend import draw_glyph, sample
from hookwright.drawing.pen import Ink
from hookwright.drawing.stitch_symbols import symbols_of
from hookwright.drawing.svg import SvgPen
from hookwright.working.outcome import WorkedPattern

_MARGIN_MM = 1.0


def one_symbol(worked: WorkedPattern, stitch: str) -> str:
    """The symbol of a stitch as SVG; "" where it has none.

    Args:
        worked: A pattern, whose own stitches are known too.
        stitch: The stitch as the pattern names it.
    """
    symbol = symbols_of(worked).of(stitch)
    glyph = sample(symbol)
    points = [point for quad in glyph.boxes for point in quad]
    if not points:
        return ""
    across, down = [p.real for p in points], [p.imag for p in points]
    room = Box(min(across), min(down), max(across), max(down)).wider(_MARGIN_MM)
    side = max(room.width, room.height)
    aside, above = (side - room.width) / 2, (side - room.height) / 2
    square = Box(
        room.left - aside, room.top - above, room.right + aside, room.bottom + above
    )
    pen = SvgPen()
    draw_glyph(pen, glyph, 0j, Ink())
    return pen.finished(square, symbol.name, symbol.name, "symbol")
