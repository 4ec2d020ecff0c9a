"""The outline of each piece with its measures, in both units and every size."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

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
from hookwright.drawing.lying import Lying, left_handed, lying_pieces
from hookwright.drawing.outlines import doubled_outline, lying_outline
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
from hookwright.sizing.lengths import in_cm, in_inches

LARGEST = 90.0
"""The longer side of an outline on paper, in mm."""
_SIZE = 3.4
_LEADING = 1.7
_BETWEEN = 6.0


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
    first = sizes[0]
    pen = Recorder()
    stands = first.standing is not None
    outline = doubled_outline(piece) if stands else lying_outline(piece)
    scaled = _scaled(_to_measure(outline, first))
    _draw_outline(pen, scaled, stands=stands, clockwise=piece.mirrored)
    room = bounds_of(pen.marks)
    assert room is not None
    _draw_table(pen, sizes, complex(room.left, room.bottom + 8), stands=stands)
    room = bounds_of(pen.marks)
    assert room is not None
    what = f"Outline of {part}" if part else "Outline"
    title = f"{design}: {what[0].lower()}{what[1:]}" if design else what
    notes = ("It stands up, and is shown laid double.",) if stands else ()
    words = _described(sizes, part, stands=stands)
    return Sheet(name, title, words, room.wider(2), pen.marks, notes)


def _to_measure(outline: Sequence[complex], measured: Measured) -> list[complex]:
    """The outline as large as the piece was measured."""
    box = box_of(outline)
    return [
        complex(
            (point.real - box.left) * measured.width_mm / max(box.width, 1e-9),
            (point.imag - box.bottom) * measured.height_mm / max(box.height, 1e-9),
        )
        for point in outline
    ]


def _scaled(outline: Sequence[complex]) -> list[complex]:
    box = box_of(outline)
    scale = LARGEST / max(box.width, box.height, 1e-9)
    return [(point - box.corner) * scale for point in outline]


def _draw_outline(
    pen: Pen, outline: Sequence[complex], *, stands: bool, clockwise: bool
) -> None:
    box = box_of(outline)
    with grouped(pen, Group("outline")):
        pen.draw((area(*outline),), Ink(INK, 0.35, PAPER))
    under, beside = box.bottom + 5, box.left - 5
    _measure(pen, complex(box.left, under), complex(box.right, under), "w")
    _measure(pen, complex(beside, box.bottom), complex(beside, box.top), "l")
    at = box.left - 8 if clockwise else box.right + 5
    low, high = (0.3, 0.55) if stands else (0.8, 0.55)
    start = complex(at, box.top + low * box.height)
    end = complex(at, box.top + high * box.height)
    if not clockwise:
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


def _draw_table(
    pen: Pen, sizes: Sequence[Measured], corner: complex, *, stands: bool
) -> None:
    """The measures of every size, in both units."""
    rows = [["", *(m.size or "" for m in sizes)]] if any(m.size for m in sizes) else []
    for letter, name, values in _values(sizes, stands=stands):
        rows.append([f"{letter} {name}, cm".strip(), *(_cm(v) for v in values)])
        rows.append(["inches", *(_inches(v) for v in values)])
    widths = [
        max(words_width(row[at], Lettering(_SIZE)) for row in rows)
        for at in range(len(rows[0]))
    ]
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
        whole = sum(widths) + _BETWEEN * (len(widths) - 1)
        pen.draw((line(top, top + whole),), Ink(INK, 0.3))


def _values(
    sizes: Sequence[Measured], *, stands: bool
) -> list[tuple[str, str, list[float]]]:
    """The letters of the drawing, what they stand for, and their values in mm."""
    double = " laid double" if stands else ""
    found = [
        ("w", f"width{double}", [m.width_mm for m in sizes]),
        ("l", f"length{double}", [m.height_mm for m in sizes]),
    ]
    if stands:
        found.insert(1, ("", "around", [2 * m.width_mm for m in sizes]))
    return found


def _cm(millimetres: float) -> str:
    return in_cm(Fraction(millimetres)).removesuffix(" cm")


def _inches(millimetres: float) -> str:
    return in_inches(Fraction(millimetres)).removesuffix(" in")


def _described(sizes: Sequence[Measured], part: str, *, stands: bool) -> str:
    what = "laid double" if stands else "as it lies flat"
    told = []
    for measured in sizes:
        values = _values([measured], stands=stands)
        words = " and ".join(
            f"{name} {_cm(own[0])} cm, {_inches(own[0])} inches" for _, name, own in values
        )
        told.append(f"{measured.size}: {words}" if measured.size else words)
    return f"The outline of {part or 'the piece'} {what}. {'; '.join(told)}."
