"""What stands on a sheet, as values: it is the same in Markdown, on a page and on paper."""

from __future__ import annotations

from msgspec import Struct


class Heading(Struct, frozen=True):
    """A heading inside a sheet; level 1 stands right under its title."""

    words: str
    level: int = 1


class Words(Struct, frozen=True):
    """A paragraph."""

    words: str


class Caution(Struct, frozen=True):
    """A paragraph that has to be seen: where work can hurt."""

    words: str


class Points(Struct, frozen=True):
    """Sentences in a list; numbered where their order counts."""

    items: tuple[str, ...]
    numbered: bool = False


class Grid(Struct, frozen=True):
    """A table.

    Attributes:
        head: The headings of its columns.
        rows: Its rows, each with as many cells.
        caption: What it shows.
        numbers: The columns that hold numbers, from 0.
        wide: The columns that need most room, from 0; empty where all are alike.
    """

    head: tuple[str, ...]
    rows: tuple[tuple[str, ...], ...]
    caption: str = ""
    numbers: tuple[int, ...] = ()
    wide: tuple[int, ...] = ()


class Picture(Struct, frozen=True):
    """A drawing as SVG, with words for who cannot see it."""

    svg: str
    words: str


Block = Heading | Words | Caution | Points | Grid | Picture


class Sheet(Struct, frozen=True):
    """A sheet.

    Attributes:
        title: Its title.
        kind: What kind of sheet it is, in a few words.
        band: Facts that stand in a band under the title: label and value.
        blocks: What stands on it, in order.
        language: "en-US" or "en-GB".
    """

    title: str
    kind: str
    band: tuple[tuple[str, str], ...] = ()
    blocks: tuple[Block, ...] = ()
    language: str = "en-US"
