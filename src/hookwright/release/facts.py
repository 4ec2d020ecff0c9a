"""What stands in a published copy, as values: nothing is laid out yet.

Everything a reader sees is words in these values. They go to the typesetter as data and
to the page as escaped text, so that no sign in them is ever taken for a mark.
"""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct


class Run(Struct, frozen=True):
    """Words set alike.

    Attributes:
        words: The words.
        kind: "" for plain words, "label" for a bold label, "repeat" for what is repeated.
        sizes: Where it is a list of sizes, its word for each of them: "60", "68", "76" of
            "60 (68, 76)"; empty for what is the same in all.
    """

    words: str
    kind: str = ""
    sizes: tuple[str, ...] = ()


class Paragraph(Struct, frozen=True, tag="paragraph"):
    """A paragraph beside the rows."""

    runs: tuple[Run, ...]


class Entry(Struct, frozen=True, tag="entry"):
    """An entry of a list: "hdc = half double crochet"."""

    word: str
    meaning: str


class Row(Struct, frozen=True, tag="row"):
    """A row, which never splits from its count.

    Attributes:
        name: Its label without the side, "Row 1"; "" for a line without a label.
        side: "RS", "WS" or "".
        runs: Its words, without the count at their end.
        counts: The count, one piece a column: ("(20 sts)",), or in sizes "20", "(24,",
            "28)"; empty where it stands in `count`.
        unit: What the columns count, "sts".
        count: The count as it is printed, where it does not go into columns.
        yarns: Letters of the yarns it is worked with, in order; empty if not known.
        begins: Whether a stripe begins with it.
        ends: Whether a stripe ends with it.
        anchor: A name for it that is its own in the copy.
        sizes: The numbers of the sizes that work it; empty for all.
        actions: What is to be done, one thing a line, each with how far in it stands; empty
            where the copy does not set it so.
    """

    name: str
    side: str
    runs: tuple[Run, ...]
    counts: tuple[str, ...] = ()
    unit: str = ""
    count: str = ""
    yarns: tuple[str, ...] = ()
    begins: bool = False
    ends: bool = False
    anchor: str = ""
    sizes: tuple[int, ...] = ()
    actions: tuple[tuple[int, str], ...] = ()


Block = Paragraph | Entry | Row


class Page(StrEnum):
    """The page, or run of pages, on which a section stands."""

    BEFORE = "before"
    WRITTEN = "written"
    ROWS = "rows"
    FINISHING = "finishing"


class Section(Struct, frozen=True):
    """A section under its heading.

    Attributes:
        heading: Its heading; "" for what stands before the first one.
        page: Where it stands.
        blocks: What stands under it.
        holds: What it holds, in the words of the trade ("abbreviations"); "" for rows.
    """

    heading: str
    page: Page
    blocks: tuple[Block, ...]
    holds: str = ""

    @property
    def has_rows(self) -> bool:
        """Whether any row stands in it."""
        return any(isinstance(block, Row) for block in self.blocks)


class Cell(Struct, frozen=True):
    """A fact of the band: its label, the fact, and a remark under it."""

    label: str
    fact: str
    remark: str = ""


class Shade(Struct, frozen=True):
    """A colour of the pattern.

    Attributes:
        letter: The letter it has in the rows.
        name: Its name; "" if it has none.
        code: Six hex digits, "#5b7c99"; "" where nobody has said.
        dark: Whether a letter on it is white.
        balls: Balls, one a size, in words ("3"); empty if not told.
        length: What is used, one a size ("230 m"); empty if not known.
    """

    letter: str
    name: str = ""
    code: str = ""
    dark: bool = False
    balls: tuple[str, ...] = ()
    length: tuple[str, ...] = ()


class Stripe(Struct, frozen=True):
    """So many rows of a colour, by its letter."""

    letter: str
    rows: int


class Stripes(Struct, frozen=True):
    """The sequence of the stripes.

    Attributes:
        sequence: Once through.
        times: How often it is worked, in words ("9 times"); "" for once.
        after: The stripes worked then.
    """

    sequence: tuple[Stripe, ...]
    times: str = ""
    after: tuple[Stripe, ...] = ()


class Picture(Struct, frozen=True):
    """A picture with the words that stand for it.

    Attributes:
        file: The name under which the typesetter and the bundle know it.
        alt: Its alternative text, a sentence.
        caption: What stands under it; "" for nothing.
        kind: "cover" for fabric that bleeds, "object" for a piece seen whole, "photo",
            "chart" or "schematic".
    """

    file: str
    alt: str
    caption: str = ""
    kind: str = "photo"


class Stamp(Struct, frozen=True):
    """Who puts out which version, and when. Whatever is not told is "".

    Attributes:
        version: "1.0".
        date: As it is printed: "25 November 2026".
        day: The same for machines: "2026-11-25".
        designer: Who designed it.
        rights: The line on rights.
        corrections: Where corrections stand.
    """

    version: str = ""
    date: str = ""
    day: str = ""
    designer: str = ""
    rights: str = ""
    corrections: str = ""


class Contents(Struct, frozen=True):
    """Everything that stands in a copy.

    Attributes:
        title: The name of the design.
        subtitle: What it is, in a line.
        introduction: The paragraphs before the first heading.
        stamp: Version, date, designer, rights.
        terms: "US", "UK", or "" where nothing tells.
        sizes: Names of the sizes; empty for one.
        band: The facts of the cover.
        needs: The facts of the page before the start.
        shades: The colours.
        ball: What a ball is: "Balls of 50 g, 120 m"; "" if not told.
        stripes: The sequence of stripes; None for none.
        sections: The sections, in the order they are printed.
        counting: What counts and how repeats are read, in sentences.
        cautions: What is to be heeded, in sentences.
        cover: The picture of the fabric; None for none.
        pictures: Photos, charts and the schematic.
        tally: For each part its name and its rows, to tick off.
        draft: Whether it is only a draft.
    """

    title: str
    subtitle: str
    introduction: tuple[Paragraph, ...]
    stamp: Stamp
    terms: str
    sizes: tuple[str, ...] = ()
    band: tuple[Cell, ...] = ()
    needs: tuple[Cell, ...] = ()
    shades: tuple[Shade, ...] = ()
    ball: str = ""
    stripes: Stripes | None = None
    sections: tuple[Section, ...] = ()
    counting: tuple[Paragraph, ...] = ()
    cautions: tuple[Paragraph, ...] = ()
    cover: Picture | None = None
    pictures: tuple[Picture, ...] = ()
    tally: tuple[tuple[str, tuple[str, ...]], ...] = ()
    draft: bool = False
