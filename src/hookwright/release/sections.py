"""Which sections does a copy have, and what stands in each?

Every line of the draft is set somewhere: as a row, an entry of a list, or a paragraph. A
line is a row where the reading says so; everything else is laid out as it reads. Sections
keep their order within the page they stand on.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterator, Mapping

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.facts import Holds
from hookwright.notation.tree import RowText
from hookwright.regex import regex
from hookwright.release.facts import Block, Entry, Page, Paragraph, Row, Run, Section
from hookwright.release.row_words import begins_at, one_line, set_row, tied

_ON_PAGE: Mapping[Holds, Page] = {
    Holds.LEVEL: Page.BEFORE,
    Holds.SIZES: Page.BEFORE,
    Holds.FINISHED: Page.BEFORE,
    Holds.MATERIALS: Page.BEFORE,
    Holds.GAUGE: Page.BEFORE,
    Holds.TERMS: Page.BEFORE,
    Holds.NOTES: Page.WRITTEN,
    Holds.SPECIAL_STITCHES: Page.WRITTEN,
    Holds.INSTRUCTIONS: Page.ROWS,
    Holds.CHARTS: Page.ROWS,
    Holds.FINISHING: Page.FINISHING,
    Holds.CARE: Page.FINISHING,
    Holds.ABBREVIATIONS: Page.FINISHING,
    Holds.RIGHTS: Page.FINISHING,
}
_LABELLED = regex(r"\s*(?P<label>[A-Za-z][^\n:.;!?]{0,48}:)\s+(?=\S)")
_ENTRY = regex(r"\s*(?P<word>[^\s=][^=\n]{0,40}?)\s*=\s*(?P<meaning>\S[^\n]*?)\s*")
_LEAD = regex(r"[ \t]{2}\S[^\n]{0,60}?[:.][ \t]{3}")
"""A bold label whose marks were blanked out while it was read."""
_ENDING = regex(r"\(e?s\)")
_BULLET = regex(r"\s*[-+•*]\s+(?=[A-Za-z])")


class _Heading(Struct, frozen=True):
    """A heading of the draft.

    Attributes:
        start: Where its line begins.
        end: Where its line ends.
        words: The heading.
        level: How deep it is; 1 for the title.
    """

    start: int
    end: int
    words: str
    level: int


def sections_of(checked: Checked) -> tuple[tuple[Paragraph, ...], tuple[Section, ...]]:
    """The paragraphs before the first section, and the sections."""
    rows = _rows(checked)
    headings = _headings(checked)
    text = checked.source.text
    starts = [heading.end for heading in headings]
    stops = [*(heading.start for heading in headings[1:]), len(text)]
    first = headings[0].start if headings else len(text)
    introduction = list(_blocks(checked, 0, first, rows, entries=False))
    found: list[Section] = []
    last_row = max((row.span.start for row in rows.values()), default=-1)
    for heading, start, stop in zip(headings, starts, stops, strict=True):
        holds = _holds(checked, heading)
        entries = holds is Holds.ABBREVIATIONS
        blocks = tuple(_blocks(checked, start, stop, rows, entries=entries))
        if heading.level == 1 and not found and not any(_is_row(b) for b in blocks):
            introduction += blocks
            continue
        has_rows = any(_is_row(block) for block in blocks)
        page = _page(holds, has_rows=has_rows, after=heading.start > last_row,
                     begun=any(section.has_rows for section in found))  # fmt: skip
        named = "" if holds is None or has_rows else holds.value
        found.append(Section(heading.words, page, blocks, named))
    if any(_is_row(block) for block in introduction):
        lead = tuple(block for block in introduction)
        return (), (Section("", Page.ROWS, lead), *found)
    said = tuple(block for block in introduction if isinstance(block, Paragraph))
    return said, tuple(section for section in found if section.blocks or not section.holds)


def _is_row(block: Block) -> bool:
    return isinstance(block, Row)


def _page(holds: Holds | None, *, has_rows: bool, after: bool, begun: bool) -> Page:
    if has_rows:
        return Page.ROWS
    if holds is not None:
        return _ON_PAGE.get(holds, Page.WRITTEN)
    if after:
        return Page.FINISHING
    return Page.ROWS if begun else Page.WRITTEN


def _rows(checked: Checked) -> dict[int, RowText]:
    """The rows of the pattern by where they begin."""
    parts = checked.reading.pattern.parts
    return {row.span.start: row for part in parts for row in part.rows}


def _headings(checked: Checked) -> list[_Heading]:
    """The headings of a draft: those it marks, its sections, and the names of its parts."""
    source = checked.source
    levels = {source.line_of(h.span.start): h.level for h in checked.draft.headings}
    for section in checked.design.sections:
        line = source.line_of(section.heading.start)
        whole = source.line_span(line)
        if section.heading.end >= whole.end or section.heading.end >= whole.end - 1:
            levels.setdefault(line, 2)
    for part in checked.reading.pattern.parts:
        line = source.line_of(part.span.start)
        if part.name and one_line(source.slice(source.line_span(line))):
            begins_row = any(source.line_of(row.span.start) == line for row in part.rows)
            if not begins_row:
                levels.setdefault(line, 2)
    found = []
    for line, level in sorted(levels.items()):
        span = source.line_span(line)
        words = one_line(source.slice(span)).strip("*_# ").rstrip(":")
        if words:
            found.append(_Heading(span.start, span.end, words, level))
    return found


def _holds(checked: Checked, heading: _Heading) -> Holds | None:
    """What the section under a heading holds, where it is one of the trade's."""
    for section in checked.design.sections:
        if heading.start <= section.heading.start < heading.end:
            return section.holds
    return None


