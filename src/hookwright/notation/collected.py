"""What has been gathered so far on the way through a draft?"""

from __future__ import annotations

from msgspec import Struct, field

from hookwright.finding import Finding
from hookwright.notation.cursor import Cursor
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.lines import Line
from hookwright.notation.rows import read_row
from hookwright.notation.sections import Section
from hookwright.notation.soft_breaks import without_soft_breaks
from hookwright.notation.tree import Claim, Label, Node, PartText, RowText
from hookwright.notation.vocabulary import Phrases
from hookwright.source import Source


class OpenRow(Struct):
    """A row that is still being collected: its tokens from `first` up to `last`."""

    label: Label | None
    first: int
    last: int
    start: int


class Collected(Struct):
    """Everything collected on the way through a draft.

    Attributes:
        source: The text.
        tokens: All of its words and marks.
        lines: Its lines.
        sizes: The names of its sizes; empty for one size.
        own_words: The stitches it defines.
        yarns: Words in the names of its yarns, lower case.
        steps: Whether its rows are told by bare numbers.
        section: What the lines here are about.
        parts: Parts that are complete.
        heading: The heading of the part being read.
        rows: Its rows so far.
        row_sizes: The sizes the rows here are for; empty for all.
        lead: A line before a row that says where the row begins.
        stripes: The colour of each row, where a list tells them.
        findings: What was found wrong in reading.
    """

    source: Source
    tokens: list[Token]
    lines: list[Line]
    sizes: tuple[str, ...] = ()
    own_words: Phrases = field(default_factory=dict)
    yarns: frozenset[str] = frozenset()
    steps: bool = False
    section: Section = Section.INTRODUCTION
    parts: list[PartText] = field(default_factory=list)
    heading: Line | None = None
    rows: list[RowText] = field(default_factory=list)
    row_sizes: tuple[str, ...] = ()
    lead: Line | None = None
    stripes: list[tuple[int, str]] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)

    def cursor(self, at: int) -> Cursor:
        """A place in the tokens, where wrong words become findings."""
        sizes = max(1, len(self.sizes))
        return Cursor(self.tokens, at, self.own_words, sizes, self.findings)

    def tokens_in(self, stretch: Line | OpenRow) -> list[Token]:
        """The tokens of a line or row."""
        return self.tokens[stretch.first : stretch.last]

    def read(self, stretch: Line | OpenRow) -> tuple[tuple[Node, ...], tuple[Claim, ...]]:
        """A line or row read as instructions, to look at or to keep."""
        tokens = without_soft_breaks(self.tokens_in(stretch))
        end = tokens[-1].end if tokens else self.tokens[stretch.first].start
        tokens.append(Token(Kind.END, "", 0, end, end))
        cursor = Cursor(tokens, 0, self.own_words, max(1, len(self.sizes)))
        return read_row(cursor, self.source.text, self.yarns)

    def own_letters(self, token: Token) -> str:
        """A token as it is written, capitals and all."""
        return self.source.text[token.start : token.end]
