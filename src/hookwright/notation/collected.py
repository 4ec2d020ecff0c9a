"""What has been gathered so far on the way through a draft?"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Mapping

from msgspec import Struct, field

from hookwright.finding import Finding
from hookwright.notation.cursor import Cursor
from hookwright.notation.labels import read_label
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.lines import Line
from hookwright.notation.rows import read_row
from hookwright.notation.sections import Section
from hookwright.notation.soft_breaks import without_soft_breaks
from hookwright.notation.tree import Claim, Label, Node, PartText, RowText
from hookwright.notation.vocabulary import Phrases
from hookwright.remembered import Numbered, Remembered
from hookwright.source import Source

Instructions = tuple[tuple[Node, ...], tuple[Claim, ...]]
"""The instructions of a row and the counts printed with it."""


_READ: Remembered[
    tuple[tuple[int, int, frozenset[str]], tuple[str, int, bool]], Instructions
] = Remembered(4_000)
"""Rows by their words, and what else decides how they are read."""
_VOCABULARIES: Numbered[tuple[object, ...]] = Numbered(100)


def vocabulary_of(own_words: Phrases) -> int:
    """The number of some own words; 0 for none."""
    return _VOCABULARIES.of(tuple(sorted(own_words.items()))) if own_words else 0


class OpenRow(Struct):
    """A row that is still being collected: its tokens from `first` up to `last`.

    `sizes` are those that a row without a label is for; empty for all. `count` is one that
    stands before the label.
    """

    label: Label | None
    first: int
    last: int
    start: int
    sizes: tuple[str, ...] = ()
    count: Claim | None = None


class Collected(Struct):
    """Everything collected on the way through a draft.

    Attributes:
        source: The text.
        tokens: All of its words and marks.
        marks: Where in `tokens` the marks of each kind stand.
        lines: Its lines.
        words: Every word and mark of it, once: what none of them says need not be sought.
        sizes: The names of its sizes; empty for one size.
        own_words: The stitches it defines.
        vocabulary: The number of these words; 0 for none.
        squares: Where the squares of filet are explained, which is no row.
        yarns: Words in the names of its yarns, lower case.
        levels: How far down its headings stand, by where their words begin.
        steps: Whether its rows are told by bare numbers.
        within_steps: Whether its rows stand in numbered steps: "7. 6th round: ...".
        numbered_notes: Where its notes begin that have such numbers as well.
        section: What the lines here are about.
        section_line: The heading that says so.
        parts: Parts that are complete.
        heading: The heading of the part being read.
        rows: Its rows so far.
        row_sizes: The sizes the rows here are for; empty for all.
        left: Sizes that have left the part, each with the row they go on at, or 0.
        begun: Where the last line with a word among its first begins; empty until asked.
        lead: A line before a row that says where the row begins.
        stripes: The colour of each row, where a list tells them.
        findings: What was found wrong in reading.
        alike: The instructions read so far, by their words.
        labels: The labels read so far, by where they begin: whether it may be a bare
            number, the label if there is one, and where it ends.
    """

    source: Source
    tokens: list[Token]
    marks: dict[Kind, list[int]]
    lines: list[Line]
    words: frozenset[str]
    sizes: tuple[str, ...] = ()
    own_words: Phrases = field(default_factory=dict)
    vocabulary: int = 0
    squares: frozenset[int] = frozenset()
    yarns: frozenset[str] = frozenset()
    levels: Mapping[int, int] = field(default_factory=dict)
    steps: bool = False
    within_steps: bool = False
    numbered_notes: frozenset[int] = frozenset()
    section: Section = Section.INTRODUCTION
    section_line: Line | None = None
    parts: list[PartText] = field(default_factory=list)
    heading: Line | None = None
    rows: list[RowText] = field(default_factory=list)
    row_sizes: tuple[str, ...] = ()
    left: dict[str, int] = field(default_factory=dict)
    begun: dict[str, int] = field(default_factory=dict)
    lead: Line | OpenRow | None = None
    stripes: list[tuple[int, str]] = field(default_factory=list)
    findings: list[Finding] = field(default_factory=list)
    alike: dict[tuple[str, int, bool], Instructions] = field(default_factory=dict)
    labels: dict[tuple[int, bool], tuple[Label | None, int]] = field(default_factory=dict)

    def cursor(self, at: int) -> Cursor:
        """A place in the tokens, where wrong words become findings."""
        sizes = max(1, len(self.sizes))
        return Cursor(
            self.tokens, at, self.own_words, sizes, self.findings, held=self.words
        )

    def tokens_in(self, stretch: Line | OpenRow) -> list[Token]:
        """The tokens of a line or row."""
        return self.tokens[stretch.first : stretch.last]

    def marks_in(self, stretch: Line | OpenRow, *kinds: Kind) -> list[int]:
        """Where in a line or row the marks of some kinds stand, in reading order."""
        found: list[int] = []
        for kind in kinds:
            marks = self.marks[kind]
            found += marks[
                bisect_left(marks, stretch.first) : bisect_left(marks, stretch.last)
            ]
        return sorted(found)

    def label(self, cursor: Cursor, *, steps: bool) -> Label | None:
        """The label of a line that begins at a cursor, which moves behind it."""
        key = (cursor.at, steps)
        found = self.labels.get(key)
        if found is None:
            label = read_label(cursor, self.source.text, inline=False, steps=steps)
            found = self.labels[key] = (label, cursor.at)
        cursor.at = found[1]
        return found[0]

    def read(self, stretch: Line | OpenRow, at: int | None = None) -> Instructions:
        """A line or row read as instructions, to look at or to keep.

        Rows are read from their own words alone, so those written alike are read once.

        Args:
            stretch: The line or row.
            at: Where its spans are counted from; where it begins if not told.
        """
        first = self.tokens[stretch.first]
        start = first.start if at is None else at
        end = max(first.start, self.tokens[max(stretch.first, stretch.last - 1)].end)
        end = end if stretch.last > stretch.first else first.start
        key = (self.source.text[start:end], first.start - start, first.glued)
        found = self.alike.get(key)
        if found is None:
            found = self.alike[key] = self._read_or_known(stretch, key, start, end)
        return found

    def _read_or_known(
        self, stretch: Line | OpenRow, key: tuple[str, int, bool], start: int, end: int
    ) -> Instructions:
        """A line or row read now, or as it was read in an earlier text."""
        around = (self.vocabulary, max(1, len(self.sizes)), self.yarns)
        found = _READ.get((around, key))
        if found is None:
            found = _READ.keep((around, key), self._read(stretch, start, end))
        return found

    def _read(self, stretch: Line | OpenRow, start: int, end: int) -> Instructions:
        tokens = [
            token.moved(-start) for token in without_soft_breaks(self.tokens_in(stretch))
        ]
        tokens.append(Token(Kind.END, "", 0, end - start, end - start))
        cursor = Cursor(tokens, 0, self.own_words, max(1, len(self.sizes)))
        return read_row(cursor, self.source.text[start:end], self.yarns)

    def own_letters(self, token: Token) -> str:
        """A token as it is written, capitals and all."""
        return self.source.text[token.start : token.end]
