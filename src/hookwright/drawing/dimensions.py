"""Which lengths of a shape are told beside its drawing, and where do their lines stand?

Its whole width and length; each level edge that is shorter; on the other side the heights
from corner to corner; of a shape with neither, such as a triangle, its longest side. A
garment is told as the trade does: body, neck, sleeve, yoke. Shapes of many corners, as
waves and scallops have, are told by their width and length alone.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from hookwright.drawing.bounds import box_of

_MOST_CORNERS = 14
_MOST_EDGES, _MOST_HEIGHTS = 3, 5
_ALIKE = 0.02
"""Lengths that differ by less than that share of the piece are one."""
_SHORT_BODY = 0.2
"""Of a garment: its width is told below it."""
_LEAST = 0.04
"""Shorter edges than that share of the piece are not told."""


class Runs(StrEnum):
    """Where the line of a length stands."""

    BELOW = "below"
    LEFT = "left"
    RIGHT = "right"
    ALONG = "along"


class Dimension(Struct, frozen=True):
    """A length of a shape.

    Attributes:
        name: What it is called.
        start: Where it begins, in mm, y up.
        end: Where it ends.
        runs: Where its line stands.
        over_points: Whether it goes from the points of one edge to those of the other; a
            tape laid along a row or a column tells less.
    """

    name: str
    start: complex
    end: complex
    runs: Runs
    over_points: bool = False

    @property
    def mm(self) -> float:
        """How long it is."""
        return abs(self.end - self.start)


def dimensions_of(
    corners: Sequence[complex], *, circle: bool, regular: bool
) -> tuple[Dimension, ...]:
    """The lengths that are told of a shape; always the same ones for shapes alike.

    Args:
        corners: Its corners in mm, y up.
        circle: Whether it is a circle.
        regular: Whether all its sides are alike, as those of a motif are.
    """
    box = box_of(corners)
    low, right = complex(box.left, box.top), complex(box.right, box.top)
    high = complex(box.left, box.bottom)
    if circle:
        return (Dimension("across", low, right, Runs.BELOW),)
    whole = (
        Dimension("width", low, right, Runs.BELOW),
        Dimension("length", low, high, Runs.LEFT),
    )
    if len(corners) > _MOST_CORNERS:
        return tuple(replace(one, over_points=True) for one in whole)
    if regular:
        return (*whole, *_side(corners))
    edges = _level_edges(corners)
    heights = _heights(corners)
    if edges or heights:
        return (*whole, *edges, *heights)
    return (*whole, *_side(corners))


def of_a_garment(corners: Sequence[complex]) -> tuple[Dimension, ...]:
    """The lengths that are told of the front of a garment with sleeves.

    Args:
        corners: Neck, upper and lower end of a sleeve, underarm, lower edge, and back up on
            the other side, in mm, y up.
    """
    neck, _, cuff, underarm, edge = corners[:5]
    far_edge, far_underarm, *_, far_neck = corners[5:]
    box = box_of(corners)
    right, low, high = box.right, box.top, box.bottom
    level = complex(0, underarm.imag)
    short = underarm.imag - low < _SHORT_BODY * box.height
    across = complex(0, low) if short else level  # a line in a short body is hard to see
    told = [
        Dimension("width", complex(box.left, low), complex(right, low), Runs.BELOW),
        Dimension("length", complex(box.left, low), complex(box.left, high), Runs.LEFT),
        Dimension("body", underarm.real + across, far_underarm.real + across, Runs.ALONG),
        Dimension("neck", neck, far_neck, Runs.ALONG),
        Dimension("sleeve", corners[1], cuff, Runs.ALONG),
        Dimension("body, down", complex(right, low), right + level, Runs.RIGHT),
        Dimension("yoke, down", right + level, complex(right, high), Runs.RIGHT),
    ]
    if abs(abs(edge - far_edge) - abs(underarm - far_underarm)) > _LEAST * box.width:
        told.insert(3, Dimension("lower edge", edge, far_edge, Runs.ALONG))
    return tuple(told)


def _sides(corners: Sequence[complex]) -> list[tuple[complex, complex]]:
    return list(pairwise([*corners, corners[0]]))


def _level_edges(corners: Sequence[complex]) -> list[Dimension]:
    """Its level edges, those of one length on one level once, from below."""
    box = box_of(corners)
    size = max(box.width, box.height)
    found: list[Dimension] = []
    for begin, end in _sides(corners):
        long = abs(end - begin)
        level = abs(end.imag - begin.imag) < _ALIKE * size / 4
        if not level or long < _LEAST * size or long > (1 - _ALIKE) * box.width:
            continue
        at = begin.imag
        told = any(
            abs(one.mm - long) < _ALIKE * size and abs(one.start.imag - at) < _ALIKE * size
            for one in found
        )
        if not told:
            one, other = sorted((begin, end), key=lambda point: point.real)
            found.append(
                Dimension(_name_of_edge(at, box.top, box.bottom), one, other, Runs.ALONG)
            )
    found.sort(key=lambda one: -one.mm)
    return sorted(found[:_MOST_EDGES], key=lambda one: one.start.imag)


def _name_of_edge(at: float, low: float, high: float) -> str:
    near = _ALIKE * (high - low)
    if at - low < near:
        return "lower edge"
    return "upper edge" if high - at < near else "edge"


def _heights(corners: Sequence[complex]) -> list[Dimension]:
    """From each level on which it has corners to the next."""
    box = box_of(corners)
    levels: list[float] = []
    for at in sorted(point.imag for point in corners):
        if not levels or at - levels[-1] > _LEAST * box.height:
            levels.append(at)
    if not 2 < len(levels) <= _MOST_HEIGHTS + 1:
        return []
    names = _names_of_parts(len(levels) - 1)
    return [
        Dimension(name, complex(box.right, low), complex(box.right, high), Runs.RIGHT)
        for name, (low, high) in zip(names, pairwise(levels), strict=True)
    ]


def _names_of_parts(number: int) -> tuple[str, ...]:
    if number == 2:
        return "lower part", "upper part"
    if number == 3:
        return "lower part", "middle part", "upper part"
    return tuple(f"part {at} from below" for at in range(1, number + 1))


def _side(corners: Sequence[complex]) -> list[Dimension]:
    """Its longest slanting side."""
    slanting = [
        (begin, end)
        for begin, end in _sides(corners)
        if min(abs(end.imag - begin.imag), abs(end.real - begin.real))
        > _LEAST * abs(end - begin)
    ]
    if not slanting:
        return []
    begin, end = max(slanting, key=lambda side: abs(side[1] - side[0]))
    return [Dimension("side", begin, end, Runs.ALONG)]
