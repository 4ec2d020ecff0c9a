"""A written pattern as sections and blocks, for whoever lays it out or shows it.

`write_pattern(checked, asked)` gives a `Worded`: the new text, its proof, and a `Written`.
A page, a PDF or a screen goes through it from top to bottom and never reads the text:

    for section in worded.written.sections:
        set_heading(section.heading, section.level)      # "" for what stands before one
        for block in section.blocks:
            match block:
                case RowWritten():
                    begin_row(block.label, block.colours)
                    set_words(block.words)               # or, one a line, block.actions
                    set_count(block.count)               # beside it, or behind the words
                case Paragraph():
                    set_lines(block.lead, block.lines)
                case WordList():
                    set_table(block.entries)
                case Picture():
                    place(block.path, block.alternative)

Rows stand in the order they are printed in, each whole with its count, so that a layout
need never part them. Words are plain text: nothing in them is a mark of any kind. A span
is of the source pattern, the text that findings, charts and fabric speak of too; where
words were put in that it does not have, the span is empty, at their place. `lines` of a
row are indices into `Checked.lines` of the source: counts for every size, stitches by
colour, whether it is proven.

Reading a Markdown file blanks its pictures out; `pictures_in` finds them in the file's own
text, and `write_pattern(checked, asked, tuple(pictures_in(text)))` puts each in its place.
"""

from __future__ import annotations

from msgspec import Struct

from hookwright.design.facts import Holds
from hookwright.source import Span
from hookwright.wording.asked import Asked


class Action(Struct, frozen=True):
    """One thing to do in a row.

    Attributes:
        words: The instruction, without the mark behind it.
        depth: In how many repeats it stands; the first of a repeat stands with its frame.
    """

    words: str
    depth: int


class RowWritten(Struct, frozen=True):
    """A row, or a line of instructions without a label.

    Attributes:
        label: What it is called, without a mark behind it: "Row 3 (RS)"; "" for none.
        words: Its instructions, without the label and without the count.
        count: The count behind them, as it is written: "(24 dc)"; "" where there is none,
            or where it stands in the middle of the words.
        actions: The instructions one by one, as they are worked.
        colours: The yarns it is worked in, as the pattern calls them, in order.
        span: Where it stands in the source.
        part: The number of its part in the tree of the source.
        lines: Which of the lines of `Checked.lines` it is.
        kept: Whether it could not be set as asked and has the words of the source.
    """

    label: str
    words: str
    count: str
    actions: tuple[Action, ...]
    colours: tuple[str, ...]
    span: Span
    part: int
    lines: tuple[int, ...]
    kept: bool = False

    @property
    def text(self) -> str:
        """The whole row on one line."""
        label = f"{self.label}:" if self.label else ""
        return " ".join(words for words in (label, self.words, self.count) if words)


class Paragraph(Struct, frozen=True):
    """Words that are no row.

    Attributes:
        lead: The label it begins with, with its mark: "Yarn:"; "" for none.
        lines: Its lines; one, unless the source breaks them.
        span: Where it stands in the source.
    """

    lead: str
    lines: tuple[str, ...]
    span: Span

    @property
    def text(self) -> str:
        """Its words on one line."""
        return " ".join(words for words in (self.lead, *self.lines) if words)


class WordEntry(Struct, frozen=True):
    """An abbreviation with what it stands for."""

    word: str
    meaning: str
    span: Span


class WordList(Struct, frozen=True):
    """The list of abbreviations: those that are used, and no others."""

    entries: tuple[WordEntry, ...]
    span: Span


class Picture(Struct, frozen=True):
    """A picture the pattern places.

    Attributes:
        path: Where it is, as the pattern writes it.
        alternative: The words for whoever cannot see it.
        span: Where it stands in the source.
    """

    path: str
    alternative: str
    span: Span


Block = RowWritten | Paragraph | WordList | Picture


class Section(Struct, frozen=True):
    """What stands under one heading.

    Attributes:
        heading: Its words; "" for what stands before the first heading.
        level: How far down it stands: 1 for the title, 2 for a section.
        holds: What it holds, where its heading is one that patterns have.
        part: The number of the part it begins, in the tree of the source; None for none.
        make: How many of that part are made.
        blocks: What stands under it.
        span: The heading in the source.
    """

    heading: str
    level: int
    holds: Holds | None
    part: int | None
    make: int
    blocks: tuple[Block, ...]
    span: Span


class LevelTold(Struct, frozen=True):
    """The skill level.

    Attributes:
        name: What it is called: "Intermediate".
        step: 1 to 4, from basic to complex.
        reasons: What in the work asks for it: "its cables".
        stated: Whether the pattern states it; else it follows from what is worked.
    """

    name: str
    step: int
    reasons: tuple[str, ...]
    stated: bool


class Written(Struct, frozen=True):
    """A written pattern, ready to be laid out.

    Attributes:
        title: Its name; "" where the pattern tells none.
        terms: "US" or "UK".
        asked: The wording it is in.
        sizes: The names of the sizes in it; empty for one.
        sections: All of it, in reading order; the title is the heading of the first.
        abbreviations: The abbreviations it uses; empty in a form without any.
        level: The skill level; None where nothing is worked.
    """

    title: str
    terms: str
    asked: Asked
    sizes: tuple[str, ...]
    sections: tuple[Section, ...]
    abbreviations: tuple[WordEntry, ...]
    level: LevelTold | None
