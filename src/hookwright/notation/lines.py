"""Where does each line of a draft begin, and what kind of line is it on its face?"""

from __future__ import annotations

import re

from msgspec import Struct

from hookwright.notation.label_words import CALLED
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.row_numbers import ROW_WORDS
from hookwright.notation.sections import Section, section_of
from hookwright.regex import regex
from hookwright.source import Source, Span

LONGEST_LINE = 100_000


class Line(Struct, frozen=True):
    """One line of the draft: its tokens from `first` up to `last`.

    Attributes:
        text: Its words, cut at a length nobody writes.
        start: Where it begins in the draft.
        gap: Whether an empty line stands before it.
    """

    first: int
    last: int
    text: str
    start: int
    gap: bool


def lines_of(
    source: Source, tokens: list[Token], marks: dict[Kind, list[int]]
) -> list[Line]:
    """The lines of a draft that hold anything, each kept whole where it is broken off."""
    result: list[Line] = []
    first = 0
    gap = True
    for i in (*marks[Kind.LINE], *marks[Kind.END]):
        token = tokens[i]
        if i > first and _breaks_off(source, tokens, i):
            continue
        if i > first:
            start = tokens[first].start
            text = source.text[start : tokens[i - 1].end]
            head = _heading_before(source, tokens, first, i)
            if head is not None:
                result.append(
                    Line(
                        first,
                        head,
                        source.slice(Span(start, tokens[head - 1].end)),
                        start,
                        gap,
                    )
                )
                first, start, gap = head, tokens[head].start, False
                text = source.text[start : tokens[i - 1].end]
            result.append(Line(first, i, text[:LONGEST_LINE], start, gap))
            gap = token.value > 1
        elif token.value > 1:
            gap = True
        first = i + 1
    return result


_LEFT_OPEN = frozenset("the a an of into each every and beside".split())


def _breaks_off(source: Source, tokens: list[Token], at: int) -> bool:
    """Whether a line ends in the middle of a sentence that the next line goes on with."""
    following = tokens[min(at + 1, len(tokens) - 1)]
    if tokens[at].value == 1 and tokens[at - 1].text in ROW_WORDS:
        return following.kind is Kind.NUMBER  # "Round", and its number on the next line
    if (
        tokens[at].value == 1
        and tokens[at - 1].text in _LEADS_ON
        and _names_rows(tokens, at + 1)
    ):
        return True
    left_open = tokens[at - 1].kind is Kind.COMMA or tokens[at - 1].text in _LEFT_OPEN
    if tokens[at].value != 1 or not left_open:
        return False
    return source.text[following.start : following.start + 1].islower()


_LEADS_ON = frozenset(
    "over between of to from in on at after before until with beside through and into "
    "than the".split()
)


def _names_rows(tokens: list[Token], at: int) -> bool:
    """Whether rows are only named here, and not begun: "sew it over / Rnds 10-12, and"."""
    named = at < len(tokens) and tokens[at].text in CALLED
    if not named or tokens[at + 1].kind is not Kind.NUMBER:
        return False
    last = at + 1
    while (
        tokens[last + 1].kind in (Kind.NUMBER, Kind.DASH) or tokens[last + 1].text == "to"
    ):
        last += 1
    return tokens[last + 1].kind in (Kind.COMMA, Kind.STOP, Kind.SEMICOLON, Kind.WORD)


# To look a member up in its enumeration takes as long as a call: these are asked for at
# every line.
_STOP, _COLON, _WORD = Kind.STOP, Kind.COLON, Kind.WORD


def _heading_before(
    source: Source, tokens: list[Token], first: int, last: int
) -> int | None:
    """Where the words after "Directions:" begin, if a line opens with such a heading.

    So does a name in capitals that a stop and a dash set off: "SHELL EDGING.--Chain 14."
    """
    for i in range(first, min(last - 2, first + 8)):
        if tokens[i].kind is _STOP and tokens[i + 1].kind is Kind.DASH:
            name = source.text[tokens[first].start : tokens[i].start]
            return i + 2 if name.isupper() and len(name) > 3 else None
    for i in range(first, min(last - 1, first + 4)):
        if tokens[i].kind is _COLON:
            name = source.text[tokens[first].start : tokens[i].start]
            return i + 1 if section_of(name) is Section.ROWS else None
        if tokens[i].kind is not _WORD:
            return None
    return None


_MARKS = ("•", "·", "#", "|")


def is_line_mark(token: Token) -> bool:
    """Whether a token marks an entry of a list, "• V = ...", and says nothing itself."""
    return token.kind in (Kind.STAR, Kind.DASH) or token.text in _MARKS


def is_section(line: Line) -> bool:
    """Whether a line heads a section."""
    return section_of(line.text) is not None


_NOTE = regex(
    r"^\s*(?:note|tip|hint|nb|n\.b\.|remember|stuff|eyes|pop|optional|important)\b",
    re.IGNORECASE,
)


def is_note(line: Line) -> bool:
    """Whether a line is advice, or work that is no crochet."""
    return bool(_NOTE.match(line.text))


_TABLE = regex(r"^\s*\d+\s*(?:[-–]\s*\d+)?\s+[A-Z][a-z]+")


def is_table_row(line: Line) -> bool:
    """Whether a line lists the colour of rows: "3-4 Slate"."""
    return bool(_TABLE.match(line.text)) and len(line.text) < 60
