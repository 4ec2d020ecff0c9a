"""A pattern on a web page: its words, without the page around them.

What is not the pattern is left out (menus, side columns, forms, what readers wrote below),
block elements and line breaks end a line, a table's row is a line.
"""

from __future__ import annotations

import re
from collections import Counter
from html import unescape
from html.parser import HTMLParser

from msgspec import Struct, field

from hookwright.reading import limits
from hookwright.reading.draft import Draft, LinePlace, UnreadableDraft
from hookwright.reading.labels import begins_a_row, begins_with_a_number
from hookwright.reading.lines import (
    BLANK,
    Line,
    LineWriter,
    Piece,
    draft_of,
    rows_labelled,
    table_row,
)
from hookwright.reading.lost_stars import stars_note, with_stars_back
from hookwright.reading.page_parts import (
    NO_WORDS,
    STRUCK_OUT,
    Attributes,
    unread_part,
)
from hookwright.reading.plain import decoded, refuse_what_is_not_text, with_plain_line_ends
from hookwright.regex import regex


def _names(listed: str) -> frozenset[str]:
    return frozenset(listed.split())


_VOID = _names("area base br col embed hr img input link meta param source track wbr")
_PARAGRAPHS = _names(
    "address article blockquote details dl fieldset figure h1 h2 h3 h4 h5 h6 hgroup hr main"
    " ol p pre section summary table ul"
)
_OWN_LINE = _names("caption center dd div dt figcaption li tr")
_EMPHASIS = _names("b em i strong")
_HEADINGS = {f"h{level}": level for level in range(1, 7)}
_ENDS_A_CELL = _names("td th tr tbody tfoot")
_CLOSED_BY: dict[str, frozenset[str]] = {
    "head": _PARAGRAPHS | _OWN_LINE | {"body"},
    "p": _PARAGRAPHS | {"div", "center", "li", "dt", "dd"},
    "li": frozenset({"li"}),
    "dt": frozenset({"dt", "dd"}),
    "dd": frozenset({"dt", "dd"}),
    "tr": frozenset({"tr", "tbody", "tfoot"}),
    "td": _ENDS_A_CELL,
    "th": _ENDS_A_CELL,
}
_CLOSES = {
    tag: frozenset(ended for ended, by in _CLOSED_BY.items() if tag in by)
    for tag in frozenset().union(*_CLOSED_BY.values())
}
_CELLS = _names("table td th")
_TABLE_TAGS = _names("table td th tr ul ol dl")
_BOUNDS = _names("table td th ul ol dl caption center div figcaption")
_RAW = _names("script style")

_START_TAG = regex(r"""<([a-zA-Z][^\s/>]*+)((?:[^>=]++|=\s*+(?:"[^"]*+"|'[^']*+')?+)*+)>""")
_ATTRIBUTE = regex(r"""([^\s=/>"'<]+)(?:\s*=\s*(?:"([^"]*)"|'([^']*)'|([^\s>"']+)))?""")
_ATTRIBUTES_READ = 4_000
"""Characters of a tag in which its class is looked for."""

_LIST_NUMBER = regex(r"[0-9]{1,6}")

_TOO_LARGE = (
    "it is far larger than a page with a pattern on it. Save the pattern alone and try"
    " again."
)

_AMPERSAND = "\x00"
_ENTITY = regex(rf"{_AMPERSAND}(?:#[0-9]{{1,7}}|#[xX][0-9a-fA-F]{{1,6}}|\w{{1,32}});?")
_DECLARED = regex(rb"""<meta[^<>]{0,200}charset\s*=\s*["']?([-\w]{1,30})""", re.IGNORECASE)
_KNOWN_CHARSETS = regex(
    r"iso-?8859-\d{1,2}|windows-125\d|macintosh|us-ascii", re.IGNORECASE
)


