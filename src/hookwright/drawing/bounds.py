"""How much room does a drawing take up?"""

from __future__ import annotations

import cmath
import math
from collections.abc import Sequence

from msgspec import Struct

from hookwright.drawing.pen import Group, Ink, Lettering, Outline

_NARROW = frozenset(" ,.;:'’!|iljtfrI()[]1")
_BROAD = frozenset("mwMWQO@%—×→←")


class Box(Struct, frozen=True):
    """An upright rectangle on the page, in mm; y down."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        """From left to right."""
        return self.right - self.left

    @property
    def height(self) -> float:
        """From top to bottom."""
        return self.bottom - self.top

    @property
    def corner(self) -> complex:
        """Its upper left corner."""
        return complex(self.left, self.top)

    def wider(self, by: float) -> Box:
        """With a margin on every side."""
        return Box(self.left - by, self.top - by, self.right + by, self.bottom + by)

    def joined(self, other: Box) -> Box:
        """The smallest that holds both."""
        return Box(
            min(self.left, other.left),
            min(self.top, other.top),
            max(self.right, other.right),
            max(self.bottom, other.bottom),
        )


def words_width(text: str, lettering: Lettering) -> float:
    """About how wide words come out, in mm, rather too wide than too narrow.

    The faces they may be set in differ by some hundredths; the figures are for the widest.
    """
    ems = sum(0.33 if c in _NARROW else 0.9 if c in _BROAD else 0.57 for c in text)
    return ems * lettering.size * (1.06 if lettering.bold else 1.0)


def words_box(text: str, at: complex, lettering: Lettering) -> Box:
    """The room that words take up, turned too."""
    width = words_width(text, lettering)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[lettering.anchor]
    up, down = -0.75 * lettering.size, 0.24 * lettering.size
    turn = cmath.rect(1.0, math.radians(lettering.turn))
    corners = [complex(x, y) * turn + at for x in (left, left + width) for y in (up, down)]
    return box_of(corners)


def box_of(points: Sequence[complex]) -> Box:
    """The smallest box that holds some points; there must be one at least."""
    across = [point.real for point in points]
    down = [point.imag for point in points]
    return Box(min(across), min(down), max(across), max(down))


class BoundsPen:
    """A pen that draws nothing and knows how far it went.

    A curve is taken to reach as far as the points that pull it, which it never leaves.
    """

    def __init__(self) -> None:
        self.box: Box | None = None

    def draw(self, outlines: Sequence[Outline], ink: Ink) -> None:
        """Outlines, with half the width of their line around them."""
        around = ink.width / 2 if ink.stroke else 0.0
        for outline in outlines:
            self._add(box_of(outline.points).wider(around))

    def words(self, text: str, at: complex, lettering: Lettering) -> None:
        """Words, as wide as they may come out."""
        self._add(words_box(text, at, lettering))

    def image(self, png: bytes, corner: complex, width: float, height: float) -> None:
        """A picture."""
        del png
        self._add(box_of((corner, corner + complex(width, height))))

    def begin(self, group: Group) -> None:
        """A group takes up no room of its own."""

    def end(self) -> None:
        """Neither does its end."""

    def _add(self, box: Box) -> None:
        self.box = box if self.box is None else self.box.joined(box)
