"""Which signs are added to a symbol: for its kind, for a loop, for a post?"""

from __future__ import annotations

from hookwright.drawing.pen import curve, line
from hookwright.drawing.strokes import FOOT, Glyph, Place, Stem, bar, chain_at, quad, stroke


def _tick(stem: Stem, place: Place) -> Glyph:
    return bar(stem.low + 0.14 * place.unit * stem.up, stem.side, 0.11 * place.unit)


def _wave(stem: Stem, place: Place) -> Glyph:
    half = min(0.34 * place.unit, place.room)
    a, b = stem.high - half * stem.side, stem.high + half * stem.side
    lift = 0.2 * place.unit * stem.up
    wave = curve(a, a + lift + half * stem.side, b - lift - half * stem.side, b)
    return Glyph((wave,), (), (quad(a, b, 0.2 * place.unit),))


def _loop(stem: Stem, place: Place) -> Glyph:
    start = stem.at(0.5) + 0.02 * place.unit * stem.side
    down, aside = -0.5 * stem.long * stem.up, 0.3 * place.unit * stem.side
    return Glyph((curve(start, start + down - aside, start + down + aside, start),))


def _slant(stem: Stem, place: Place) -> Glyph:
    return stroke(stem.low, stem.low + 0.2 * place.unit * (stem.up * 0.7 - stem.side))


def _linked(stem: Stem, place: Place) -> Glyph:
    half = min(0.4 * place.unit, place.room)
    return stroke(stem.at(0.36), stem.at(0.36) + half * stem.side)


def _own_chain(stem: Stem, place: Place) -> Glyph:
    below = stem.low - 0.04 * place.unit * stem.up
    return chain_at(below, stem.side, place.unit, 0.4 * place.unit)


def _vee(stem: Stem, place: Place) -> Glyph:
    reach = 0.18 * place.unit
    left, right = (stem.low + reach * (stem.up + way * stem.side) for way in (-0.8, 0.8))
    return Glyph((line(left, stem.low, right),))


def _under(stem: Stem, place: Place) -> Glyph:
    return bar(stem.low, stem.side, 0.16 * place.unit)


def _no_more(stem: Stem, place: Place) -> Glyph:
    del stem, place
    return Glyph()


MORE = {
    "": _no_more,
    "lifted": _no_more,
    "tick": _tick,
    "wave": _wave,
    "loop": _loop,
    "slant": _slant,
    "linked": _linked,
    "chain": _own_chain,
    "vee": _vee,
    "under": _under,
}


def loop_mark(loop: str, foot: complex, up: complex, place: Place) -> Glyph:
    """The mark under a foot: an arch for the back loop, a bowl for the front one."""
    side = 1j * up
    half = min(0.2 * place.unit, place.room)
    base = foot + 0.1 * place.unit * up
    left, right = base - half * side, base + half * side
    bend = {"back": 0.17, "front": -0.17, "third": 0.0}[loop] * place.unit * up
    box = quad(left, right, 0.12 * place.unit)
    if loop == "third":
        return Glyph((line(left, right),), (), (box,))
    return Glyph((curve(left, left + bend, right + bend, right),), (), (box,))


def post_hook(post: str, foot: complex, up: complex, place: Place) -> Glyph:
    """A foot curled around a post: to the right in front, to the left behind."""
    side = 1j * up * (1 if post == "front" else -1)
    unit = place.unit
    start = foot + max(place.keep, FOOT * abs(place.top - foot)) * up
    low = start - 0.2 * unit * up
    end = start - 0.02 * unit * up + 0.22 * unit * side
    hook = curve(start, low, low + 0.24 * unit * side, end)
    middle = start + 0.11 * unit * side
    box = quad(middle - 0.17 * unit * up, middle, 0.22 * unit)
    return Glyph((hook,), (), (box,))
