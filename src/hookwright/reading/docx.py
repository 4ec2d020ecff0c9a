"""A pattern in a Word document: paragraphs, tables, lists and text boxes.

Tracked insertions are read and deletions are not, so the text is the one she would get by
accepting all changes. Headers and footers are parts of their own and are never opened.

Source: ECMA-376 part 1, WordprocessingML, for the names of the elements.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from xml.etree.ElementTree import Element

from msgspec import Struct

from hookwright.reading.docx_numbers import ListNumbers, numbered_lists, whole_number
from hookwright.reading.docx_parts import attribute, child, local_name, open_parts
from hookwright.reading.draft import Draft, ParagraphPlace
from hookwright.reading.labels import begins_a_row, begins_with_a_number
from hookwright.reading.lines import BLANK, Line, LineWriter, Piece, draft_of, table_row
from hookwright.reading.lost_stars import stars_note, with_stars_back
from hookwright.regex import regex

_UNREAD_NAMES = """
    del moveFrom delText delInstrText instrText
    pPr rPr sectPr tblPr tblPrEx tblGrid trPr tcPr sdtPr sdtEndPr rt
"""
_UNREAD = frozenset(_UNREAD_NAMES.split())
_OFF = frozenset({"0", "false", "off", "none"})
_HEADING_STYLE = regex(r"heading ?([1-9])|title", re.IGNORECASE)
_PICTURE_FONT = regex(r"dings|webdings", re.IGNORECASE)
_SYMBOL_AREA = range(0xF020, 0xF07F)
"""Where symbol fonts keep their copies of the plain characters."""
_BODY_LEVEL = 9
"""The outline level of what is no heading."""
_ANCESTORS = 10
"""Styles that a style may be based on, one on another; a few go round in a ring."""


class _Style(Struct, frozen=True):
    """What a paragraph style says of a paragraph."""

    heading: int = 0
    list_name: str | None = None
    level: int = 0
    based_on: str | None = None


def read_docx(data: bytes, name: str) -> Draft:
    """Read a .docx file."""
    parts = open_parts(data)
    body = child(parts.document, "body")
    numbers = ListNumbers(numbered_lists(parts.numbering))
    document = _Document(numbers, _styles(parts.styles))
    if body is not None:
        document.read_blocks(body)
    notes = list(document.notes())
    if parts.has_notes:
        notes.append("Footnotes and endnotes were not read.")
    return draft_of(document.lines, name, notes)


class _Document:
    """Walks the document from the top and gathers its lines."""

    def __init__(self, numbers: ListNumbers, styles: dict[str, _Style]) -> None:
        self.lines: list[Line] = []
        self._flows = [self.lines]
        self._numbers = numbers
        self._styles = styles
        self._writer = LineWriter()
        self._emphasis = (False, False)
        self._heading = 0
        self._number = ""
        self._paragraphs = 0
        self._tables = 0
        self._cell: ParagraphPlace | None = None
        self._place = ParagraphPlace(1)
        self._boxes: list[Element] = []
        self._struck_out = False
        self._stars_back: list[str] = []

    def notes(self) -> Iterator[str]:
        """What was left out or put back."""
        if self._struck_out:
            yield "Words that are struck out were not read."
        if self._stars_back:
            yield stars_note(self._stars_back)

    def read_blocks(self, parent: Element) -> None:
        """Read paragraphs and tables, also those inside content controls and the like."""
        for element in parent:
            name = local_name(element)
            if name in _UNREAD:
                continue
            if name == "p":
                self._read_paragraph(element)
            elif name == "tbl":
                self._read_table(element)
            else:
                self.read_blocks(_chosen(element))

    def _read_paragraph(self, paragraph: Element) -> None:
        properties = child(paragraph, "pPr")
        mark_is_deleted = child(properties, "rPr", "del") is not None
        self._place = self._cell or ParagraphPlace(self._paragraphs + 1)
        self._heading = self._heading_of(properties)
        if not mark_is_deleted:
            self._number = self._number_of(properties)
        before = len(self._flows[-1])
        for element in paragraph:
            self._read_inline(element)
        if mark_is_deleted:
            return  # the next paragraph goes on in this one
        self._end_line()
        if len(self._flows[-1]) == before:
            self._flows[-1].append(BLANK)
        elif self._cell is None:
            self._paragraphs += 1
        self._read_boxes()

    def _read_inline(self, element: Element) -> None:
        name = local_name(element)
        if name in _UNREAD:
            return
        if name == "t":
            self._writer.write(element.text or "", self._place)
        elif name == "r":
            self._read_run(element)
        elif name in {"tab", "ptab"}:
            self._writer.tab()
        elif name in {"br", "cr"}:
            self._end_line()
        elif name == "noBreakHyphen":
            self._writer.write("-", self._place)
        elif name == "sym":
            self._writer.write(_symbol(element), self._place)
        elif name == "txbxContent":
            self._boxes.append(element)
        else:
            for inner in _chosen(element):
                self._read_inline(inner)

    def _read_run(self, run: Element) -> None:
        properties = child(run, "rPr")
        if _is_on(properties, "vanish"):
            return
        if _is_on(properties, "strike") or _is_on(properties, "dstrike"):
            self._struck_out = True
            return
        emphasis = (_is_on(properties, "b"), _is_on(properties, "i"))
        if emphasis != self._emphasis:
            self._writer.emphasise(on=False)
            self._emphasis = emphasis
        if any(emphasis):
            self._writer.emphasise(on=True)
        for element in run:
            self._read_inline(element)

    def _read_boxes(self) -> None:
        """Read text boxes after the paragraph they are anchored in."""
        boxes, self._boxes = self._boxes, []
        for box in boxes:
            self.read_blocks(box)

    def _read_table(self, table: Element) -> None:
        self._end_line()
        self._flows[-1].append(BLANK)
        self._tables += 1
        number = self._tables
        rows = (row for row in _inside(table, "tr") if child(row, "trPr", "del") is None)
        for row_number, row in enumerate(rows, start=1):
            cells = [
                self._read_cell(cell, ParagraphPlace(None, number, row_number, cell_number))
                for cell_number, cell in enumerate(_inside(row, "tc"), start=1)
            ]
            self._flows[-1].extend(table_row(cells))
        self._flows[-1].append(BLANK)

    def _read_cell(self, cell: Element, place: ParagraphPlace) -> list[Line]:
        outer, self._cell = self._cell, place
        self._flows.append([])
        self.read_blocks(cell)
        self._end_line()
        self._cell = outer
        return self._flows.pop()

    def _end_line(self) -> None:
        line = self._writer.line(self._heading)
        if not line.pieces:
            return
        whole = with_stars_back(line)
        if whole is not line:
            self._stars_back.append(whole.text)
        if self._heading:
            self._flows[-1].append(BLANK)
        self._flows[-1].append(self._numbered(whole))

    def _numbered(self, line: Line) -> Line:
        """Put a list's number before its first line, unless that has a label of its own."""
        number, self._number = self._number, ""
        if not number or begins_a_row(line.text) or begins_with_a_number(line.text):
            return line
        label = Piece(f"{number} ", line.pieces[0].origin)
        return Line((label, *line.pieces), line.heading)

    def _style_of(self, properties: Element | None) -> _Style:
        name = attribute(child(properties, "pStyle"), "val") or ""
        return self._styles.get(name) or _Style(heading=_heading_level(name))

    def _heading_of(self, properties: Element | None) -> int:
        outline = attribute(child(properties, "outlineLvl"), "val")
        return _outline_level(outline) or self._style_of(properties).heading

    def _number_of(self, properties: Element | None) -> str:
        style = self._style_of(properties)
        own = child(properties, "numPr")
        list_name = attribute(child(own, "numId"), "val") or style.list_name
        level = whole_number(attribute(child(own, "ilvl"), "val"), style.level)
        return self._numbers.next_label(list_name, level) if list_name else ""


