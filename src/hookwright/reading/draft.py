"""What reading a draft gives: one plain text, and where each of its words came from.

The text is what every later stage speaks of. The origins lead from a character of it back
to what the designer has before her: a line of her file, a paragraph or table cell of her
document, a place on a printed page.
"""

from __future__ import annotations

from bisect import bisect_right

from msgspec import Struct
from msgspec.structs import force_setattr

from hookwright.finding import Finding
from hookwright.source import Source, Span

_MM_PER_PT = 25.4 / 72


class UnreadableDraft(Exception):  # noqa: N818 - told to the designer, not a fault of ours
    """A file that cannot be read; the message is a sentence for the designer."""


class LinePlace(Struct, frozen=True):
    """A place in a text file or web page, counted from 1 as editors do."""

    line: int
    column: int

    def moved(self, characters: int) -> LinePlace:
        """The place some characters further along the same line."""
        return LinePlace(self.line, self.column + characters)

    def describe(self) -> str:
        """The place in words."""
        return f"line {self.line}, column {self.column}"


class ParagraphPlace(Struct, frozen=True):
    """A paragraph of a document, or a cell of one of its tables.

    Attributes:
        paragraph: Its number among the paragraphs that have words; None in a table.
        table: The number of the table, if it stands in one.
        row: The row of that table.
        cell: The cell of that row.
    """

    paragraph: int | None
    table: int | None = None
    row: int | None = None
    cell: int | None = None

    def moved(self, characters: int) -> ParagraphPlace:  # noqa: ARG002 - one place for all
        """The same paragraph: a document has no columns to count."""
        return self

    def describe(self) -> str:
        """The place in words."""
        if self.table is None:
            return f"paragraph {self.paragraph}"
        return f"table {self.table}, row {self.row}, cell {self.cell}"


class Box(Struct, frozen=True):
    """A box on a page, in points from the lower left corner of what is seen of the page."""

    left: float
    bottom: float
    right: float
    top: float

    def around(self, other: Box) -> Box:
        """The smallest box that holds both."""
        return Box(
            min(self.left, other.left),
            min(self.bottom, other.bottom),
            max(self.right, other.right),
            max(self.top, other.top),
        )


class PagePlace(Struct, frozen=True):
    """A place on a printed page; the first page is 1."""

    page: int
    box: Box
    page_height_pt: float

    def moved(self, characters: int) -> PagePlace:  # noqa: ARG002 - one box for all
        """The same box: it goes around the whole stretch of words."""
        return self

    def describe(self) -> str:
        """The place in words, measured from the top as a maker would with a ruler."""
        from_top_mm = max(0.0, self.page_height_pt - self.box.top) * _MM_PER_PT
        return f"page {self.page}, {from_top_mm:.0f} mm from the top"


Origin = LinePlace | ParagraphPlace | PagePlace


class SameLines(Struct, frozen=True):
    """The origins of a text whose lines and columns are those of its file."""

    source: Source

    def origin_of(self, offset: int) -> Origin:
        """Where the character at an offset of the text stands in the file."""
        return LinePlace(*self.source.position(offset))


class Stretch(Struct, frozen=True):
    """Text from an offset on, as far as the next stretch, and where it came from."""

    start: int
    origin: Origin


class Stretches(Struct, frozen=True):
    """The origins of a text that was put together from pieces, in the order of the text."""

    stretches: tuple[Stretch, ...]
    starts: tuple[int, ...] = ()

    def __post_init__(self) -> None:
        starts = tuple(stretch.start for stretch in self.stretches)
        force_setattr(self, "starts", starts)

    def origin_of(self, offset: int) -> Origin:
        """Where the character at an offset of the text came from.

        A character that was put in while reading (a line end, a star put back) has the
        origin of the words before it.
        """
        at = max(0, bisect_right(self.starts, offset) - 1)
        stretch = self.stretches[at]
        return stretch.origin.moved(max(0, offset - stretch.start))


Origins = SameLines | Stretches


class Heading(Struct, frozen=True):
    """A line that the draft itself marks as a heading; level 1 is the highest."""

    span: Span
    level: int


class Draft(Struct, frozen=True):
    """A draft as it was read.

    Attributes:
        source: The text, a row or paragraph a line.
        origins: The way back from the text to the file.
        headings: The lines marked as headings, in order.
        findings: What reading has to report under a rule of the tech edit.
        notes: What was left out or put back while reading, in plain sentences.
        only_words: Whether it is known to hold no pictures.
    """

    source: Source
    origins: Origins
    headings: tuple[Heading, ...] = ()
    findings: tuple[Finding, ...] = ()
    notes: tuple[str, ...] = ()
    only_words: bool = False

    @property
    def title(self) -> str:
        """The words that it marks as its highest heading; "" where it marks none."""
        highest = min(self.headings, key=lambda heading: heading.level, default=None)
        return self.source.slice(highest.span).strip() if highest is not None else ""

    def origin_of(self, offset: int) -> Origin:
        """Where the character at an offset of the text came from."""
        return self.origins.origin_of(offset)