def _blocks(
    checked: Checked, start: int, stop: int, rows: Mapping[int, RowText], *, entries: bool
) -> Iterator[Block]:
    """What stands between two places of the text, rows as rows."""
    source = checked.source
    sizes = max(1, len(checked.sizes))
    begins = sorted(at for at in rows if start <= at < stop)
    at = start
    for begin in begins:
        row = rows[begin]
        said = set_row(row, source, sizes)
        lead = begins_at(row, source)
        yield from _paragraphs(source.text[at : max(at, lead)], entries=entries)
        yield said
        at = max(at, row.span.end)
    yield from _paragraphs(_behind_row(source.text, at, start, stop), entries=entries)


def _behind_row(text: str, at: int, start: int, stop: int) -> str:
    """What is left behind the last row: not the full stop that ended it."""
    rest = text[at:stop]
    return rest.lstrip(" \t.;") if at > start else rest


def _paragraphs(text: str, *, entries: bool) -> Iterator[Block]:
    """Lines as paragraphs, or as entries of a list."""
    for line in text.split("\n"):
        words = one_line(_BULLET.sub("", line))
        if not words or not any(letter.isalnum() for letter in words):
            continue
        entry = _ENTRY.fullmatch(words) if entries else None
        if entry is not None:
            if not _says_itself(entry["word"], entry["meaning"]):
                yield Entry(entry["word"], entry["meaning"])
            continue
        yield Paragraph(tuple(_said(words, bold=_LEAD.match(line) is not None)))


def _says_itself(word: str, meaning: str) -> bool:
    """Whether an entry explains a word by itself, as all do where words are in full."""
    return _ENDING.sub("", word).lower() == _ENDING.sub("", meaning).lower()


def _said(words: str, *, bold: bool) -> Iterator[Run]:
    """A paragraph with its label: one that is bold in the draft, or a short one."""
    label = _LABELLED.match(words)
    longest = _LONGEST_LABEL if bold else _SHORT_LABEL
    if label is not None and len(label["label"].split()) <= longest:
        yield Run(label["label"], "label")
        yield Run(tied(words[label.end("label") :]))
        return
    yield Run(tied(words))


_LONGEST_LABEL, _SHORT_LABEL = 6, 2


def part_at(checked: Checked, start: int) -> str:
    """The name of the part that a place of the text lies in."""
    parts = [part for part in checked.reading.pattern.parts if part.rows]
    begins = [part.rows[0].span.start for part in parts]
    at = bisect_right(begins, start) - 1
    return parts[at].name if at >= 0 else ""
