"""What can be drawn, whatever it is drawn on?

A drawing is handed a pen and draws itself; what becomes of it is the pen's affair. There
are three: `svg.SvgPen` writes SVG, `bounds.BoundsPen` finds the room a drawing takes up,
and `recorder.Recorder` keeps what was drawn, for tests.

    pen.begin(Group("symbol", (("node", "17"),), ink=Ink(stroke="#211e1b")))
    pen.draw((line(0, 4j), line(-1 + 0j, 1)), Ink(stroke="#211e1b"))   # a T
    pen.words("17", 2 - 1j, Lettering(2.5))
    pen.end()

Points are complex numbers in millimetres on the page: x to the right, y **down**. Whatever
lies later lies on top.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from itertools import pairwise
from typing import Literal, Protocol

from msgspec import Struct

INK = "#211e1b"
QUIET = "#57524b"
HAIR = "#cfccc6"
PAPER = "#fcfcfa"

_ROUND = 0.5522847498307936
"""How far the two middle points of a cubic curve stand from its ends, in radii, for a
quarter of a circle: 4 (sqrt 2 - 1) / 3, which is never off by more than 0.03 %."""


class Ink(Struct, frozen=True):
    """How outlines are drawn.

    Attributes:
        stroke: The colour of the line, as "#rrggbb"; "" for none.
        width: Of the line, in mm.
        fill: The colour inside, as "#rrggbb"; "" for none.
        dashes: Lengths of dashes and gaps in turn, in mm; none for a whole line.
    """

    stroke: str = INK
    width: float = 0.25
    fill: str = ""
    dashes: tuple[float, ...] = ()


class Outline(Struct, frozen=True):
    """One stroke of the pen.

    Attributes:
        points: Where it goes. Of a curve: its start, and for each piece of it two points
            that pull and the end (a cubic Bezier curve).
        curved: Whether it is a curve.
        closed: Whether it ends where it began, and can be filled.
    """

    points: tuple[complex, ...]
    curved: bool = False
    closed: bool = False


class Lettering(Struct, frozen=True):
    """How words are set.

    Attributes:
        size: Of the type, in mm (1 pt is 0.353 mm).
        colour: As "#rrggbb".
        anchor: Which part of the words stands at the point given.
        bold: Semibold.
        turn: By which angle they are turned clockwise, in degrees.
    """

    size: float = 3.0
    colour: str = INK
    anchor: Literal["start", "middle", "end"] = "start"
    bold: bool = False
    turn: float = 0.0


class Group(Struct, frozen=True):
    """Things that belong together, and what is known of them.

    Attributes:
        kind: What it is: "row", "symbol", "legend".
        data: What else can be asked of it by name: ("node", "17").
        title: What it is in words, as is shown when it is pointed at; "" for nothing.
        ink: What most of it is drawn with, which makes a file smaller; changes no picture.
    """

    kind: str
    data: tuple[tuple[str, str], ...] = ()
    title: str = ""
    ink: Ink | None = None


class Pen(Protocol):
    """What anything that is drawn on can do."""

    def draw(self, outlines: Sequence[Outline], ink: Ink) -> None:
        """Draw some outlines as one thing, with one ink."""

    def words(self, text: str, at: complex, lettering: Lettering) -> None:
        """Set a line of words; `at` is a point of the line they stand on."""

    def image(self, png: bytes, corner: complex, width: float, height: float) -> None:
        """Lay a picture, its upper left corner at `corner`; sides in mm."""

    def begin(self, group: Group) -> None:
        """What follows belongs together, up to the `end` that matches."""

    def end(self) -> None:
        """The last group begun ends."""


@contextmanager
def grouped(pen: Pen, group: Group) -> Iterator[None]:
    """A group around what is drawn inside a `with`."""
    pen.begin(group)
    yield
    pen.end()


def line(*points: complex) -> Outline:
    """A line from point to point."""
    return Outline(points)


def curve(*points: complex) -> Outline:
    """A curve: its start, then for each piece two points that pull and the end."""
    return Outline(points, curved=True)


def area(*points: complex) -> Outline:
    """What lies inside a line from point to point and back to the first."""
    return Outline(points, closed=True)


def oval(centre: complex, along: complex, across: float) -> Outline:
    """An oval: half its length `along` as a vector, half its breadth `across`, in mm."""
    side = across * 1j * along / abs(along) if along else complex(across)
    ways = (along, side, -along, -side, along)
    points = [centre + along]
    for start, end in pairwise(ways):
        points += [
            centre + start + _ROUND * end,
            centre + end + _ROUND * start,
            centre + end,
        ]
    return Outline(tuple(points), curved=True, closed=True)


def disc(centre: complex, radius: float) -> Outline:
    """A circle; `radius` in mm."""
    return oval(centre, complex(radius), radius)


def box(corner: complex, width: float, height: float) -> Outline:
    """An upright rectangle by its upper left corner and its sides in mm."""
    return area(corner, corner + width, corner + width + 1j * height, corner + 1j * height)
