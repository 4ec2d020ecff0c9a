"""Which symbols does a chart use, and what do they mean?"""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence

from msgspec import Struct

from hookwright.drawing.bounds import words_width
from hookwright.drawing.chart_heads import draw_chip
from hookwright.drawing.chart_row import Mark
from hookwright.drawing.glyphs import glyph_of
from hookwright.drawing.pen import Group, Ink, Lettering, Pen, grouped
from hookwright.drawing.signs import loop_mark, post_hook
from hookwright.drawing.stitch_symbols import CROSSED, Symbol
from hookwright.drawing.strokes import Glyph, Place, chain_at, chain_ring, picot_at, shifted
from hookwright.drawing.yarn_colours import YarnColour

_UNIT = 4.2
_SIZE = 2.9
_LEADING = 1.35
_SYMBOL_WIDE = 6.0
_BETWEEN = 7.0
_MOST_LEGS = 5
_HEIGHTS = {0: 1.2, 1: 1.6, 2: 2.0, 3: 2.4, 4: 2.8, 5: 3.2}
"""How high a sample stands by its slashes, in widths of a stitch."""
LOOPS = {
    "back": "in the back loop",
    "front": "in the front loop",
    "third": "in the third loop",
}
POSTS = {"front": "around the post from the front", "back": "around the post from the back"}


class Entry(Struct, frozen=True):
    """A symbol of the legend.

    Attributes:
        words: What it means.
        glyph: A sample; its foot at the origin.
        yarn: A yarn instead of a symbol.
    """

    words: str
    glyph: Glyph = Glyph()
    yarn: YarnColour | None = None


_UNNAMED = "the yarn it is begun with"
"""What a yarn is called that nothing names, beside one that is named."""


def entries_of(marks: Iterable[Mark], yarns: Mapping[int, YarnColour]) -> list[Entry]:
    """The symbols that are used, each once, then loops and posts, then yarns."""
    symbols: dict[str, Symbol] = {}
    loops: dict[str, None] = {}
    posts: dict[str, None] = {}
    for mark in marks:
        if not mark.glyph.boxes:
            continue
        symbols.setdefault(_name(mark.symbol), mark.symbol)
        if mark.loop:
            loops.setdefault(mark.loop)
        if mark.post:
            posts.setdefault(mark.post)
    order = sorted(symbols.items(), key=lambda named: _FIRST.get(named[1].id, 2))
    found = [Entry(name, sample(symbol)) for name, symbol in order]
    found += [Entry(LOOPS[loop], _loop_sample(loop)) for loop in sorted(loops)]
    found += [Entry(POSTS[post], _post_sample(post)) for post in sorted(posts)]
    told = {yarn.letter: yarn for yarn in yarns.values()}
    found += [Entry(yarn.name or _UNNAMED, yarn=yarn) for _, yarn in sorted(told.items())]
    return found


_FIRST = {"ring": 0, "ch": 0, "sl st": 1}


def _name(symbol: Symbol) -> str:
    """Its name without the post it goes round, which has a sample of its own."""
    return symbol.name.removeprefix("front post ").removeprefix("back post ")


def sample(symbol: Symbol) -> Glyph:
    """A symbol by itself, its foot at the origin."""
    if symbol.id == "ch":
        return chain_at(-0.3j * _UNIT, 1 + 0j, _UNIT, _UNIT)
    if symbol.id == "ring":
        return chain_ring(-0.4j * _UNIT, 0.36 * _UNIT)
    if symbol.id == "picot":
        return picot_at(-0.5j * _UNIT, -1j, _UNIT)
    if symbol.stands == "dot":
        return glyph_of(symbol, _place(0.5, (0j,)))
    high = _HEIGHTS[symbol.slashes] if symbol.stands == "stem" else 1.5
    high = 1.0 if symbol.stands == "cross" else high
    legs = min(symbol.legs, _MOST_LEGS) if symbol.together else 1
    apart = 1.1 * _UNIT / max(1, legs - 1)
    feet = tuple(complex((at - (legs - 1) / 2) * apart) for at in range(legs))
    if symbol.id.endswith(CROSSED):
        return _crossed(symbol, high)
    return glyph_of(symbol, _place(high, feet))


def _crossed(symbol: Symbol, high: float) -> Glyph:
    """Two of some stitches that cross."""
    apart = 0.5 * _UNIT
    drawn = Glyph()
    for side in (-apart, apart):
        top = complex(side, -high * _UNIT)
        place = Place((complex(-side),), top, 1 + 0j, _UNIT, 0.44 * _UNIT)
        drawn = drawn + glyph_of(symbol, place)
    return drawn


def _place(high: float, feet: tuple[complex, ...]) -> Place:
    return Place(feet, -1j * high * _UNIT, 1 + 0j, _UNIT, 0.44 * _UNIT)


def _loop_sample(loop: str) -> Glyph:
    return loop_mark(loop, 0j, -1j, _place(1.0, (0j,)))


def _post_sample(post: str) -> Glyph:
    stem = Symbol("", "", "stem")
    place = _place(1.0, (0j,))
    return glyph_of(stem, place) + post_hook(post, 0j, -1j, place)


def draw_legend(pen: Pen, entries: Sequence[Entry], corner: complex, wide: float) -> float:
    """Draws the legend in lines of at most a width.

    Returns:
        How much room it takes up downwards, in mm.
    """
    needs = [words_width(entry.words, Lettering(_SIZE)) for entry in entries]
    each = _SYMBOL_WIDE + max(needs, default=0.0) + _BETWEEN
    columns = max(1, min(int((wide + _BETWEEN) // each), len(entries)))
    each = max(each, min(wide / columns, 1.3 * each))
    down = 0.0
    with grouped(pen, Group("legend", ink=Ink())):
        for first in range(0, len(entries), columns):
            line = entries[first : first + columns]
            high = max([_SIZE * _LEADING, *map(_high, line)])
            foot = corner + 1j * (down + high)
            for at, entry in enumerate(line):
                _draw_entry(pen, entry, foot + at * each)
            down += high + 1.6
    return down


def _high(entry: Entry) -> float:
    points = [p for quad in entry.glyph.boxes for p in quad]
    return max((-point.imag for point in points), default=0.0)


def _draw_entry(pen: Pen, entry: Entry, foot: complex) -> None:
    middle = foot + _SYMBOL_WIDE / 2
    if entry.yarn is not None:
        draw_chip(pen, entry.yarn, middle - 1.3j, 3.0)
    draw_glyph(pen, entry.glyph, middle, Ink())
    pen.words(entry.words, foot + _SYMBOL_WIDE + 0.8 - 0.3j, Lettering(_SIZE))


def draw_glyph(pen: Pen, glyph: Glyph, by: complex, ink: Ink) -> None:
    """Draws a symbol moved by a vector."""
    moved = shifted(glyph, by)
    if moved.lines:
        pen.draw(moved.lines, ink)
    if moved.solid:
        pen.draw(moved.solid, Ink(stroke="", fill=ink.stroke))