def read_hypertext(data: bytes, name: str) -> Draft:
    """Read a .html file.

    If leaving out what stands beside the pattern would leave no labelled row, though the
    page has some, nothing is left out: some pages are one large form.
    """
    text = with_plain_line_ends(_page_text(data))
    if len(text) > limits.HTML_CHARACTERS or text.count("<") > limits.HTML_TAGS:
        raise UnreadableDraft(_TOO_LARGE)
    page = _read_page(text, beside=False)
    if not rows_labelled(page.lines):
        whole = _read_page(text, beside=True)
        if rows_labelled(whole.lines):
            page = whole
    return draft_of(page.lines, name, _notes(page))


def _page_text(data: bytes) -> str:
    """The page as text: UTF-8 if it can be, else in the character set it declares."""
    declared = _DECLARED.search(data, 0, 4096)
    charset = declared[1].decode("ascii", "replace") if declared else ""
    if not _KNOWN_CHARSETS.fullmatch(charset):
        return decoded(data).text
    try:
        return decoded(data).text if _is_unicode(data) else _in_charset(data, charset)
    except (LookupError, UnicodeDecodeError):
        return decoded(data).text


def _is_unicode(data: bytes) -> bool:
    try:
        data.decode("utf-8")
    except UnicodeDecodeError:
        return data.startswith((b"\xff\xfe", b"\xfe\xff"))
    return True


def _in_charset(data: bytes, charset: str) -> str:
    text = data.decode(charset)
    refuse_what_is_not_text(text)
    return text


def _read_page(text: str, *, beside: bool) -> _Page:
    page = _Page(text, beside=beside)
    page.feed(text.replace("&", _AMPERSAND))
    page.end()
    return page


def _notes(page: _Page) -> list[str]:
    notes = []
    if page.left_out:
        notes.append(f"Left out of the page: {', '.join(sorted(page.left_out))}.")
    if page.stars_back:
        notes.append(stars_note(page.stars_back))
    if page.cut_short:
        notes.append(
            "The page ends inside a tag or a comment; what follows it was not read."
        )
    return notes


class _Element(Struct):
    """An open element, and whether it is left out of the text."""

    tag: str
    unread: bool
    next_number: int | None = None


class _Table(Struct):
    """The cells of the present row of a table."""

    cells: list[list[Line]] = field(default_factory=list)


