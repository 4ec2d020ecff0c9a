"""How is a symbol drawn between the place it stands on and its top?"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.drawing.buds import bud, coil, diamond, eye, knot, popcorn, scale
from hookwright.drawing.signs import MORE
from hookwright.drawing.stitch_symbols import CROSSED, Symbol
from hookwright.drawing.strokes import (
    BAR,
    CROSS,
    DOT,
    EIGHTH,
    SLASH,
    Glyph,
    Place,
    Stem,
    across_of,
    bar,
    chain_at,
    dot_at,
    joined,
    stroke,
)


def glyph_of(symbol: Symbol, place: Place) -> Glyph:
    """A symbol between its feet and its top, without marks of loops and posts."""
    stems = [Stem.between(foot, place) for foot in place.feet]
    if len(stems) == 1:
        drawn = _DRAWN[symbol.stands](symbol, stems[0], place)
    else:
        drawn = _together(symbol, stems, place)
    return drawn + MORE[symbol.more](stems[0], place)


def _cross(symbol: Symbol, stem: Stem, place: Place) -> Glyph:
    at = 0.68 if symbol.more == "lifted" else 0.5
    half = min(CROSS * place.unit, place.room_at(at))
    return stroke(stem.low, stem.high) + bar(stem.at(at), stem.side, half)


def _plain(symbol: Symbol, stem: Stem, place: Place) -> Glyph:
    drawn = stroke(stem.low, stem.high)
    if symbol.bar:
        half = min(BAR * place.unit, place.room)
        drawn = drawn + bar(stem.high, across_of(stem, place), half)
    if symbol.id.endswith(CROSSED):
        # Clear of the middle, where stems cross.
        stem = Stem(stem.at(0.5), stem.high, stem.up)
    return drawn + _slashes(symbol.slashes, stem, place)


def _slashes(number: int, stem: Stem, place: Place) -> Glyph:
    if not number:
        return Glyph()
    half = min(SLASH * place.unit, 0.55 * place.room)
    apart = min(0.2 * place.unit, 0.55 * stem.long / number)
    slant = half * stem.up * EIGHTH
    middle = 0.42 * stem.long
    drawn = []
    for at in range(number):
        down = middle + (at - (number - 1) / 2) * apart
        centre = stem.high - down * stem.up
        drawn.append(stroke(centre - slant, centre + slant))
    return joined(drawn)


def _together(symbol: Symbol, stems: Sequence[Stem], place: Place) -> Glyph:
    """Legs that meet at one top, or cross on the way to it."""
    drawn = []
    for stem in stems:
        drawn.append(stroke(stem.low, stem.high))
        if symbol.stands == "cross":
            half = min(0.16 * place.unit, 0.5 * place.room)
            drawn.append(bar(stem.at(0.38), stem.side, half))
        elif symbol.stands == "stem":
            lower = Stem(stem.low, stem.at(0.86), stem.up)
            drawn.append(_slashes(symbol.slashes, lower, place))
    if symbol.bar:
        half = min(BAR * place.unit, place.room)
        high = sum(stem.high for stem in stems) / len(stems)
        drawn.append(bar(high, place.along, half))
    return joined(drawn)


def _dot(symbol: Symbol, stem: Stem, place: Place) -> Glyph:
    del symbol
    return dot_at((stem.low + stem.high) / 2, min(DOT * place.unit, place.room))


def _nothing(symbol: Symbol, stem: Stem, place: Place) -> Glyph:
    del symbol, stem, place
    return Glyph()


_DRAWN = {
    "cross": _cross,
    "stem": _plain,
    "dot": _dot,
    "oval": lambda symbol, stem, place: chain_at(  # noqa: ARG005 - one shape for all
        (stem.low + stem.high) / 2, place.along, place.unit, place.room
    ),
    "bud": bud,
    "puff": bud,
    "popcorn": popcorn,
    "coil": coil,
    "knot": knot,
    "eye": eye,
    "scale": scale,
    "diamond": diamond,
    "": _nothing,
}
