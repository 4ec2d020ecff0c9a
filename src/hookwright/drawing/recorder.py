"""What was drawn, in order?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from hookwright.drawing.bounds import BoundsPen, Box
from hookwright.drawing.pen import Group, Ink, Lettering, Outline, Pen


class Drawn(Struct, frozen=True):
    """Outlines as they were drawn."""

    outlines: tuple[Outline, ...]
    ink: Ink


class Set(Struct, frozen=True):
    """Words as they were set."""

    text: str
    at: complex
    lettering: Lettering


class Laid(Struct, frozen=True):
    """A picture as it was laid."""

    png: bytes
    corner: complex
    width: float
    height: float


class Begun(Struct, frozen=True):
    """A group, with all that belongs to it."""

    group: Group
    marks: tuple[Mark, ...]


Mark = Drawn | Set | Laid | Begun


class Recorder:
    """A pen that keeps what is drawn, to be asked or drawn again with another."""

    def __init__(self) -> None:
        self._open: list[list[Mark]] = [[]]
        self._groups: list[Group] = []

    @property
    def marks(self) -> tuple[Mark, ...]:
        """What was drawn so far, outside groups that are still open."""
        return tuple(self._open[0])

    def draw(self, outlines: Sequence[Outline], ink: Ink) -> None:
        """Keep outlines."""
        self._open[-1].append(Drawn(tuple(outlines), ink))

    def words(self, text: str, at: complex, lettering: Lettering) -> None:
        """Keep words."""
        self._open[-1].append(Set(text, at, lettering))

    def image(self, png: bytes, corner: complex, width: float, height: float) -> None:
        """Keep a picture."""
        self._open[-1].append(Laid(png, corner, width, height))

    def begin(self, group: Group) -> None:
        """Begin a group."""
        self._groups.append(group)
        self._open.append([])

    def end(self) -> None:
        """End it."""
        marks = tuple(self._open.pop())
        self._open[-1].append(Begun(self._groups.pop(), marks))

    def groups(self, kind: str) -> tuple[Begun, ...]:
        """All groups of a kind, in the order in which they were begun."""
        return tuple(begun for begun in _all(self.marks) if begun.group.kind == kind)

    def texts(self) -> tuple[str, ...]:
        """All words that were set, in order."""
        return tuple(_texts(self.marks))


def _all(marks: Sequence[Mark]) -> Iterator[Begun]:
    for mark in marks:
        if isinstance(mark, Begun):
            yield mark
            yield from _all(mark.marks)


def _texts(marks: Sequence[Mark]) -> Iterator[str]:
    for mark in marks:
        if isinstance(mark, Set):
            yield mark.text
        elif isinstance(mark, Begun):
            yield from _texts(mark.marks)


def drawn_again(marks: Sequence[Mark], pen: Pen) -> None:
    """What was recorded, drawn with another pen."""
    for mark in marks:
        match mark:
            case Drawn(outlines, ink):
                pen.draw(outlines, ink)
            case Set(text, at, lettering):
                pen.words(text, at, lettering)
            case Laid(png, corner, width, height):
                pen.image(png, corner, width, height)
            case Begun(group, within):
                pen.begin(group)
                drawn_again(within, pen)
                pen.end()


def bounds_of(marks: Sequence[Mark]) -> Box | None:
    """The room that some of what was drawn takes up; None for nothing."""
    pen = BoundsPen()
    drawn_again(marks, pen)
    return pen.box
