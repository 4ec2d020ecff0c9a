"""A drawing that is done: what it shows in words, and what was drawn."""

from __future__ import annotations

from msgspec import Struct

from hookwright.drawing.bounds import Box
from hookwright.drawing.png import png_of
from hookwright.drawing.recorder import Mark, drawn_again
from hookwright.drawing.svg import SvgPen


class Sheet(Struct, frozen=True):
    """A drawing on one page.

    Attributes:
        name: What its file is called, behind the name of the design: "chart-2".
        title: What it is, in a few words.
        description: What somebody who looks at it would see.
        room: What part of the page is shown, in mm.
        marks: What was drawn.
        notes: What cannot be shown, in sentences.
    """

    name: str
    title: str
    description: str
    room: Box
    marks: tuple[Mark, ...]
    notes: tuple[str, ...] = ()

    def svg(self) -> str:
        """The drawing as SVG."""
        pen = SvgPen()
        drawn_again(self.marks, pen)
        return pen.finished(self.room, self.title, self.description, self.name)

    def png(self, pixels: int) -> bytes:
        """The drawing as PNG, so many points wide."""
        return png_of(self.svg(), pixels)
