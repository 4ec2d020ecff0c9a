"""Which chains are in the way of a stem, and how small do they have to be drawn?

In lace and around corners a stem may lean over the end of a chain beside it. Such a chain
is drawn smaller, as a draughtsman would.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from hookwright.drawing.chart_marks import CHAIN
from hookwright.drawing.chart_row import Mark
from hookwright.drawing.pen import Outline
from hookwright.drawing.strokes import Glyph, Quad

_SMALLER = 0.78
_MOST_TIMES = 4
_CELL = 1.5


def cleared(marks: Sequence[Mark], unit: float) -> list[Mark]:
    """The symbols, chains that others lie on drawn smaller.

    Args:
        marks: The symbols.
        unit: The width of a stitch, in mm.
    """
    chains = [at for at, mark in enumerate(marks) if mark.symbol == CHAIN and mark.whole]
    if not chains or len(chains) == len(marks):
        return list(marks)
    side = _CELL * unit
    grid: dict[tuple[int, int], list[tuple[int, Quad]]] = defaultdict(list)
    for at, mark in enumerate(marks):
        for quad in mark.glyph.boxes:
            for key in _cells(quad, side):
                grid[key].append((at, quad))
    found = list(marks)
    for at in chains:
        found[at] = _clear(at, marks[at], grid, side)
    return found


def _clear(
    at: int, mark: Mark, grid: dict[tuple[int, int], list[tuple[int, Quad]]], side: float
) -> Mark:
    """A chain, as small as it has to be."""
    if len(mark.glyph.boxes) != 1:
        return mark
    keys = list(_cells(mark.glyph.boxes[0], side))
    others = [quad for key in keys for other, quad in grid[key] if other != at]
    for _ in range(_MOST_TIMES):
        own = mark.glyph.boxes[0]
        if not any(_near(own, quad) and meet(own, quad) for quad in others):
            break
        mark = replace(mark, glyph=scaled(mark.glyph, mark.at, _SMALLER))
    return mark


def scaled(glyph: Glyph, about: complex, by: float) -> Glyph:
    """A symbol drawn larger or smaller about a point."""

    def moved(point: complex) -> complex:
        return about + by * (point - about)

    lines = tuple(
        Outline(tuple(map(moved, line.points)), line.curved, line.closed)
        for line in glyph.lines
    )
    boxes = tuple((moved(a), moved(b), moved(c), moved(d)) for a, b, c, d in glyph.boxes)
    return Glyph(lines, glyph.solid, boxes)


def _cells(quad: Quad, side: float) -> Iterator[tuple[int, int]]:
    """The cells of a grid that a box reaches into."""
    across, down = [p.real for p in quad], [p.imag for p in quad]
    for x in range(int(min(across) // side), int(max(across) // side) + 1):
        for y in range(int(min(down) // side), int(max(down) // side) + 1):
            yield x, y


def _near(one: Quad, other: Quad) -> bool:
    """Whether the upright boxes about two boxes meet."""
    a, b, c, d = one
    reach = abs(c - a) + abs(other[2] - other[0])
    return abs((a + c) - (other[0] + other[2])) <= reach or abs(d - b) > abs(c - a)


def meet(one: Quad, other: Quad) -> bool:
    """Whether two boxes lie on one another, by the separating axis theorem."""
    for quad in (one, other):
        for start, end in ((quad[0], quad[1]), (quad[1], quad[2])):
            way = end - start
            if not way:
                continue
            for axis in (way.conjugate(), (1j * way).conjugate()):
                a = [(p * axis).real for p in one]
                b = [(p * axis).real for p in other]
                if max(a) <= min(b) or max(b) <= min(a):
                    return False
    return True
