"""The text of a pattern and the places in it.

Everything later stages say about a pattern is said of a span of its text, so that a
finding can be shown under the exact words.
"""

from __future__ import annotations

from bisect import bisect_right

from msgspec import Struct
from msgspec.structs import force_setattr


class Span(Struct, frozen=True, order=True):
    """A stretch of text: from `start` up to, not including, `end`, in characters."""

    start: int
    end: int

    def __contains__(self, other: object) -> bool:
        return (
            isinstance(other, Span) and self.start <= other.start and other.end <= self.end
        )

    def to(self, other: Span) -> Span:
        """The stretch from the beginning of this span to the end of the other."""
        return Span(min(self.start, other.start), max(self.end, other.end))


class Source(Struct, frozen=True):
    """A text as it was read, with its name for people and its line starts.

    Attributes:
        text: The whole text; every span counts characters of it.
        name: A file's name, or "-" for standard input.
    """

    text: str
    name: str = "-"
    line_starts: tuple[int, ...] = ()

    def __post_init__(self) -> None:
        starts = [0]
        find, at = self.text.find, -1
        while (at := find("\n", at + 1)) >= 0:
            starts.append(at + 1)
        force_setattr(self, "line_starts", tuple(starts))

    def slice(self, span: Span) -> str:
        """The words under a span."""
        return self.text[span.start : span.end]

    def line_of(self, offset: int) -> int:
        """The number of the line that holds an offset; the first line is 1."""
        return bisect_right(self.line_starts, offset)

    def position(self, offset: int) -> tuple[int, int]:
        """Line and column of an offset, both counted from 1."""
        line = self.line_of(offset)
        return line, offset - self.line_starts[line - 1] + 1

    def line_span(self, line: int) -> Span:
        """The span of a line, without its line end."""
        start = self.line_starts[line - 1]
        last = line >= len(self.line_starts)
        end = len(self.text) if last else self.line_starts[line] - 1
        return Span(start, end)
