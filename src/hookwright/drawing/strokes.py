"""What are symbols drawn with: stems, bars, chains, dots?

Points are those of the page, in mm, y down. A symbol that is stretched keeps the length of
its bars and the weight of its lines. With each symbol comes the room that its ink takes up,
as slender boxes, by which a chart is held to have no two symbols on one another.
"""

from __future__ import annotations

import cmath
from collections.abc import Iterator, Sequence

from msgspec import Struct

from hookwright.drawing.pen import Outline, disc, line, oval

Quad = tuple[complex, complex, complex, complex]

FOOT, TOP = 0.10, 0.08
"""Shares of a stem that are left free below and above it."""
BAR, SLASH, CROSS = 0.29, 0.16, 0.29
"""Half the length of a top bar, a slash and the bar of a cross, in widths of a stitch."""
CHAIN_LONG, CHAIN_BROAD = 0.36, 0.15
DOT = 0.13
_LEAN = 0.42
"""The cosine of 65 degrees: a bar that would lean further than 25 degrees off its row is
drawn along the row."""
EIGHTH = cmath.rect(1, cmath.pi / 4)


class Place(Struct, frozen=True):
    """Where a symbol is drawn.

    Attributes:
        feet: The places it stands on, in mm.
        top: Its top.
        along: The way of its row at the top, of length 1, from left to right.
        unit: The width of a stitch.
        room: How far its bars may reach to either side.
        keep: How much is left free above its feet, if more than usual.
        fan: Whether others rise from the same foot, so that there is less room below.
    """

    feet: tuple[complex, ...]
    top: complex
    along: complex
    unit: float
    room: float
    keep: float = 0.0
    fan: bool = False

    def room_at(self, share: float) -> float:
        """How far a bar may reach at a share of the height, 0 below, 1 above."""
        return self.room * (0.1 + 0.9 * share) if self.fan else self.room


class Glyph(Struct, frozen=True):
    """A symbol as drawn.

    Attributes:
        lines: What is drawn as lines.
        solid: What is filled.
        boxes: The room its ink takes up.
    """

    lines: tuple[Outline, ...] = ()
    solid: tuple[Outline, ...] = ()
    boxes: tuple[Quad, ...] = ()

    def __add__(self, other: Glyph) -> Glyph:
        """Both together."""
        return Glyph(
            self.lines + other.lines, self.solid + other.solid, self.boxes + other.boxes
        )


class Stem(Struct, frozen=True):
    """The line from a foot to a top.

    Attributes:
        low: Its lower end.
        high: Its upper end.
        up: Its direction, of length 1.
    """

    low: complex
    high: complex
    up: complex

    @staticmethod
    def between(foot: complex, place: Place) -> Stem:
        """The stem from a foot of a place to its top, ends left free."""
        way = place.top - foot
        long = abs(way)
        up = way / long if long > 1e-6 else 1j * -place.along
        below = min(max(FOOT * long, place.keep), 0.6 * long)
        return Stem(foot + below * up, place.top - TOP * long * up, up)

    @property
    def side(self) -> complex:
        """The way to its right, of length 1."""
        return 1j * self.up

    @property
    def long(self) -> float:
        """How long it is."""
        return abs(self.high - self.low)

    def at(self, share: float) -> complex:
        """A point on it, 0 below, 1 above."""
        return self.low + share * (self.high - self.low)


def shifted(glyph: Glyph, by: complex) -> Glyph:
    """A symbol moved on the page."""
    return Glyph(
        tuple(_shifted(outline, by) for outline in glyph.lines),
        tuple(_shifted(outline, by) for outline in glyph.solid),
        tuple((a + by, b + by, c + by, d + by) for a, b, c, d in glyph.boxes),
    )


def _shifted(outline: Outline, by: complex) -> Outline:
    points = tuple(point + by for point in outline.points)
    return Outline(points, outline.curved, outline.closed)


def stroke(start: complex, end: complex, weight: float = 0.0) -> Glyph:
    """A straight line."""
    return Glyph((line(start, end),), (), (quad(start, end, weight),))


def quad(start: complex, end: complex, breadth: float) -> Quad:
    """The upright box along a line, `breadth` across."""
    way = end - start
    side = 0.5j * breadth * way / abs(way) if way else complex(0, breadth / 2)
    return (start + side, end + side, end - side, start - side)


def joined(glyphs: Iterator[Glyph] | Sequence[Glyph]) -> Glyph:
    """Several drawn as one."""
    result = Glyph()
    for glyph in glyphs:
        result = result + glyph
    return result


def across_of(stem: Stem, place: Place) -> complex:
    """The way a bar lies: square to the stem, or along the row where it leans too far."""
    side = stem.side
    if abs((side * place.along.conjugate()).imag) > _LEAN:
        return place.along
    return side


def bar(middle: complex, across: complex, half: float) -> Glyph:
    """A stroke about its middle."""
    return stroke(middle - half * across, middle + half * across)


def dot_at(centre: complex, radius: float) -> Glyph:
    """A slip stitch."""
    box = quad(centre - radius, centre + radius, 2 * radius)
    return Glyph((), (disc(centre, radius),), (box,))


def chain_at(centre: complex, along: complex, unit: float, room: float) -> Glyph:
    """A chain: an oval that lies along its row; `along` is of length 1."""
    half = min(CHAIN_LONG * unit, 0.86 * room)
    broad = min(CHAIN_BROAD * unit, 0.55 * half)
    box = quad(centre - half * along, centre + half * along, 2 * broad)
    return Glyph((oval(centre, half * along, broad),), (), (box,))


def chains_up(number: int, foot: complex, top: complex, unit: float) -> Glyph:
    """Chains that stand one on the other, from a foot to a top."""
    way = (top - foot) / max(1, number)
    if not way:
        return Glyph()
    up = way / abs(way)
    drawn = [
        chain_at(foot + (at + 0.5) * way, up, unit, 0.5 * abs(way)) for at in range(number)
    ]
    return joined(drawn)


def chain_ring(centre: complex, radius: float) -> Glyph:
    """A ring."""
    # Two squares with their corners on the ring cover nearly all of it.
    half = radius / 2**0.5
    upright = quad(centre - half, centre + half, 2 * half)
    way = cmath.rect(half, cmath.pi / 4)
    leaning = quad(centre - way, centre + way, 2 * half)
    return Glyph((disc(centre, radius),), (), (upright, leaning))


def picot_at(centre: complex, out: complex, unit: float) -> Glyph:
    """Three chains in a loop and a dot; `out` is the way outwards, of length 1."""
    loops = [
        chain_at(centre + 0.26 * unit * out * turn, 1j * out * turn, unit, 0.24 * unit)
        for turn in (1j, 1.0, -1j)
    ]
    return joined([*loops, dot_at(centre - 0.32 * unit * out, 0.08 * unit)])
