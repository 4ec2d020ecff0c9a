"""How are symbols drawn that are more than a stem: bobbles, popcorns, knots, stars?"""

from __future__ import annotations

import cmath

from hookwright.drawing.pen import Outline, curve, line, oval
from hookwright.drawing.stitch_symbols import Symbol
from hookwright.drawing.strokes import (
    BAR,
    EIGHTH,
    Glyph,
    Place,
    Stem,
    across_of,
    bar,
    quad,
)


def bud(symbol: Symbol, stem: Stem, place: Place) -> Glyph:
    """Stems that begin in one place and end in one top: a bobble, a puff."""
    legs = symbol.legs
    wide = min((0.14 + 0.05 * legs) * place.unit, place.room)
    lines: list[Outline] = []
    low, high = stem.at(1 / 3), stem.at(2 / 3)
    for at in range(legs):
        aside = (2 * at / (legs - 1) - 1) * wide * stem.side * 4 / 3
        lines.append(curve(stem.low, low + aside, high + aside, stem.high))
        if symbol.slashes:
            half = min(0.08 * place.unit, 0.8 * wide / legs)
            slant = half * stem.up * EIGHTH
            middle = stem.at(0.5) + 0.75 * aside
            lines.append(line(middle - slant, middle + slant))
    box = quad(stem.low, stem.high, 2 * wide)
    top = bar(stem.high, across_of(stem, place), min(0.2 * place.unit, place.room))
    return Glyph(tuple(lines), (), (box,)) + top


def popcorn(symbol: Symbol, stem: Stem, place: Place) -> Glyph:
    """Whole stems under a small oval."""
    legs = symbol.legs
    wide = min((0.12 + 0.05 * legs) * place.unit, place.room)
    lid = min(0.11 * place.unit, 0.2 * stem.long)
    under = stem.high - 2 * lid * stem.up
    lines: list[Outline] = []
    for at in range(legs):
        aside = (2 * at / (legs - 1) - 1) * wide * stem.side
        end = under + 0.86 * aside
        lines.append(line(stem.low, end))
        if symbol.slashes:
            half = min(0.08 * place.unit, 0.7 * wide / legs)
            slant = half * stem.up * EIGHTH
            middle = stem.low + 0.62 * (end - stem.low)
            lines.append(line(middle - slant, middle + slant))
    lines.append(oval(stem.high - lid * stem.up, wide * stem.side, lid))
    return Glyph(tuple(lines), (), (quad(stem.low, stem.high, 2 * wide),))


def coil(symbol: Symbol, stem: Stem, place: Place) -> Glyph:
    """A stem wound round with yarn."""
    del symbol
    wide = min(0.16 * place.unit, place.room)
    turns = 5
    rings = tuple(
        oval(stem.at((at + 1) / (turns + 1)), wide * stem.side, 0.4 * wide)
        for at in range(turns)
    )
    box = quad(stem.low, stem.high, 2 * wide)
    top = bar(stem.high, stem.side, min(BAR * place.unit, place.room))
    return Glyph((line(stem.low, stem.high), *rings), (), (box,)) + top


def knot(symbol: Symbol, stem: Stem, place: Place) -> Glyph:
    """A long open loop, closed with a small cross."""
    del symbol
    wide = min(0.16 * place.unit, place.room)
    middle = stem.at(0.42)
    loop = oval(middle, 0.42 * stem.long * stem.up, wide)
    slant = 0.12 * place.unit * stem.up * EIGHTH
    knot = stem.at(0.92)
    cross = (line(knot - slant, knot + slant), line(knot - 1j * slant, knot + 1j * slant))
    return Glyph((loop, *cross), (), (quad(stem.low, stem.high, 2 * wide),))


def eye(symbol: Symbol, stem: Stem, place: Place) -> Glyph:
    """An eye with five rays."""
    del symbol
    small = min(0.1 * place.unit, 0.5 * place.room)
    wide = min(0.4 * place.unit, place.room)
    eye = stem.high - small * stem.up
    rays = [
        line(eye - small * ray, eye - 0.8 * stem.long * ray * (1 if not at else 0.8))
        for at in range(-2, 3)
        for ray in (stem.up * cmath.rect(1, at * 0.45),)
    ]
    return Glyph(
        (oval(eye, small * stem.up, small), *rays),
        (),
        (quad(stem.low, stem.high, 2 * wide),),
    )


def scale(symbol: Symbol, stem: Stem, place: Place) -> Glyph:
    """A fan that lies on its side."""
    del symbol
    wide = min(0.4 * place.unit, place.room)
    drawn = tuple(
        curve(
            stem.high - share * wide * stem.side,
            stem.at(1 - 1.3 * share) - share * wide * stem.side,
            stem.at(1 - 1.3 * share) + share * wide * stem.side,
            stem.high + share * wide * stem.side,
        )
        for share in (1.0, 0.66, 0.33)
    )
    box = quad(stem.at(0), stem.high, 2 * wide)
    return Glyph(drawn, (), (box,))


def diamond(symbol: Symbol, stem: Stem, place: Place) -> Glyph:
    """A stitch of the designer's own."""
    del symbol
    wide = min(0.26 * place.unit, place.room)
    left, right = stem.at(0.5) - wide * stem.side, stem.at(0.5) + wide * stem.side
    shape = Outline((stem.low, right, stem.high, left), closed=True)
    return Glyph((shape,), (), (quad(stem.low, stem.high, 2 * wide),))
