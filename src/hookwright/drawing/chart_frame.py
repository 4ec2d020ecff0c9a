"""How is the repeat of a chart shown: shaded, with a bracket, and rows with how often?"""

from __future__ import annotations

from msgspec import Struct

from hookwright.drawing.bounds import Box
from hookwright.drawing.chart_repeat import Across, Cut, Up, across_of, up_of
from hookwright.drawing.lying import Lying
from hookwright.drawing.pen import INK, Group, Ink, Lettering, Pen, box, grouped, line
from hookwright.working.steps import row_name

SHADE = "#f1f1ee"
_ROOM_FOR_NUMBERS = 14.0


class Frame(Struct, frozen=True):
    """The repeat of a chart.

    Attributes:
        across: The repeat along the rows; None for none.
        left: Its left end, in mm.
        right: Its right end.
        words: What it is, under its bracket.
        up: Rows that are worked over and over, of which one set is drawn; None otherwise.
        low: Where these begin, in mm.
        high: Where they end.
        rows: How often they are worked, beside their bracket.
    """

    across: Across | None = None
    left: float = 0.0
    right: float = 0.0
    words: str = ""
    up: Up | None = None
    low: float = 0.0
    high: float = 0.0
    rows: str = ""


def frame_of(piece: Lying, cut: Cut, unit: float) -> Frame:
    """The repeat of a piece, of which a part is drawn."""
    across = None if piece.rounds else across_of(piece)
    up = up_of(piece) if len(cut.rows) < len(piece.graph.courses) else None
    frame = Frame()
    if across is not None:
        right = across.right * unit
        left = right - across.wide * unit
        frame = Frame(across, left, right, _words(piece, across))
    if up is None:
        return frame
    low, high = _between(piece, up)
    return Frame(
        frame.across,
        frame.left,
        frame.right,
        frame.words,
        up,
        -low * unit,
        -high * unit,
        _rows(piece, up),
    )


def _words(piece: Lying, across: Across) -> str:
    chains = bool(piece.graph.is_chain[piece.graph.row > 0].any())
    return "one repeat" if chains else f"{across.stitches}-st repeat"


def _between(piece: Lying, up: Up) -> tuple[float, float]:
    """Where a set of rows begins and ends, as y in widths."""
    courses, y = piece.graph.courses, piece.position.imag
    low = y[courses[max(0, up.first - 1)].nodes].mean()
    high = y[courses[up.first + up.rows - 1].nodes].mean()
    return float(low), float(high)


def _rows(piece: Lying, up: Up) -> str:
    first = up.first - 1
    one = row_name(piece.outcomes[first].step)
    last = piece.outcomes[first + up.rows - 1].step.number
    named = one if up.rows == 1 else f"{one.replace('Row', 'Rows', 1)}–{last}"
    return f"{named}: {up.times} times"


def draw_frame(pen: Pen, frame: Frame, room: Box, beside: float) -> None:
    """Draws the shade behind a chart and the brackets, beyond the numbers beside it."""
    if frame.across is not None:
        left, right = max(frame.left, room.left), min(frame.right, room.right)
        if right > left:
            _draw_across(pen, frame, left, right, room)
    if frame.up is not None:
        _draw_up(pen, frame, room, beside)


def _draw_across(pen: Pen, frame: Frame, left: float, right: float, room: Box) -> None:
    corner = complex(left, room.top - 1.5)
    shade = box(corner, right - left, room.height + 3)
    under = room.bottom + 3.5
    with grouped(pen, Group("repeat")):
        pen.draw((shade,), Ink(stroke="", fill=SHADE))
        ends = (complex(left, under), complex(right, under))
        shape = (
            line(*ends),
            line(ends[0] - 1j, ends[0] + 1j),
            line(ends[1] - 1j, ends[1] + 1j),
        )
        pen.draw(shape, Ink(INK, 0.25))
        middle = (ends[0] + ends[1]) / 2 + 3.6j
        pen.words(frame.words, middle, Lettering(2.8, anchor="middle"))


def _draw_up(pen: Pen, frame: Frame, room: Box, beside: float) -> None:
    at = room.left - _ROOM_FOR_NUMBERS - beside
    with grouped(pen, Group("rows-repeat")):
        ends = (complex(at, frame.low), complex(at, frame.high))
        shape = (
            line(*ends),
            line(ends[0] - 1, ends[0] + 1),
            line(ends[1] - 1, ends[1] + 1),
        )
        pen.draw(shape, Ink(INK, 0.25))
        middle = (ends[0] + ends[1]) / 2 - 1.4
        pen.words(frame.rows, middle, Lettering(2.8, anchor="middle", turn=-90))
