"""The outline of each piece with its measures, in both units and every size."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise

from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.drawing.asked import (
    NotDrawn,
    Wanted,
    check_part,
    is_wanted,
    size_wanted,
    slug,
)
from hookwright.drawing.bounds import box_of, words_width
from hookwright.drawing.chart_heads import arrow
from hookwright.drawing.dimensions import Dimension, Runs, dimensions_of, of_a_garment
from hookwright.drawing.lying import Lying, left_handed, lying_pieces
from hookwright.drawing.outlines import lying_outline
from hookwright.drawing.pen import (
    INK,
    PAPER,
    QUIET,
    Group,
    Ink,
    Lettering,
    Pen,
    area,
    grouped,
    line,
)
from hookwright.drawing.recorder import Recorder, bounds_of
from hookwright.drawing.sheet import Sheet
from hookwright.progress import Progress, stretch
from hookwright.shape.facts import Measured, Measures, PartMeasured
from hookwright.shape.measures import measures_of
from hookwright.shape.measuring import is_of_blocks
from hookwright.sizing.lengths import in_cm, in_inches

LARGEST = 64.0
"""The longer side of an outline on paper, in mm."""
_SIZE = 3.4
_LEADING = 1.55
_BETWEEN = 6.0
_BESIDE = 9.0
_PAGE = 160.0
"""The measures stand beside the outline where both find room in the width of a page."""


def sheets(
    checked: Checked, wanted: Wanted, progress: Progress | None = None
) -> tuple[Sheet, ...]:
    """An outline for each piece; its table has every size unless one is wanted."""
    size = size_wanted(checked, wanted)
    measures = measures_of(checked, "", stretch(progress, 0.0, 0.7))
    pieces = list(lying_pieces(checked, size, stretch(progress, 0.7, 1.0)))
    return outlines(checked, wanted, measures, pieces)


def outlines(
    checked: Checked, wanted: Wanted, measures: Measures, lying: Sequence[Lying]
) -> tuple[Sheet, ...]:
    """An outline for each piece that lies, with its measures.

    Raises:
        NotDrawn: When there is no part of the name wanted, or nothing tells how large.
    """
    parts = [part for part in measures.parts if part.sizes]
    check_part(wanted, tuple(part.part for part in parts))
    pieces = {piece.part: piece for piece in lying}
    found = []
    for number, part in enumerate(parts):
        piece = pieces.get(part.part)
        if not is_wanted(wanted, part.part) or piece is None:
            continue
        sizes = part.sizes if not wanted.size else _of_size(part, wanted.size)
        drawn = left_handed(piece) if wanted.left_handed else piece
        name = "schematic" if len(parts) == 1 else f"schematic-{slug(part.part, number)}"
        found.append(_sheet(drawn, part.part, sizes, checked.design.title, name))
    if not found and measures.parts:
        reason = next((part.reason for part in measures.parts if part.reason), "")
        raise NotDrawn(reason or "Nothing tells how large its pieces are.")
    return tuple(found)


def _of_size(part: PartMeasured, name: str) -> tuple[Measured, ...]:
    return tuple(m for m in part.sizes if m.size.lower() == name.lower()) or part.sizes


def _sheet(
    piece: Lying, part: str, sizes: Sequence[Measured], design: str, name: str
) -> Sheet:
    if piece.pinned and _is_box(lying_outline(piece)):
        sizes = [_pinned_out(measured) for measured in sizes]
    first = sizes[0]
    pen = Recorder()
    stands = first.standing is not None
    mirrored = piece.mirrored and not stands
    told = [_told(measured, mirrored=mirrored) for measured in sizes]
    corners = _corners(first, mirrored=mirrored)
    scale = LARGEST / max(*(abs(one.end - one.start) for one in told[0]), 1e-9)
    _draw_outline(pen, [_placed(point, scale) for point in corners])
    _draw_lengths(pen, told[0], scale)
    _draw_way(pen, piece, stands=stands)
    room = bounds_of(pen.marks)
    assert room is not None
    table = _rows_of_table(told, stands=stands, round_=first.circle, garment=first.garment)
    _draw_table(pen, [measured.size for measured in sizes], table, room.corner, room.height)
    room = bounds_of(pen.marks)
    assert room is not None
    named = f"Outline of {part}" if part else "Outline"
    title = f"{design}: {named[0].lower()}{named[1:]}" if design else named
    what = "Its front is shown" if first.garment else "It stands up, and is shown"
    notes = (f"{what}, laid double.",) if stands else ()
    words = _described(sizes, part, table, stands=stands)
    return Sheet(name, title, words, room.wider(2), pen.marks, notes)


_FULL = 0.95
"""The share of its box that a shape fills from which it is one."""


def _is_box(line: Sequence[complex]) -> bool:
    """Whether an outline is a rectangle but for its waves."""
    room = box_of(line)
    area = sum((a.conjugate() * b).imag for a, b in pairwise((*line, line[0]))) / 2
    return abs(area) > _FULL * room.width * room.height


def _pinned_out(measured: Measured) -> Measured:
    """The measures of lace that is pinned out as a rectangle."""
    wide, high = measured.width_mm, measured.height_mm
    return replace(measured, outline=((0, 0), (wide, 0), (wide, high), (0, high)))


def _corners(measured: Measured, *, mirrored: bool) -> list[complex]:
    """The shape of a piece in mm, y up."""
    corners = [complex(*point) for point in measured.outline]
    return [-point.conjugate() for point in corners] if mirrored else corners


def _told(measured: Measured, *, mirrored: bool) -> tuple[Dimension, ...]:
    corners = _corners(measured, mirrored=mirrored)
    if measured.garment:
        return of_a_garment(corners)
    in_rounds = bool(measured.rounds) and measured.standing is None
    return dimensions_of(corners, circle=measured.circle, regular=in_rounds)


def _placed(point: complex, scale: float) -> complex:
    """On paper, y down."""
    return (point * scale).conjugate()


def _draw_outline(pen: Pen, outline: Sequence[complex]) -> None:
    with grouped(pen, Group("outline")):
        pen.draw((area(*outline),), Ink(INK, 0.35, PAPER))


def _draw_lengths(pen: Pen, told: Sequence[Dimension], scale: float) -> None:
    """A line with its letter for each length."""
    for letter, one in zip(letters_of(told), told, strict=True):
        start, end = _placed(one.start, scale), _placed(one.end, scale)
        away = {Runs.BELOW: 9j, Runs.LEFT: -5 + 0j, Runs.RIGHT: 5 + 0j}.get(one.runs)
        if away is None:
            below = one.name in ("lower edge", "body")
            slants = one.name in _SLANTING
            way = (end - start) / max(abs(end - start), 1e-9)
            across = -1j * way if slants else -1j
            away = across * (-4 if below or slants else 4)
        _measure(pen, start + away, end + away, letter)


_SLANTING = ("side", "sleeve")
"""What is measured beside an edge that slants."""


def letters_of(told: Sequence[Dimension]) -> list[str]:
    """The letters of some lengths: w and l for the whole, a, b, c for the others."""
    whole = {"width": "w", "length": "l", "across": "d"}
    others = iter("abcefghijk")
    return [whole.get(one.name) or next(others) for one in told]


def _draw_way(pen: Recorder, piece: Lying, *, stands: bool) -> None:
    """Which way it is worked: an arrow beside it, or from its middle out."""
    room = bounds_of(pen.marks)
    assert room is not None
    if is_of_blocks(piece.graph):  # it begins in one of its corners
        at = complex(room.right + 4, room.top + room.height / 2)
        pen.words("worked from", at, Lettering(2.8, QUIET))
        pen.words("corner to corner", at + 3.4j, Lettering(2.8, QUIET))
        return
    x = room.right + 5
    if piece.rounds and not stands:
        at = complex(x, room.top + room.height / 2)
        pen.words("worked in rounds", at, Lettering(2.8, QUIET))
        pen.words("from the middle out", at + 3.4j, Lettering(2.8, QUIET))
        return
    low, high = (0.3, 0.55) if stands else (0.75, 0.5)
    start = complex(x, room.top + low * room.height)
    end = complex(x, room.top + high * room.height)
    arrow(pen, start, end)
    pen.words("worked", (start + end) / 2 + 2, Lettering(2.8, QUIET))
    pen.words("this way", (start + end) / 2 + 2 + 3.4j, Lettering(2.8, QUIET))


def _measure(pen: Pen, start: complex, end: complex, letter: str) -> None:
    """A line with ends and a letter on it."""
    way = (end - start) / max(abs(end - start), 1e-9)
    side = 1j * way
    middle = (start + end) / 2
    gap = 2.6 * way
    shape = (
        line(start, middle - gap),
        line(middle + gap, end),
        line(start - 1.2 * side, start + 1.2 * side),
        line(end - 1.2 * side, end + 1.2 * side),
    )
    pen.draw(shape, Ink(INK, 0.25))
    pen.words(letter, middle + 1.1j, Lettering(_SIZE, anchor="middle", bold=True))


TableRow = tuple[str, str, tuple[float | None, ...]]
"""A letter of the drawing, what it stands for, and its value in mm for each size."""


def _rows_of_table(
    told: Sequence[Sequence[Dimension]], *, stands: bool, round_: bool, garment: bool
) -> list[TableRow]:
    """The lengths of every size; none for a size whose shape has other corners."""
    first = [(one.name, one.runs) for one in told[0]]
    alike = [[(one.name, one.runs) for one in other] == first for other in told]
    double = " laid double" if stands else ""
    rows: list[TableRow] = []
    for at, (letter, one) in enumerate(zip(letters_of(told[0]), told[0], strict=True)):
        values = tuple(
            _length_of(other, at, one.name, like=like)
            for other, like in zip(told, alike, strict=True)
        )
        doubled = double if one.runs in (Runs.BELOW, Runs.LEFT) else ""
        points = " over its points" if one.over_points else ""
        rows.append((letter, f"{one.name}{points}{doubled}", values))
        if stands and one.name == _AROUND[garment] and not round_:
            around = tuple(2 * mm if mm is not None else None for mm in values)
            rows.append(("", "around", around))
    return rows


def _length_of(
    told: Sequence[Dimension], at: int, name: str, *, like: bool
) -> float | None:
    if like:
        return told[at].mm
    return next((one.mm for one in told if one.name == name and name in _WHOLE), None)


_AROUND = ("width", "body")
"""What goes round a piece laid double: all of it, or the body of a garment."""
_WHOLE = ("width", "length", "across")


def _draw_table(
    pen: Recorder,
    sizes: Sequence[str],
    table: Sequence[TableRow],
    corner: complex,
    down: float,
) -> None:
    """The lengths of every size, in both units, beside the outline or under it."""
    rows = [["", *sizes]] if any(sizes) else []
    for letter, name, values in table:
        rows.append([f"{letter} {name}, cm".strip(), *(_cm(v) for v in values)])
        rows.append(["inches", *(_inches(v) for v in values)])
    widths = [
        max(words_width(row[at], Lettering(_SIZE)) for row in rows)
        for at in range(len(rows[0]))
    ]
    whole = sum(widths) + _BETWEEN * (len(widths) - 1)
    room = bounds_of(pen.marks)
    assert room is not None
    beside = room.right - corner.real + _BESIDE
    corner += beside if beside + whole <= _PAGE else 1j * (down + 4)
    with grouped(pen, Group("measures")):
        for number, row in enumerate(rows):
            y = corner + 1j * (number + 1) * _SIZE * _LEADING
            at = 0.0
            for column, (cell, wide) in enumerate(zip(row, widths, strict=True)):
                x = y + at + (wide if column else 0.0)
                head = number == 0 and len(rows) % 2 == 1
                lettering = Lettering(_SIZE, anchor="end" if column else "start", bold=head)
                if cell:
                    pen.words(cell, x, lettering)
                at += wide + _BETWEEN
        top = corner + 0.45j * _SIZE
        pen.draw((line(top, top + whole),), Ink(INK, 0.3))


def _cm(millimetres: float | None) -> str:
    return in_cm(Fraction(millimetres)).removesuffix(" cm") if millimetres else ""


def _inches(millimetres: float | None) -> str:
    return in_inches(Fraction(millimetres)).removesuffix(" in") if millimetres else ""


def _described(
    sizes: Sequence[Measured], part: str, table: Sequence[TableRow], *, stands: bool
) -> str:
    what = "laid double" if stands else "as it lies flat"
    told = []
    for at, measured in enumerate(sizes):
        words = ", ".join(
            f"{name} {_cm(values[at])} cm ({_inches(values[at])} inches)"
            for _, name, values in table
            if values[at]
        )
        told.append(f"{measured.size}: {words}" if measured.size else words)
    return f"The outline of {part or 'the piece'} {what}. {'; '.join(told)}."
