"""A text that is read and worked, as sections, paragraphs and rows with their spans."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.design.facts import Holds
from hookwright.notation.nested import nested
from hookwright.notation.printing import Wording, body_words
from hookwright.notation.tree import PartText, RowText, Yarn
from hookwright.source import Span
from hookwright.wording.asked import Asked, Form
from hookwright.wording.edits import Layered
from hookwright.wording.expected import rows_of
from hookwright.wording.in_full import written_out
from hookwright.wording.lead import LEAD
from hookwright.wording.level import level_of
from hookwright.wording.rows_set import style_of
from hookwright.wording.written import (
    Action,
    Block,
    Paragraph,
    Picture,
    RowWritten,
    Section,
    WordEntry,
    WordList,
    Written,
)

Pictures = Sequence[Picture]
_LEVEL_OF_PART = 2


class _Piece(Struct, frozen=True):
    """A heading, a row, or what lies between, in the new text."""

    span: Span
    level: int = 0
    row: int = -1


def laid_out(
    checked: Checked,
    asked: Asked,
    again: Checked,
    text: Layered,
    kept: frozenset[int],
    pictures: Pictures,
) -> Written:
    """The new text in sections and blocks.

    Args:
        checked: The source.
        asked: The wording.
        again: The new text, read and worked.
        text: How it came about.
        kept: Rows of the source that could not be worded as asked.
        pictures: Pictures of the source, by their places in it.
    """
    layout = _Layout(checked, asked, again, text, kept)
    sections = tuple(layout.sections(pictures))
    listed = [
        block
        for section in sections
        for block in section.blocks
        if isinstance(block, WordList)
    ]
    terms = asked.terms or again.terms or again.worked.terms
    title = again.design.title or again.draft.title
    entries = tuple(entry for block in listed for entry in block.entries)
    return Written(
        " ".join(title.split()),
        terms,
        asked,
        again.sizes,
        sections,
        entries,
        level_of(checked, terms, one_size=asked.size is not None),
    )


class _Layout(Struct):
    """Goes through the new text from top to bottom."""

    checked: Checked
    asked: Asked
    again: Checked
    text: Layered
    kept: frozenset[int]

    def sections(self, pictures: Pictures) -> Iterator[Section]:
        """All of it, under its headings."""
        pieces = self._pieces()
        places = [at for at, piece in enumerate(pieces) if piece.level]
        for first, after in zip([-1, *places], [*places, len(pieces)], strict=True):
            heading = pieces[first] if first >= 0 else _Piece(Span(0, 0))
            inside = pieces[first + 1 : after]
            section = self._section(heading, inside, pictures)
            if section.heading or section.blocks:
                yield section

    def _pieces(self) -> list[_Piece]:
        """Headings and rows in reading order, with what lies between them."""
        marked = [_Piece(span, level=level) for span, level in self._headings()]
        rows = rows_of(self.again.reading.pattern)
        marked += [_Piece(self._whole(row), row=at) for at, row in enumerate(rows)]
        marked.sort(key=lambda piece: piece.span)
        pieces: list[_Piece] = []
        at = 0
        for piece in marked:
            if piece.span.start < at:
                continue
            if piece.span.start > at:
                pieces.append(_Piece(Span(at, piece.span.start)))
            pieces.append(piece)
            at = piece.span.end
        pieces.append(_Piece(Span(at, len(self.again.source.text))))
        return pieces

    def _whole(self, row: RowText) -> Span:
        """A row with what stands before its label on its line: "Size L only: Rnd 9"."""
        if row.label is None:
            return row.span
        text = self.again.source.text
        start = text.rfind("\n", 0, row.label.span.start) + 1
        lead = text[start : row.label.span.start]
        sized = bool(row.label.sizes) or lead.lower().lstrip().startswith("all sizes")
        return Span(start if sized else row.span.start, row.span.end)

    def _headings(self) -> Iterator[tuple[Span, int]]:
        """Every heading with its level: as the file marks them, or as they are read."""
        source, text = self.again.source, self.again.source.text
        lines: dict[int, tuple[Span, int]] = {}
        for heading in self.again.draft.headings:
            lines[source.line_of(heading.span.start)] = (heading.span, heading.level)
        known = bool(lines)
        found = [(part.span, part.name) for part in self.again.reading.pattern.parts]
        found += [(s.heading, "section") for s in self.again.design.sections]
        for span, name in found:
            line = source.line_of(span.start)
            whole = source.line_span(line)
            alone = not text[span.end : whole.end].strip(" *_#:.|\t=-")
            rows = any(row.span.start <= span.start < row.span.end for row in self._rows())
            if name and alone and not known and not rows and line not in lines:
                lines[line] = (Span(span.start, whole.end), _LEVEL_OF_PART)
        yield from (lines[line] for line in sorted(lines))

    def _rows(self) -> list[RowText]:
        return rows_of(self.again.reading.pattern)

    def _section(
        self, heading: _Piece, inside: Sequence[_Piece], pictures: Pictures
    ) -> Section:
        source = self.again.source
        words = " ".join(source.slice(heading.span).strip(" *_#\t=").split())
        part, make = self._part(inside)
        end = inside[-1].span.end if inside else heading.span.end
        span = self.text.span_back(Span(heading.span.start, end))
        blocks = [block for piece in inside for block in self._blocks(piece)]
        own = [p for p in pictures if span.start <= p.span.start < max(span.end, 1)]
        return Section(
            words,
            heading.level,
            self._holds(heading),
            part,
            make,
            tuple(sorted([*blocks, *own], key=lambda block: block.span)),
            self.text.span_back(heading.span),
        )

    def _holds(self, heading: _Piece) -> Holds | None:
        if not heading.level:
            return None
        if heading.level == 1:
            return Holds.TITLE
        here = self.again.source.line_of(heading.span.start)
        return next(
            (
                section.holds
                for section in self.again.design.sections
                if self.again.source.line_of(section.heading.start) == here
            ),
            None,
        )

    def _part(self, inside: Sequence[_Piece]) -> tuple[int | None, int]:
        """The part of the source that begins here, and how often it is made."""
        first = next((piece.row for piece in inside if piece.row >= 0), None)
        if first is None:
            return None, 1
        part = self._part_of(first)
        begins = self._rows().index(part.rows[0]) == first
        number = self.again.reading.pattern.parts.index(part)
        return (number, part.make) if begins else (None, 1)

    def _part_of(self, row: int) -> PartText:
        for part in self.again.reading.pattern.parts:
            if row < len(part.rows):
                return part
            row -= len(part.rows)
        raise IndexError(row)

    def _blocks(self, piece: _Piece) -> Iterator[Block]:
        if piece.row >= 0:
            yield self._row(piece)
        else:
            yield from self._prose(piece.span)

    def _row(self, piece: _Piece) -> RowWritten:
        row = self._rows()[piece.row]
        source = self.again.source
        label = ""
        if row.label is not None:
            whole = Span(piece.span.start, row.label.span.end)
            side = source.text[row.label.span.end : row.at]
            label = _one_line(source.slice(whole) + side).rstrip(" :.-–—=)|*_")
            label += ")" if label.count("(") > label.count(")") else ""
        body = Span(row.at, row.span.end)
        last = row.place(row.claims[-1].span) if row.claims else None
        count = ""
        if last is not None and not source.text[last.end : body.end].strip(" .*_"):
            count = _one_line(source.slice(last))
            body = Span(body.start, last.start)
        back = self.text.span_back(piece.span)
        return RowWritten(
            label,
            _one_line(source.slice(body)).rstrip(" -–—="),
            count,
            self.actions(row),
            self._colours(piece.row),
            back,
            self.again.reading.pattern.parts.index(self._part_of(piece.row)),
            tuple(
                at
                for at, line in enumerate(self.checked.lines)
                if back.start <= line.span.start < back.end
            ),
            kept=self._is_kept(back),
        )

    def _is_kept(self, span: Span) -> bool:
        rows = rows_of(self.checked.reading.pattern)
        return any(rows[at].span.start in range(span.start, span.end) for at in self.kept)

    def _colours(self, number: int) -> tuple[str, ...]:
        row = self._rows()[number]
        back = self.text.back(row.span.start)
        names = [
            name
            for line in self.checked.lines
            if line.span.start == back
            for name, _ in line.colours
            if name
        ]
        names += [n.name for n in nested(row.body) if isinstance(n, Yarn) and n.name]
        return tuple(dict.fromkeys(names))

    def actions(self, row: RowText) -> tuple[Action, ...]:
        """The instructions one by one, in the terms and the form of the text."""
        style = replace(style_of(self.asked, spoken=False), one_a_line=True)
        pattern = self.again.reading.pattern
        own = frozenset(name for d in pattern.definitions for name in d.names)
        terms = self.again.worked.terms
        plain = replace(row, claims=())
        words = body_words(plain, Wording(terms, own_words=own, style=style))
        if self.asked.form is not Form.SHORT:
            words = written_out(words, terms, pattern)
        return tuple(
            Action(line.strip().rstrip(",;."), (len(line) - len(line.lstrip())) // 2)
            for line in words.split("\n")
        )

    def _prose(self, span: Span) -> Iterator[Block]:
        """What lies between rows and headings, as lists and paragraphs."""
        source = self.again.source
        entries = [entry for entry in self.again.design.abbreviations if entry.span in span]
        if len(entries) > 1:
            first, last = entries[0].span.start, entries[-1].span.end
            yield from self._paragraphs(Span(span.start, first))
            words = tuple(
                WordEntry(entry.word, entry.meaning, self.text.span_back(entry.span))
                for entry in entries
            )
            yield WordList(words, self.text.span_back(Span(first, last)))
            span = Span(last, span.end)
        if source.slice(span).strip():
            yield from self._paragraphs(span)

    def _paragraphs(self, span: Span) -> Iterator[Paragraph]:
        text = self.again.source.text
        at = span.start
        lines: list[str] = []
        begin, lead = at, ""
        for line in text[span.start : span.end].split("\n"):
            led = LEAD.match(line)
            if lines and (led or not line.strip()):
                yield self._paragraph(lead, lines, Span(begin, at - 1))
                lines, lead = [], ""
            if line.strip(" .*_|"):
                if not lines:
                    begin, lead = at, led["lead"] if led else ""
                lines.append(_one_line(line[led.end() :] if led else line))
            at += len(line) + 1
        if lines:
            yield self._paragraph(lead, lines, Span(begin, span.end))

    def _paragraph(self, lead: str, lines: Sequence[str], span: Span) -> Paragraph:
        return Paragraph(lead, tuple(lines), self.text.span_back(span))


def _one_line(words: str) -> str:
    return " ".join(words.split())
