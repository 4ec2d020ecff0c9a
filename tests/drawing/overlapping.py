"""Which symbols of a chart lie on one another? By the boxes that their ink takes up."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence

from hookwright.drawing.chart_marks import Mark
from hookwright.drawing.strokes import Quad

TOUCH = 0.02
"""Millimetres by which boxes may reach into one another: less than a line is wide."""


def overlaps(marks: Sequence[Mark], cell: float) -> list[tuple[Mark, Mark]]:
    """Pairs of symbols whose boxes lie on one another.

    Args:
        marks: The symbols.
        cell: The side of a cell of the grid in which neighbours are sought, in mm.
    """
    boxes = [
        (number, quad) for number, mark in enumerate(marks) for quad in mark.glyph.boxes
    ]
    grid: dict[tuple[int, int], list[int]] = defaultdict(list)
    for number, (_, quad) in enumerate(boxes):
        for key in cells(quad, cell):
            grid[key].append(number)
    found: set[tuple[int, int]] = set()
    for inside in grid.values():
        for at, one in enumerate(inside):
            for other in inside[at + 1 :]:
                first, second = sorted((boxes[one][0], boxes[other][0]))
                if first == second or (first, second) in found:
                    continue
                if meet(boxes[one][1], boxes[other][1]):
                    found.add((first, second))
    return [(marks[one], marks[other]) for one, other in sorted(found)]


def cells(quad: Quad, cell: float) -> Iterator[tuple[int, int]]:
    """The cells of the grid that a box reaches into."""
    across, down = [p.real for p in quad], [p.imag for p in quad]
    for x in range(int(min(across) // cell), int(max(across) // cell) + 1):
        for y in range(int(min(down) // cell), int(max(down) // cell) + 1):
            yield x, y


def meet(one: Quad, other: Quad) -> bool:
    """Whether two boxes lie on one another: no straight line parts them.

    Source: the separating axis theorem for convex shapes.
    """
    for quad in (one, other):
        for start, end in zip(quad, quad[1:] + quad[:1], strict=True):
            side = end - start
            if abs(side) < 1e-9:
                continue
            for axis in (side / abs(side), 1j * side / abs(side)):
                a = [(p * axis.conjugate()).real for p in one]
                b = [(p * axis.conjugate()).real for p in other]
                if max(a) - TOUCH <= min(b) or max(b) - TOUCH <= min(a):
                    return False
    return True
