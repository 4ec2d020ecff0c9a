"""Lines of a draft that are put together from pieces, each with its own place of origin."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct

from hookwright.reading import limits
from hookwright.reading.draft import (
    Draft,
    Heading,
    Origin,
    Stretch,
    Stretches,
    UnreadableDraft,
)
from hookwright.reading.labels import begins_a_row
from hookwright.regex import regex
from hookwright.source import Source, Span

# Marks that are not seen: soft hyphen, joiners, byte order, controls, halves of a pair.
_UNSEEN = "\u00ad\u200b-\u200f\u2060\ufeff\x00-\x08\x0e-\x1b\x7f\ud800-\udfff"
_SEEN = rf"[^\s{_UNSEEN}]+"
_TOKEN = regex(rf"(?P<gap>\s+)|[{_UNSEEN}]+|(?P<words>{_SEEN}(?: {_SEEN})*)")


class Piece(Struct, frozen=True):
    """A stretch of text and the origin of its first character."""

    text: str
    origin: Origin


class Line(Struct, frozen=True):
    """A row or paragraph.

    Attributes:
        pieces: Its text, in order; none for a blank line.
        heading: The level of a heading, 0 for other lines.
        emphases: The stretches of it that were slanted or bold.
    """

    pieces: tuple[Piece, ...] = ()
    heading: int = 0
    emphases: tuple[Span, ...] = ()

    @property
    def text(self) -> str:
        """The words of the line."""
        return "".join(piece.text for piece in self.pieces)


BLANK = Line()


class LineWriter:
    """Takes the words of a line as they come and draws its white space together.

    It changes as it goes, unlike our values: a page hands over its words a few at a time.
    """

    def __init__(self) -> None:
        self._begin()

    def _begin(self) -> None:
        self._pieces: list[Piece] = []
        self._run: list[str] = []
        self._run_length = 0
        self._origin: Origin | None = None
        self._length = 0
        self._gap = ""
        self._emphases: list[Span] = []
        self._emphasis_start = -1

    @property
    def last_character(self) -> str:
        """The last character so far, white space included; nothing at the start."""
        return self._gap or (self._run[-1][-1] if self._run else "")

    def write(self, text: str, origin: Origin) -> None:
        """Add text; white space inside it becomes one space, at its ends at most one."""
        for token in _TOKEN.finditer(text):
            if token["gap"]:
                self.space()
            elif token["words"]:
                self._add(token["words"], origin.moved(token.start()))

    def space(self) -> None:
        """Part what comes from what stands there."""
        if self._length:
            self._gap = self._gap or " "

    def tab(self) -> None:
        """Part what comes from what stands there, as the cells of a table are."""
        if self._length:
            self._gap = "\t"

    def emphasise(self, *, on: bool) -> None:
        """From here on the words are slanted or bold, or are no longer."""
        if on and self._emphasis_start < 0:
            self._emphasis_start = self._length + len(self._gap)
        elif not on and self._emphasis_start >= 0:
            if self._emphasis_start < self._length:
                self._emphases.append(Span(self._emphasis_start, self._length))
            self._emphasis_start = -1

    def line(self, heading: int = 0) -> Line:
        """The line as written so far; what is written after this begins the next one."""
        self.emphasise(on=False)
        self._end_piece()
        line = Line(tuple(self._pieces), heading, tuple(self._emphases))
        self._begin()
        return line

    def _add(self, words: str, origin: Origin) -> None:
        if self._gap:
            self._grow(self._gap)
            self._gap = ""
        if self._origin is None or self._origin.moved(self._run_length) != origin:
            self._end_piece()
            self._origin = origin
        self._grow(words)

    def _grow(self, text: str) -> None:
        self._run.append(text)
        self._run_length += len(text)
        self._length += len(text)

    def _end_piece(self) -> None:
        if self._origin is not None:
            self._pieces.append(Piece("".join(self._run), self._origin))
        self._run, self._run_length, self._origin = [], 0, None


def with_insertions(line: Line, insertions: Iterable[tuple[int, str]]) -> Line:
    """The line with some marks put in before the characters at these offsets."""
    pieces: list[Piece] = []
    waiting = sorted(insertions, reverse=True)
    start = 0
    for piece in line.pieces:
        done = 0
        while waiting and waiting[-1][0] < start + len(piece.text):
            at, mark = waiting.pop()
            here = max(0, at - start)
            if here > done:
                pieces.append(Piece(piece.text[done:here], piece.origin.moved(done)))
            pieces.append(Piece(mark, piece.origin.moved(here)))
            done = here
        pieces.append(Piece(piece.text[done:], piece.origin.moved(done)))
        start += len(piece.text)
    pieces.extend(Piece(mark, line.pieces[-1].origin) for _, mark in reversed(waiting))
    return Line(tuple(pieces), line.heading)


def table_row(cells: Sequence[Sequence[Line]]) -> Iterator[Line]:
    """The lines of one row of a table.

    A row is one line, its cells parted by tabs. Where a cell holds several rows of the
    pattern, the table only lays out the page, and each line of it stays a line.
    """
    filled = [[line for line in cell if line.pieces] for cell in cells]
    filled = [cell for cell in filled if cell]
    if not filled:
        return
    if any(sum(begins_a_row(line.text) for line in cell) > 1 for cell in filled):
        for cell in filled:
            yield from cell
        return
    yield _joined([_joined(cell, " ") for cell in filled], "\t")


def _joined(lines: Sequence[Line], between: str) -> Line:
    if len(lines) == 1:
        return lines[0]
    pieces = list(lines[0].pieces)
    for line in lines[1:]:
        pieces.append(Piece(between, line.pieces[0].origin))
        pieces.extend(line.pieces)
    return Line(tuple(pieces))


def rows_labelled(lines: Iterable[Line]) -> int:
    """How many lines begin with a row label."""
    return sum(begins_a_row(line.text) for line in lines)


def draft_of(lines: Sequence[Line], name: str, notes: Sequence[str] = ()) -> Draft:
    """Put a text together from lines, each a line of it; blank ones never in a row.

    Raises:
        UnreadableDraft: If there are no words, or too many.
    """
    kept = _without_idle_blanks(lines)
    if not kept:
        raise UnreadableDraft("there are no words in it.")
    _refuse_too_much(kept)
    texts: list[str] = []
    stretches: list[Stretch] = []
    headings: list[Heading] = []
    at = 0
    for line in kept:
        start = at
        for piece in line.pieces:
            stretches.append(Stretch(at, piece.origin))
            at += len(piece.text)
        if line.heading:
            headings.append(Heading(Span(start, at), line.heading))
        texts.append(line.text)
        at += 1
    source = Source("\n".join(texts) + "\n", name)
    return Draft(source, Stretches(tuple(stretches)), tuple(headings), notes=tuple(notes))


def _without_idle_blanks(lines: Iterable[Line]) -> list[Line]:
    kept: list[Line] = []
    for line in lines:
        if line.pieces or (kept and kept[-1].pieces):
            kept.append(line)
    if kept and not kept[-1].pieces:
        kept.pop()
    return kept


def _refuse_too_much(lines: Sequence[Line]) -> None:
    characters = sum(len(piece.text) for line in lines for piece in line.pieces)
    pieces = sum(len(line.pieces) for line in lines)
    if (
        characters > limits.TEXT_CHARACTERS
        or len(lines) > limits.TEXT_LINES
        or pieces > limits.TEXT_PIECES
    ):
        raise UnreadableDraft(
            "it holds far more text than a pattern. Cut out the pattern and try again."
        )