class _Page(HTMLParser):
    """Follows the tags of a page and gathers its lines.

    Ampersands come as null characters and are decoded here, since the parser would not say
    where the words after one stand. `close` is never called: on broken pages it takes a
    time that grows with the square of their length.
    """

    def __init__(self, text: str, *, beside: bool) -> None:
        super().__init__(convert_charrefs=False)
        self.lines: list[Line] = []
        self.left_out: set[str] = set()
        self.stars_back: list[str] = []
        self.cut_short = False
        self._text = text
        self._beside = beside
        self._open: list[_Element] = []
        self._counts: Counter[str] = Counter()
        self._flows: list[list[Line]] = [self.lines]
        self._tables: list[_Table] = []
        self._writer = LineWriter()
        self._emphasis = 0
        self._heading = 0
        self._preformatted = 0
        self._after_number = False
        self._item_number = ""
        self._characters = 0

    def handle_starttag(self, tag: str, attrs: Attributes) -> None:
        """An element begins: an older one may end by this, and a line may end."""
        self._close_implied(tag)
        if tag in _VOID:
            if not self._is_unread():
                self._enter_void(tag)
            return
        if len(self._open) >= limits.HTML_DEPTH:
            raise UnreadableDraft("its tags are nested too deeply for a page of text.")
        unread = self._is_unread() or self._is_left_out(tag, attrs)
        self._open.append(_Element(tag, unread))
        self._counts[tag] += 1
        if not unread:
            self._enter(tag, attrs)

    def handle_endtag(self, tag: str) -> None:
        """An element ends, and with it all that was left open inside it."""
        if tag == "br":
            self.handle_starttag(tag, [])
            return
        at = len(self._open) - 1
        while at >= 0 and self._counts[tag]:
            if self._open[at].tag == tag:
                self._close_to(at)
                return
            if self._open[at].tag in _CELLS and tag not in _TABLE_TAGS:
                return
            at -= 1

    def handle_startendtag(self, tag: str, attrs: Attributes) -> None:
        """An element without content, as XHTML writes it."""
        self.handle_starttag(tag, attrs)
        if tag not in _VOID:
            self.handle_endtag(tag)

    def handle_data(self, data: str) -> None:
        """Words: each line of them knows its place, each entity is a place of its own."""
        if self._is_unread():
            return
        self._count_characters(len(data))
        if self._after_number and data[:1].isdigit():
            self._writer.space()
        self._after_number = False
        line, column = self.getpos()
        place = LinePlace(line, column + 1)
        for number, words in enumerate(data.split("\n")):
            if number:
                self._end_source_line()
                place = LinePlace(line + number, 1)
            self._write(words, place)

    def parse_starttag(self, i: int) -> int:
        """Read a start tag; the parser's own way is slow on tags with many attributes."""
        found = _START_TAG.match(self.rawdata, i)
        if found is None:
            return -1
        tag = found[1].lower()
        attrs: Attributes = [
            (name.lower(), double or single or bare)
            for name, double, single, bare in _ATTRIBUTE.findall(
                found[2][:_ATTRIBUTES_READ]
            )
        ]
        if found[2].endswith("/"):
            self.handle_startendtag(tag, attrs)
            return found.end()
        self.handle_starttag(tag, attrs)
        if tag in _RAW:
            self.set_cdata_mode(tag)
        return found.end()

    def parse_marked_section(self, i: int, report: bool = True) -> int:  # noqa: ARG002, FBT001, FBT002
        """Pass over "<![if ...]>", which the parser would stop at with an assertion."""
        return self.parse_bogus_comment(i)

    def end(self) -> None:
        """Close what is open, and see whether anything was left unread at the end."""
        line, column = self.getpos()
        rest = self._text.split("\n", line)[line - 1 :]
        self.cut_short = any(part.strip() for part in (rest[0][column:], *rest[1:]))
        self._close_to(0)
        self._break_line()

    def _count_characters(self, characters: int) -> None:
        self._characters += characters
        if self._characters > limits.TEXT_CHARACTERS:
            raise UnreadableDraft(_TOO_LARGE)

    def _is_unread(self) -> bool:
        return bool(self._open) and self._open[-1].unread

    def _is_left_out(self, tag: str, attrs: Attributes) -> bool:
        """Whether this element is not part of the pattern; says what was left out."""
        around = [element.tag for element in self._open] if tag == "header" else ()
        part = unread_part(tag, attrs, around)
        if part is None or (self._beside and part not in {NO_WORDS, STRUCK_OUT}):
            return False
        if part:
            self.left_out.add(part)
        return True

    def _close_implied(self, tag: str) -> None:
        """End the paragraph, item or cell that has no end tag before this one begins."""
        ended = _CLOSES.get(tag, frozenset())
        at = len(self._open) - 1
        while at >= 0 and any(self._counts[each] for each in ended):
            open_tag = self._open[at].tag
            if open_tag in ended:
                self._close_to(at)
            elif open_tag in _BOUNDS:
                return
            at -= 1

    def _close_to(self, at: int) -> None:
        while len(self._open) > at:
            element = self._open.pop()
            self._counts[element.tag] -= 1
            if not element.unread:
                self._leave(element.tag)

    def _enter_void(self, tag: str) -> None:
        if tag == "br":
            self._break_line()
        elif tag == "hr":
            self._break_paragraph()

    def _enter(self, tag: str, attrs: Attributes) -> None:
        self._break_at(tag)
        if tag in _EMPHASIS:
            self._emphasis += 1
            self._writer.emphasise(on=True)
        elif tag in _HEADINGS:
            self._heading = _HEADINGS[tag]
        elif tag == "ol":
            self._open[-1].next_number = _first_number(attrs)
        elif tag == "li":
            self._number_item()
        elif tag == "table":
            self._tables.append(_Table())
            self._flows.append([])
        elif tag in {"td", "th"} and self._tables:
            self._begin_cell()
        elif tag == "pre":
            self._preformatted += 1
        elif tag == "sup":
            # "5<sup>1</sup>/<sub>2</sub>" is five and a half, not fifty-one halves.
            self._after_number = self._writer.last_character.isdigit()

    def _leave(self, tag: str) -> None:
        self._break_at(tag)
        if tag in _EMPHASIS:
            self._emphasis -= 1
            if not self._emphasis:
                self._writer.emphasise(on=False)
        elif tag in _HEADINGS:
            self._heading = 0
        elif tag == "pre":
            self._preformatted -= 1
        elif tag in {"td", "th"} and self._tables:
            self._end_cell()
        elif tag == "tr" and self._tables:
            self._end_row()
        elif tag == "table":
            self._end_table()

    def _break_at(self, tag: str) -> None:
        if tag in _PARAGRAPHS:
            self._break_paragraph()
        elif tag in _OWN_LINE:
            self._break_line()

    def _break_line(self) -> None:
        line = self._writer.line(self._heading)
        if self._emphasis:
            self._writer.emphasise(on=True)
        if not line.pieces:
            return
        whole = with_stars_back(line)
        if whole is not line:
            self.stars_back.append(whole.text)
        self._flows[-1].append(self._numbered(whole))

    def _break_paragraph(self) -> None:
        self._break_line()
        self._flows[-1].append(BLANK)

    def _number_item(self) -> None:
        """Keep the number that a browser would set before this item."""
        self._item_number = ""
        for element in reversed(self._open[:-1]):
            if element.tag in {"ul", "ol"}:
                if element.next_number is not None:
                    self._item_number = f"{element.next_number}. "
                    element.next_number += 1
                return

    def _numbered(self, line: Line) -> Line:
        """Put the number of a list before its item, unless that has a label of its own."""
        number, self._item_number = self._item_number, ""
        if not number or begins_a_row(line.text) or begins_with_a_number(line.text):
            return line
        return Line((Piece(number, line.pieces[0].origin), *line.pieces), line.heading)

    def _begin_cell(self) -> None:
        self._break_line()
        self._flows.append([])

    def _end_cell(self) -> None:
        self._break_line()
        self._tables[-1].cells.append(self._flows.pop())

    def _end_row(self) -> None:
        row = self._tables[-1]
        self._flows[-1].extend(table_row(row.cells))
        row.cells = []

    def _end_table(self) -> None:
        self._end_row()
        self._tables.pop()
        lines = self._flows.pop()
        self._flows[-1].extend(lines)
        self._flows[-1].append(BLANK)

    def _end_source_line(self) -> None:
        if self._preformatted:
            self._break_line()
        else:
            self._writer.space()

    def _write(self, words: str, place: LinePlace) -> None:
        at = 0
        for entity in _ENTITY.finditer(words):
            self._writer.write(words[at : entity.start()], place.moved(at))
            meant = unescape(f"&{entity[0][1:]}")
            self._writer.write(meant, place.moved(entity.start()))
            at = entity.end()
        self._writer.write(words[at:].replace(_AMPERSAND, "&"), place.moved(at))


def _first_number(attrs: Attributes) -> int | None:
    """The number that a browser gives the first item of a list; None if no plain number."""
    asked = dict(attrs)
    if asked.get("type") not in {None, "1"} or "reversed" in asked:
        return None
    start = asked.get("start") or "1"
    return int(start) if _LIST_NUMBER.fullmatch(start) else 1