def _chosen(element: Element) -> Element:
    """The one version to read where a document gives several of the same content."""
    if local_name(element) != "AlternateContent":
        return element
    choice = child(element, "Choice")
    if choice is None:
        choice = child(element, "Fallback")
    return element if choice is None else choice


def _inside(parent: Element, name: str) -> Iterator[Element]:
    """The rows of a table or cells of a row, also those inside content controls."""
    for element in parent:
        found = local_name(element)
        if found == name:
            yield element
        elif found not in _UNREAD and found not in {"p", "tbl", "tr", "tc"}:
            yield from _inside(element, name)


def _is_on(properties: Element | None, name: str) -> bool:
    switch = child(properties, name)
    return switch is not None and attribute(switch, "val") not in _OFF


def _symbol(element: Element) -> str:
    try:
        code = int(attribute(element, "char") or "", 16)
    except ValueError:
        return ""
    if code in _SYMBOL_AREA and not _PICTURE_FONT.search(attribute(element, "font") or ""):
        return chr(code - 0xF000)
    return chr(code) if 0x20 <= code < 0xE000 else ""


def _styles(styles: Element | None) -> dict[str, _Style]:
    """The paragraph styles by identifier, each with what it takes from its ancestors."""
    own = {
        attribute(style, "styleId") or "": _own_style(style)
        for style in (styles if styles is not None else ())
        if local_name(style) == "style"
    }
    return {name: _inherited(style, own) for name, style in own.items()}


def _own_style(style: Element) -> _Style:
    properties = child(style, "pPr")
    numbers = child(properties, "numPr")
    outline = _outline_level(attribute(child(properties, "outlineLvl"), "val"))
    return _Style(
        outline or _heading_level(attribute(child(style, "name"), "val") or ""),
        attribute(child(numbers, "numId"), "val"),
        whole_number(attribute(child(numbers, "ilvl"), "val"), 0),
        attribute(child(style, "basedOn"), "val"),
    )


def _inherited(style: _Style, styles: dict[str, _Style]) -> _Style:
    heading, list_name, level = style.heading, style.list_name, style.level
    ancestor = styles.get(style.based_on or "")
    for _ in range(_ANCESTORS):
        if ancestor is None:
            break
        heading = heading or ancestor.heading
        if list_name is None:
            list_name, level = ancestor.list_name, ancestor.level
        ancestor = styles.get(ancestor.based_on or "")
    return _Style(heading, list_name, level)


def _heading_level(style_name: str) -> int:
    found = _HEADING_STYLE.fullmatch(style_name)
    return int(found[1] or 1) if found else 0


def _outline_level(value: str | None) -> int:
    level = whole_number(value, _BODY_LEVEL)
    return level + 1 if level < _BODY_LEVEL else 0
