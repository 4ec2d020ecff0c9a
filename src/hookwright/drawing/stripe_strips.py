"""The stripes of a pattern as strips: as its rows are worked, and as they could be."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from itertools import groupby

import numpy as np
from msgspec import Struct

from hookwright.checking import Checked
from hookwright.colour.facts import Order
from hookwright.colour.planning import colour_plan
from hookwright.drawing.asked import NotDrawn, Wanted, is_wanted, size_wanted
from hookwright.drawing.bounds import words_width
from hookwright.drawing.chart_heads import draw_chip
from hookwright.drawing.fabric.yarn import yarns_in
from hookwright.drawing.pen import INK, QUIET, Group, Ink, Lettering, Pen, box, grouped
from hookwright.drawing.recorder import Recorder, bounds_of
from hookwright.drawing.sheet import Sheet
from hookwright.drawing.yarn_colours import (
    YarnColour,
    contrast,
    yarn_colour,
    yarn_colours,
)
from hookwright.progress import Progress, tell
from hookwright.shape.laying import heights_in, pieces_laid

HIGH = 220.0
"""The longest strip, in mm."""
_ROW = 4.0
"""How high a row is drawn where there is room, in mm."""
_WIDE = 26.0
_SIZE = 3.0
_ORDERS = 6


class Stripe(Struct, frozen=True):
    """Rows of one colour behind one another.

    Attributes:
        yarn: Their yarn.
        rows: How many.
        first: The number of the first; 0 where rows are not numbered.
        high: How high they are together, against a usual row.
    """

    yarn: YarnColour
    rows: int
    first: int
    high: float


def sheets(
    checked: Checked, wanted: Wanted, progress: Progress | None = None
) -> tuple[Sheet, ...]:
    """The strip of the rows as worked, and the orders that the worksheet leads to."""
    tell(progress, 0.0, "looking for stripes")
    found = []
    worked = stripes_worked(checked, wanted)
    title = checked.design.title
    if len({stripe.yarn for stripe in worked}) > 1:
        found.append(_sheet([("", worked)], title, "stripes", "as its rows are worked"))
    if checked.worksheet is not None:
        tell(progress, 0.3, "putting colours in order")
        orders = colour_plan(checked, _ORDERS).orders
        known = yarn_colours(checked)
        strips = [
            (str(number), stripes_of(order, known))
            for number, order in enumerate(orders, 1)
        ]
        if strips:
            found.append(_sheet(strips, title, "stripes-orders", "in the orders offered"))
    if not found:
        raise NotDrawn(
            "There are no stripes: rows name no second yarn, and no worksheet has colours."
        )
    return tuple(found)


def stripes_worked(checked: Checked, wanted: Wanted) -> list[Stripe]:
    """The stripes of the largest piece whose rows are of several yarns."""
    known = yarn_colours(checked)
    size = size_wanted(checked, wanted)
    best: list[Stripe] = []
    parts = checked.reading.pattern.parts
    outcomes = checked.worked.sizes[size].outcomes
    for piece in pieces_laid(outcomes, heights_in(checked.worked, size)):
        if not is_wanted(wanted, parts[piece.part].name):
            continue
        names, yarn = yarns_in(checked, size, piece)
        rows: list[tuple[YarnColour, int, float]] = []
        courses = [course for course in piece.graph.courses if course.row]
        for course, outcome in zip(courses, piece.outcomes, strict=False):
            if course.number and outcome.step.part == piece.part:
                most = int(np.bincount(yarn[course.nodes]).argmax())
                number = outcome.step.number or 0
                shade = yarn_colour(known, names[most])
                rows.append((shade, number, course.height or 1.0))
        if len(rows) > sum(stripe.rows for stripe in best):
            best = _joined(rows)
    return best


def _joined(rows: Sequence[tuple[YarnColour, int, float]]) -> list[Stripe]:
    usual = sum(high for _, _, high in rows) / len(rows)
    found = []
    for yarn, own in groupby(rows, key=lambda row: row[0]):
        these = list(own)
        high = sum(row[2] for row in these) / usual
        found.append(Stripe(yarn, len(these), these[0][1], high))
    return found


def stripes_of(order: Order, known: Mapping[str, YarnColour]) -> list[Stripe]:
    """The stripes of an order of the worksheet's colours."""
    found, first = [], 1
    for stripe in order.stripes:
        yarn = yarn_colour(known, stripe.colour)
        found.append(Stripe(yarn, stripe.rows, first, float(stripe.rows)))
        first += stripe.rows
    return found


