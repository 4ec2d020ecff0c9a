"""A symbol chart of a piece in true shape, on as many pages as it needs.

It cannot disagree with the text: every symbol stands for a stitch that was worked from it,
and knows its node in the fabric and its words. A stitch is at least 2.2 mm wide on paper.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping, Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from hookwright.drawing.bounds import Box, words_width
from hookwright.drawing.chart_frame import Frame, draw_frame, frame_of
from hookwright.drawing.chart_heads import BESIDE, Head, draw_head, heads_of
from hookwright.drawing.chart_legend import Entry, draw_glyph, draw_legend, entries_of
from hookwright.drawing.chart_marks import marks_of
from hookwright.drawing.chart_repeat import Cut, one_repeat, whole
from hookwright.drawing.chart_row import Mark
from hookwright.drawing.chart_words import described, notes_of, titled
from hookwright.drawing.clearing import cleared
from hookwright.drawing.loosening import drawn_apart
from hookwright.drawing.lying import Lying
from hookwright.drawing.overlapping import overlapping
from hookwright.drawing.parting import parted
from hookwright.drawing.pen import INK, QUIET, Group, Ink, Lettering, Pen, grouped
from hookwright.drawing.recorder import Recorder, bounds_of
from hookwright.drawing.row_ends import moved_out, on_row_ends
from hookwright.drawing.seams import opened
from hookwright.drawing.sheet import Sheet
from hookwright.drawing.stitch_symbols import Symbols
from hookwright.drawing.yarn_colours import YarnColour, readable, yarn_colour
from hookwright.shape.energy import Complex

WIDE, HIGH = 166.0, 240.0
"""What is printed on in mm: A4 and US letter both have as much between their margins."""
SMALLEST, LARGEST = 2.2, 6.0
"""The width of a stitch on paper, in mm."""
SIDES = 15.0
"""Room for the numbers on either side."""
BELOW = 30.0
"""Room for the legend."""
_SEAM = 1.2
_NOTE = 2.8


class Chart(Struct, frozen=True, eq=False):
    """A chart, ready to be drawn.

    Attributes:
        piece: The piece.
        cut: What is drawn of it.
        unit: The width of a stitch, in mm.
        marks: Its symbols, moved to where they are drawn.
        heads: The numbers of its rows, likewise.
        frame: The repeat.
        yarns: The yarn of each course, where there are several.
        inks: The ink of each course.
    """

    piece: Lying
    cut: Cut
    unit: float
    marks: tuple[Mark, ...]
    heads: tuple[Head, ...]
    frame: Frame
    yarns: Mapping[int, YarnColour]
    inks: Mapping[int, Ink]


def chart_of(
    piece: Lying,
    symbols: Symbols,
    colours: Mapping[str, YarnColour],
    *,
    repeat: bool = False,
    unit: float = 0.0,
) -> Chart:
    """The chart of a piece.

    Args:
        piece: The piece as it lies.
        symbols: The symbols of its pattern.
        colours: The yarns of its pattern, by their names.
        repeat: Whether one repeat is drawn with its edges, instead of the whole.
        unit: The width of a stitch in mm; 0 for what suits the paper.
    """
    chart = _true(piece, symbols, colours, repeat=repeat, unit=unit)
    pairs = overlapping(chart.marks)
    if len(pairs) > _CROWDED * len(chart.marks):
        loose = drawn_apart(piece)
        if loose is not None:
            other = _true(loose, symbols, colours, repeat=repeat, unit=unit)
            if len(overlapping(other.marks)) < _BETTER * len(pairs):
                chart = other
    return replace(chart, marks=tuple(parted(chart.marks, chart.unit)))


_CROWDED = 0.06
"""Pairs that lie on one another, of all symbols, from which a chart is crowded."""
_BETTER = 0.6
"""Another layout is taken where it leaves no more of those."""


def _true(
    piece: Lying,
    symbols: Symbols,
    colours: Mapping[str, YarnColour],
    *,
    repeat: bool,
    unit: float,
) -> Chart:
    """The chart of a piece as it lies, whatever lies on one another."""
    cut = one_repeat(piece) if repeat else whole(piece)
    sides = on_row_ends(piece.graph)
    position = moved_out(piece.graph, opened(piece.graph, piece.position, _SEAM), sides)
    drawn = (position + cut.move)[cut.keep]
    unit = unit or unit_for(drawn)
    points: list[complex] = (position.conj() * unit).tolist()
    moves: list[complex] = (cut.move.conj() * unit).tolist()
    keep = cut.keep.tolist()
    again = None
    if piece.again is not None:
        again = (opened(piece.graph, piece.again, _SEAM).conj() * unit).tolist()
    all_marks = marks_of(piece, symbols, points, unit, cut.rows, again)
    kept = [mark.moved(moves[mark.node]) for mark in all_marks if keep[mark.node]]
    marks = tuple(cleared(kept, unit))
    yarns = _yarns(piece, colours)
    heads = tuple(
        head.moved(moves[head.node])
        for head in heads_of(piece, points, unit, yarns, again)
        if head.course in cut.rows and keep[head.node]
    )
    if sides.any():
        heads = _beyond(heads, drawn_marks(marks), unit)
    weight = min(0.3, max(0.16, 0.05 * unit))
    inks = {
        number: Ink(readable(yarns[number].code) if number in yarns else INK, weight)
        for number in range(len(piece.graph.courses))
    }
    return Chart(piece, cut, unit, marks, heads, frame_of(piece, cut, unit), yarns, inks)


def _beyond(heads: Sequence[Head], room: Box, unit: float) -> tuple[Head, ...]:
    """The numbers of rows outside an edging that is worked along their ends."""
    left, right = room.left - 0.5 * unit, room.right + 0.5 * unit
    return tuple(
        head
        if head.closed
        else replace(head, at=complex(left if head.way > 0 else right, head.at.imag))
        for head in heads
    )


def unit_for(position: Complex) -> float:
    """The width of a stitch that suits the paper: on one page if that can be."""
    wide = float(position.real.max() - position.real.min()) + 2
    high = float(position.imag.max() - position.imag.min()) + 2
    room, tall = WIDE - 2 * SIDES, HIGH - BELOW
    one = min(room / wide, tall / high)
    if one >= SMALLEST:
        return min(one, LARGEST)
    across, down = math.ceil(wide * SMALLEST / room), math.ceil(high * SMALLEST / tall)
    return min(across * room / wide, down * tall / high, LARGEST)


def _yarns(piece: Lying, colours: Mapping[str, YarnColour]) -> dict[int, YarnColour]:
    """The yarn of each course; none where all is of one."""
    found: dict[int, YarnColour] = {}
    for number, course in enumerate(piece.graph.courses):
        own = piece.yarn[course.nodes]
        if len(own):
            name = piece.yarns[int(np.bincount(own).argmax())]
            found[number] = yarn_colour(colours, name)
    return found if len(set(found.values())) > 1 else {}


def chart_sheets(chart: Chart, design: str, name: str) -> tuple[Sheet, ...]:
    """The pages of a chart.

    Args:
        chart: The chart.
        design: The name of the design; "" for none.
        name: What its files are called.
    """
    cells = [cell for cell in _cells(chart) if any(cell.holds(m.at) for m in chart.marks)]
    entries = entries_of(chart.marks, chart.yarns)
    found = []
    for number, cell in enumerate(cells, 1):
        pen = Recorder()
        marks = [mark for mark in chart.marks if cell.holds(mark.at)]
        heads = [head for head in chart.heads if cell.holds(head.at)]
        of = f" (page {number} of {len(cells)})" if len(cells) > 1 else ""
        _draw_page(pen, chart, marks, heads, cell if len(cells) > 1 else None)
        _draw_below(pen, chart, entries, of)
        room = bounds_of(pen.marks)
        assert room is not None
        found.append(
            Sheet(
                f"{name}-{number}" if len(cells) > 1 else name,
                titled(design, chart.piece) + of,
                described(chart.piece, chart.cut, entries, chart.frame),
                room.wider(2.0),
                pen.marks,
                chart.piece.notes,
            )
        )
    return tuple(found)


class Cell(Struct, frozen=True):
    """The part of a chart that is on one page."""

    left: float
    top: float
    right: float
    bottom: float

    def holds(self, at: complex) -> bool:
        """Whether a point is on this page."""
        return self.left <= at.real < self.right and self.top <= at.imag < self.bottom


def _cells(chart: Chart) -> list[Cell]:
    """The pages, from the foot up, and each row of them from where row 1 begins."""
    across = [mark.at.real for mark in chart.marks]
    down = [mark.at.imag for mark in chart.marks]
    left, right, top, bottom = min(across), max(across), min(down), max(down)
    unit = chart.unit
    room, tall = WIDE - 2 * SIDES, HIGH - BELOW
    columns = max(1, math.ceil((right - left + unit) / (room + unit)))
    rows = max(1, math.ceil((bottom - top + unit) / (tall + unit)))
    wide, high = (right - left + unit) / columns, (bottom - top + unit) / rows
    far = 1e9
    found: list[Cell] = []
    for row in reversed(range(rows)):
        order = range(columns) if chart.piece.mirrored else reversed(range(columns))
        found.extend(
            Cell(
                -far if column == 0 else left - unit / 2 + column * wide,
                -far if row == 0 else top - unit / 2 + row * high,
                far if column == columns - 1 else left - unit / 2 + (column + 1) * wide,
                far if row == rows - 1 else top - unit / 2 + (row + 1) * high,
            )
            for column in order
        )
    return found


def _draw_page(
    pen: Recorder,
    chart: Chart,
    marks: Sequence[Mark],
    heads: Sequence[Head],
    cell: Cell | None,
) -> None:
    room = drawn_marks(marks)
    draw_frame(pen, chart.frame, room, BESIDE * chart.unit)
    by_row: dict[int, list[Mark]] = {}
    for mark in marks:
        by_row.setdefault(mark.row, []).append(mark)
    for row, own in by_row.items():
        ink = chart.inks[row]
        with grouped(pen, Group("row", (("course", str(row)),), ink=ink)):
            for mark in own:
                with grouped(pen, Group("symbol", _known_of(chart, mark))):
                    draw_glyph(pen, mark.glyph, 0j, ink)
    size = _number_size(chart.unit)
    with grouped(pen, Group("row-heads")):
        for head in heads:
            draw_head(pen, head, size)
        if cell is not None:
            _draw_borrowed(pen, chart, by_row, heads, size)


def _number_size(unit: float) -> float:
    return min(3.2, max(1.7, 0.6 * unit))


def _known_of(chart: Chart, mark: Mark) -> tuple[tuple[str, str], ...]:
    start, end = chart.piece.graph.span[mark.node].tolist()
    words = (("start", str(start)), ("end", str(end))) if start >= 0 else ()
    return (("node", str(mark.node)), *words)


def drawn_marks(marks: Sequence[Mark]) -> Box:
    """The room that symbols take up."""
    points = [p for mark in marks for quad in mark.glyph.boxes for p in quad]
    across, down = [p.real for p in points], [p.imag for p in points]
    return Box(min(across), min(down), max(across), max(down))


def _draw_borrowed(
    pen: Pen,
    chart: Chart,
    by_row: Mapping[int, Sequence[Mark]],
    heads: Sequence[Head],
    size: float,
) -> None:
    """Numbers at the edge of a page for rows that do not begin on it."""
    here = {head.course for head in heads}
    for head in chart.heads:
        own = by_row.get(head.course)
        if head.course in here or head.closed or not own:
            continue
        first = min(own, key=lambda mark: head.way * mark.at.real)
        at = first.at - head.way * 1.1 * chart.unit
        lettering = Lettering(size, QUIET, "end" if head.way > 0 else "start")
        pen.words(head.number, at + 0.28j * size, lettering)


def _draw_below(pen: Recorder, chart: Chart, entries: Sequence[Entry], of: str) -> None:
    """The legend and the notes under a chart."""
    room = bounds_of(pen.marks)
    assert room is not None
    wide = max(room.width, 110.0)
    corner = complex(room.left, room.bottom + 6)
    down = draw_legend(pen, entries, corner, wide)
    at = corner + 1j * (down + 4)
    striped = bool(chart.yarns)
    for note in notes_of(chart.piece, chart.cut, chart.frame, of, striped=striped):
        for text in _lines(note, wide):
            pen.words(text, at, Lettering(_NOTE, QUIET))
            at += 1.4j * _NOTE


def _lines(note: str, wide: float) -> Iterator[str]:
    """A note broken into lines of a width."""
    line = ""
    for word in note.split():
        longer = f"{line} {word}".strip()
        if line and words_width(longer, Lettering(_NOTE)) > wide:
            yield line
            longer = word
        line = longer
    if line:
        yield line
