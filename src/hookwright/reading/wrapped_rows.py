"""Rows that a print broke over several lines, put back on one line each.

A line goes on from the one above if that one was full: if its first word would not have
fitted there. A label, a list's mark, a heading, a wider gap or another indent begins a new
line.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from hookwright.reading.column_order import Block
from hookwright.reading.draft import PagePlace
from hookwright.reading.labels import (
    begins_a_marked_row,
    begins_a_row,
    begins_with_a_number,
)
from hookwright.reading.lines import BLANK, Line, LineWriter
from hookwright.reading.print_measures import (
    WORD,
    Measures,
    half_points,
    measured,
)
from hookwright.reading.printed import HYPHEN, PrintedLine
from hookwright.regex import regex

_SAME_SIZE = 0.12
_WIDER_GAP = 1.3
_INDENT = 0.3
_SPACE = 0.2
_FEW = 2
_HEADING_LENGTH = 80

_ENDS_A_SENTENCE = regex(r"[.!?:)\]\u201d\"]$")
_LEFT_OPEN = regex(
    r"""(?:\b(?:rep|repeat|as|of|from|to|and|or|through|in|into|work|for|rows?|rnds?|rounds?
        |with|after|before|on|until|last|next|each|every|the)|[,&(/+\u2013\u2014-])$""",
    re.IGNORECASE | re.VERBOSE,
)
_LABEL_ALONE = regex(r"[^:]{0,60}\b(?:row|rnd|round)s?\b[^:]{0,60}:", re.IGNORECASE)
_BULLET = regex(r"[\u2022\u2023\u25aa\u25ab\u25cf\u25cb\u25e6\u00b7]\s?\w")
_DASH_ITEM = regex(r"[-\u2013\u2014]\s")


def rejoined(pages: Sequence[Sequence[Block]], heights_pt: Sequence[float]) -> list[Line]:
    """The lines of the text: one for each row or paragraph.

    Args:
        pages: The blocks of each page in reading order.
        heights_pt: The height of each page.
    """
    measures = measured(pages)
    lines: list[Line] = []
    paragraph: list[PrintedLine] = []
    for line, block, is_apart in _with_neighbours(pages, measures):
        if paragraph and not _goes_on(paragraph, line, block, measures):
            lines.append(_line_of(paragraph, heights_pt, measures))
            if is_apart or lines[-1].heading:
                lines.append(BLANK)
            paragraph = []
        paragraph.append(line)
    if paragraph:
        lines.append(_line_of(paragraph, heights_pt, measures))
    return lines


def _with_neighbours(
    pages: Sequence[Sequence[Block]], measures: Measures
) -> Iterator[tuple[PrintedLine, Block, bool]]:
    """Every line with its block, and whether it stands apart from the one before."""
    for blocks in pages:
        for block in blocks:
            before: PrintedLine | None = None
            for line in block.lines:
                yield line, block, before is None or _is_wide(before, line, measures)
                before = line


def _is_wide(upper: PrintedLine, lower: PrintedLine, measures: Measures) -> bool:
    gap_pt = upper.box.bottom - lower.box.bottom
    return gap_pt > _WIDER_GAP * measures.line_gap_pt * max(1.0, lower.size / measures.size)


def _goes_on(
    paragraph: Sequence[PrintedLine], line: PrintedLine, block: Block, measures: Measures
) -> bool:
    """Whether a line goes on with the paragraph."""
    last = paragraph[-1]
    if abs(line.size - last.size) > _SAME_SIZE * last.size:
        return False
    if _hangs_under_label(paragraph, line, block, measures):
        return True
    if line.bold != last.bold:
        return False
    if line is block.lines[0]:
        if not _is_next_column(last, line) or _seems_new(last.text, line.text):
            return False
    elif _is_wide(last, line, measures) or not _is_indented_alike(paragraph, line):
        return False
    if not _is_full(paragraph, line, block, measures) and not _breaks_off(paragraph, line):
        return False
    return not _begins_anew(last.text.rstrip(), line.text.lstrip())


def _hangs_under_label(
    paragraph: Sequence[PrintedLine], line: PrintedLine, block: Block, measures: Measures
) -> bool:
    """Whether a line is set in under a label that has a line to itself.

    Then it belongs to that row, be it short, a new sentence, or in bold letters: some print
    a row with one thing to do a line, and its count beneath.
    """
    first, last = paragraph[0], paragraph[-1]
    if _LABEL_ALONE.fullmatch(first.text.strip()) is None:
        return False
    if line.box.left - first.box.left <= _INDENT * line.size or begins_a_row(line.text):
        return False
    if line is block.lines[0]:
        return line.page == last.page + 1
    return not _is_wide(last, line, measures)


def _is_next_column(last: PrintedLine, line: PrintedLine) -> bool:
    return line.page == last.page + 1 or (
        line.page == last.page and line.box.bottom > last.box.top
    )


def _seems_new(last: str, line: str) -> bool:
    """At the top of a column: whether a sentence has ended and another begins."""
    has_ended = _ENDS_A_SENTENCE.search(last.rstrip()) is not None
    return has_ended and not line.lstrip()[:1].islower()


def _is_indented_alike(paragraph: Sequence[PrintedLine], line: PrintedLine) -> bool:
    """Whether a line begins where the lines of this paragraph do.

    The second line of a row may hang under its label, that of a paragraph may stand out
    from under its first; from then on all begin at one edge.
    """
    slack = _INDENT * line.size
    if len(paragraph) > 1 and paragraph[-1].page == paragraph[-2].page:
        return abs(line.box.left - paragraph[-1].box.left) <= slack
    indent = line.box.left - paragraph[0].box.left
    return indent <= slack or _may_hang(paragraph[0].text)


def _may_hang(text: str) -> bool:
    first = text.lstrip()
    return (
        begins_a_row(first)
        or begins_with_a_number(first)
        or _BULLET.match(first) is not None
        or _DASH_ITEM.match(first) is not None
        or ":" in first
    )


_ROUGHLY = 0.8
"""A word is not measured but reckoned by its number of letters, which are not alike."""


def _is_full(
    paragraph: Sequence[PrintedLine], line: PrintedLine, block: Block, measures: Measures
) -> bool:
    """Whether the first word of this line would not have fitted on the last one."""
    last = paragraph[-1]
    if last.text.rstrip().endswith(HYPHEN):
        return True
    text = line.runs[0].text
    first_word = text.split(maxsplit=1)[0] if text.strip() else text
    width = (line.runs[0].box.right - line.runs[0].box.left) * len(first_word) / len(text)
    edge = _right_edge(last, line, block, measures)
    if begins_a_row(paragraph[0].text):
        number, reach = block.reaches.get(last.left_step, (0, edge))
        edge = min(edge, reach) if number > _FEW else edge
    unfinished = _ENDS_A_SENTENCE.search(last.text.rstrip()) is None
    rough = _ROUGHLY * line.size if unfinished and text.lstrip()[:1].islower() else 0.0
    return last.reach + _SPACE * line.size + width > edge - rough


def _breaks_off(paragraph: Sequence[PrintedLine], line: PrintedLine) -> bool:
    """Whether a row was left in the middle of a phrase, however short its line."""
    return (
        begins_a_row(paragraph[0].text)
        and _ENDS_A_SENTENCE.search(paragraph[-1].text.rstrip()) is None
        and not line.text.lstrip()[:1].isupper()
    )


def _right_edge(
    last: PrintedLine, line: PrintedLine, block: Block, measures: Measures
) -> float:
    """How far the last line could have reached; two lines alone do not show it."""
    known = measures.right_edges.get(last.left_step)
    if line is block.lines[0]:
        return last.reach if known is None else known
    few = len(block.lines) <= _FEW
    return block.reach if known is None or not few else known


def _begins_anew(last: str, line: str) -> bool:
    """Whether the words themselves say that a line begins something new."""
    if begins_a_row(line):
        if _LEFT_OPEN.search(last):
            return False
        return begins_a_marked_row(line) or _ENDS_A_SENTENCE.search(last) is not None
    if _BULLET.match(line):
        return True
    if begins_with_a_number(line) or _DASH_ITEM.match(line):
        return _ENDS_A_SENTENCE.search(last) is not None
    return False


def _line_of(
    paragraph: Sequence[PrintedLine], heights_pt: Sequence[float], measures: Measures
) -> Line:
    writer = LineWriter()
    for line, following in zip(paragraph, [*paragraph[1:], None], strict=True):
        for gap, run in line.parts():
            if gap == "\t":
                writer.tab()
            elif gap:
                writer.space()
            text = run.text
            if run is line.runs[-1]:
                text = _end_of_line(text, following, measures)
            place = PagePlace(line.page, run.box, heights_pt[line.page - 1])
            writer.write(text, place)
    return writer.line(_heading_level(paragraph, measures))


def _end_of_line(text: str, following: PrintedLine | None, measures: Measures) -> str:
    """The last words of a line, with the white space or hyphen that joins the next."""
    text = text.rstrip()
    if following is None:
        return text.replace(HYPHEN, "-")
    if text.endswith("\u00ad"):
        return text
    before = _last_word(text[:-1])
    if not text.endswith((HYPHEN, "-")) or not before:
        return f"{text} "
    after = WORD.match(following.text.lstrip())
    keep = after is None or _keeps_hyphen(before, after[0], measures.words)
    return f"{text[:-1]}-" if keep else text[:-1]


def _last_word(text: str) -> str:
    found = re.search(r"[\w-]+$", text[-60:])
    return found[0] if found else ""


def _keeps_hyphen(before: str, after: str, words: frozenset[str]) -> bool:
    """Whether a word broken at its hyphen is written with it: "V-st", "ch-2"."""
    before, after = before.lower(), after.lower()
    if not (before[-1].isalpha() and after[0].isalpha()):
        return True
    if f"{before}-{after}" in words:
        return True
    return f"{before}{after}" not in words and len(before) == 1


def _heading_level(paragraph: Sequence[PrintedLine], measures: Measures) -> int:
    first = paragraph[0]
    text = first.text.strip()
    if begins_a_row(text) or sum(len(line.text) for line in paragraph) > _HEADING_LENGTH:
        return 0
    size = half_points(first.size)
    if size in measures.larger_sizes:
        return min(6, measures.larger_sizes.index(size) + 1)
    is_name = first.bold and len(paragraph) == 1 and not text.endswith((".", ","))
    return min(6, len(measures.larger_sizes) + 1) if is_name else 0