def _sheet(
    strips: Sequence[tuple[str, Sequence[Stripe]]], design: str, name: str, how: str
) -> Sheet:
    pen = Recorder()
    tallest = max(sum(stripe.high for stripe in strip) for _, strip in strips)
    row = min(_ROW, HIGH / tallest)
    several = len(strips) > 1
    at = 0.0
    for label, strip in strips:
        if label:
            pen.words(
                label, at + _WIDE / 2 - 2j, Lettering(_SIZE, anchor="middle", bold=True)
            )
        at += _draw_strip(pen, strip, complex(at), row, told=not several) + 6
    room = bounds_of(pen.marks)
    assert room is not None
    yarns = {stripe.yarn.letter: stripe.yarn for _, strip in strips for stripe in strip}
    _draw_yarns(pen, list(yarns.values()), complex(0, room.bottom + 8))
    room = bounds_of(pen.marks)
    assert room is not None
    title = f"{design}: stripes" if design else "Stripes"
    lines = [_told(label, strip) for label, strip in strips]
    words = f"The stripes {how}, the first at the foot. {' '.join(lines)}"
    return Sheet(name, title, words, room.wider(2), pen.marks)


def _told(label: str, strip: Sequence[Stripe]) -> str:
    stripes = ", ".join(f"{stripe.rows} {stripe.yarn.letter}" for stripe in strip)
    return f"{label}: {stripes}." if label else f"{stripes}."


def _draw_strip(
    pen: Pen, strip: Sequence[Stripe], corner: complex, row: float, *, told: bool
) -> float:
    """Draws a strip from its foot up; says how wide it is."""
    high = row * sum(stripe.high for stripe in strip)
    foot = high
    widest, free = _WIDE, high + 10 * _SIZE
    with grouped(pen, Group("strip")):
        for stripe in strip:
            tall = row * stripe.high
            foot -= tall
            data = (("yarn", stripe.yarn.letter), ("rows", str(stripe.rows)))
            with grouped(pen, Group("stripe", data)):
                code = stripe.yarn.code or "#ffffff"
                pen.draw((box(corner + 1j * foot, _WIDE, tall),), Ink(QUIET, 0.15, code))
                middle = corner + 1j * (foot + tall / 2 + 0.35 * _SIZE)
                if tall >= 1.1 * _SIZE:
                    _draw_letter(pen, stripe.yarn.letter, code, middle + _WIDE / 2)
                if told and free - (foot + tall / 2) >= 1.15 * _SIZE:
                    free = foot + tall / 2
                    words = _rows(stripe)
                    pen.words(words, middle + _WIDE + 2, Lettering(_SIZE, QUIET))
                    widest = max(widest, _WIDE + 2 + words_width(words, Lettering(_SIZE)))
    return widest


def _draw_letter(pen: Pen, letter: str, code: str, at: complex) -> None:
    """The letter of a yarn on its colour."""
    ink = INK if contrast(code, INK) > contrast(code, "#ffffff") else "#ffffff"
    pen.words(letter, at, Lettering(_SIZE, ink, "middle", bold=True))


def _rows(stripe: Stripe) -> str:
    if not stripe.first:
        return f"{stripe.rows} {stripe.yarn.letter}"
    last = stripe.first + stripe.rows - 1
    rows = f"Row {last}" if stripe.rows == 1 else f"Rows {stripe.first}–{last}"
    return f"{rows}, {stripe.yarn.name}"


def _draw_yarns(pen: Pen, yarns: Sequence[YarnColour], corner: complex) -> None:
    with grouped(pen, Group("legend")):
        for number, yarn in enumerate(yarns):
            at = corner + 5.0j * number
            draw_chip(pen, yarn, at + 1.7, 3.4)
            pen.words(yarn.name, at + 5.5 + 1.1j, Lettering(_SIZE))
