"""Where a row begins: its label at the start of a line, or inside a paragraph."""

from __future__ import annotations

import re
from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.claims import read_claim
from hookwright.notation.collected import Collected, OpenRow
from hookwright.notation.cursor import Cursor
from hookwright.notation.label_words import CALLED
from hookwright.notation.labels import read_label
from hookwright.notation.leaving import sizes_staying
from hookwright.notation.lexer import Kind, Token
from hookwright.notation.lines import Line, is_line_mark
from hookwright.notation.sections import Section, is_heading, section_of, unemphasised
from hookwright.notation.sizes import names_of_sizes, read_size_prefix
from hookwright.notation.tree import Claim, Label
from hookwright.notation.work import work_in
from hookwright.regex import regex

_WORK = frozenset("ch sc dc hdc tr htr rep repeat sl inc dec mr".split())
"""Words of which one stands in a row of a table, and none in a table of colours."""


_NUMBERED_NOTES = (Section.NOTES, Section.FINISHING)
_FEWEST_STEPS = 2


def numbered_steps(draft: Collected) -> bool:
    """Whether rows are told by bare numbers ("1. ", "2. ") and by nothing better.

    Numbered notes are kept as such, unless there is nothing else that could be rows; where
    other rows are told better, only what counts on from 1 and is work is one of them.
    """
    steps: list[tuple[Line, Label]] = []
    noted: list[int] = []
    better = within = 0
    notes = False
    for line in draft.lines:
        bare = draft.cursor(line.first)
        while is_line_mark(bare.token) and not _WORK.isdisjoint(
            token.text for token in draft.tokens_in(line)
        ):  # the bar before the first column of a table of rows
            bare.step()
        in_step = _in_step(draft, bare) is not None
        within += in_step
        if in_step or draft.label(bare, steps=False) is not None:
            better += 1
        elif (label := draft.label(bare, steps=True)) is not None:
            if notes:
                noted.append(line.first)
            else:
                steps.append((line, label))
        else:
            section = section_of(line.text)
            heads = is_heading(draft.tokens_in(line), unemphasised(line.text), marked=False)
            notes = section in _NUMBERED_NOTES if section or heads else notes
    draft.within_steps = within >= _FEWEST_STEPS
    if len(steps) < _FEWEST_STEPS and not better:
        return len(steps) + len(noted) >= _FEWEST_STEPS
    if len(steps) <= better:
        rows = _counted_on(draft, steps)
        noted += [line.first for line, _ in steps if line.first not in rows]
        draft.numbered_notes = frozenset(noted)
        return bool(rows)
    draft.numbered_notes = frozenset(noted)
    return len(steps) >= _FEWEST_STEPS


def _counted_on(draft: Collected, steps: list[tuple[Line, Label]]) -> set[int]:
    """Where the lines begin that count on from 1 and each of which tells work."""
    rows: set[int] = set()
    run: list[int] = []
    last = 0
    for line, label in steps:
        works = not _WORK.isdisjoint(token.text for token in draft.tokens_in(line))
        begins, follows = label.numbers[:1] == (1,), label.numbers[:1] == (last + 1,)
        if not works or not (begins or follows):
            run, last = [], 0
            continue
        run = [line.first] if begins else [*run, line.first]
        last = label.numbers[-1]
        if len(run) >= _FEWEST_COUNTED:
            rows.update(run)
    return rows


_FEWEST_COUNTED = 3
"""So many steps of work that count on are rows, though others are told better."""


def count_before_label(draft: Collected, line: Line) -> Claim | None:
    """ "[18] Rnd 3: ...": the count that stands before the label of its row.

    "(3) Rnd 3: ..." is the number of a step.
    """
    cursor = draft.cursor(line.first)
    while is_line_mark(cursor.token):
        cursor.step()
    label, claim = _behind_count(draft, cursor)
    amount = claim.figures[0].amount if claim is not None else None
    stepped = label is None or amount is None or amount.values == label.numbers[:1]
    return None if stepped else claim


def _behind_count(draft: Collected, cursor: Cursor) -> tuple[Label | None, Claim | None]:
    """The label behind a count in brackets, and the count; the place is kept if none is."""
    start = cursor.at
    claim = read_claim(cursor) if cursor.take_kind(Kind.OPEN) else None
    closed = claim is not None and cursor.take_kind(Kind.CLOSE)
    if closed:
        cursor.take_kind(Kind.DASH, Kind.COLON, Kind.STOP)
    label = draft.label(cursor, steps=False) if closed else None
    if label is None or not label.numbers:
        cursor.at = start
        return None, None
    return label, claim


def label_at(draft: Collected, line: Line) -> tuple[Label | None, int]:
    """The label at the start of a line, and where its row begins."""
    cursor = draft.cursor(line.first)
    while is_line_mark(cursor.token):
        cursor.step()
    own = read_size_prefix(draft, cursor)
    if own is None:
        own = _sizes_before_label(draft, cursor)
    steps = draft.steps and line.first not in draft.numbered_notes
    label = _in_step(draft, cursor) or draft.label(cursor, steps=steps)
    label = label or _behind_count(draft, cursor)[0]
    if label is None or _only_speaks_of_rows(draft, label, cursor.at, line):
        return None, line.first
    if _heads_table(draft, cursor.at, line):
        return None, line.first
    if _is_measured(draft.source.text, draft.tokens[cursor.at].start):
        return None, line.first
    if not label.numbers and _GAUGE.match(draft.source.text, draft.tokens[cursor.at].start):
        return None, line.first
    own = own or _sizes_behind(draft, cursor) or _sizes_in_label(draft, cursor) or own
    if own is not None:
        label = replace(label, sizes=own)
    elif draft.row_sizes or draft.left:
        staying = draft.row_sizes or sizes_staying(draft, label.numbers)
        label = replace(label, sizes=staying)
    _pass_end_of_bold(draft, line, cursor)
    return label, cursor.at


def _pass_end_of_bold(draft: Collected, line: Line, cursor: Cursor) -> None:
    """The second stars of "**Rnd 1:**" in plain text: they repeat nothing."""
    opened, closed = draft.tokens[line.first], cursor.token
    bold = opened.kind is Kind.STAR and opened.value > 1
    behind = cursor.at < line.last
    if bold and behind and closed.kind is Kind.STAR and closed.value == opened.value:
        cursor.step()


def _sizes_before_label(draft: Collected, cursor: Cursor) -> tuple[str, ...] | None:
    """ "Woman and Man: Rnd 6:": whom the row is for, with a colon for "only"."""
    at = cursor.at
    named = of_these_sizes(draft, cursor)
    behind = cursor.at
    labelled = named and draft.label(cursor, steps=False) is not None
    cursor.at = behind if labelled else at
    return named if labelled else None


def _in_step(draft: Collected, cursor: Cursor) -> Label | None:
    """ "7. 6th to 10th rounds:": the row that a numbered step of the work tells."""
    at = cursor.at
    numbered = cursor.is_kind(Kind.NUMBER) and not cursor.token.spelled
    if numbered and cursor.peek().kind in (Kind.STOP, Kind.CLOSE):
        cursor.at += 2
        label = read_label(cursor, draft.source.text, inline=True)
        if label is not None and label.numbers:
            return label
    cursor.at = at
    return None


_MEASURE = regex(
    r"(?:\([^()\n]{1,40}\)\s*)?(?:(?:should )?(?:=|equals?|measures?|come to)\s*)?"
    r"(?:about |approx\.? |roughly )?\d+(?:[.,/]\d+)?(?: ?\d/\d)?[½¼¾⅓⅔⅛⅜⅝⅞]?\s?"
    r"(?:[\"″”]|(?:cm|mm|inch|inches|in)\b(?! (?:the|each|every|next|first|same|ring)))",
    re.IGNORECASE,
)
"""How rows go on that are only measured: "Rnds 1-6 (the base) = 6½ in across"."""


_GAUGE = regex(
    r"\d+(?:[.,]\d+)? ?[A-Za-z]{2,8}\b(?: (?:and|x|by) \d+ (?:rows?|rnds?|rounds?))?"
    r"\s*(?:=|to|are|measures?|over|per)\s*\d+(?:[.,]\d+)?\s?(?:[\"″”]|(?:cm|in|inch(?:es)?)\b)",
    re.IGNORECASE,
)
"""How a part goes on of which the gauge is told: "Base: 15 tr = 10 cm"."""
_MEASURES = tuple("( = should equal measure come about approx roughly".split())
"""How it begins, if not with a digit."""


def _is_measured(text: str, at: int) -> bool:
    begins = text[at : at + 1].isdigit() or text[at : at + 8].lower().startswith(_MEASURES)
    return begins and _MEASURE.match(text, at) is not None


def _only_speaks_of_rows(draft: Collected, label: Label, at: int, line: Line) -> bool:
    """ "All WS rows: hold the yarn in front": no work is told, so it is no row."""
    if label.numbers or label.every not in ("odd", "even"):
        return False
    return not work_in(draft.read(OpenRow(label, at, line.last, line.start))[0])


def _heads_table(draft: Collected, at: int, line: Line) -> bool:
    """ "| Row 6 | Row 9 | Row 12 |": the head of a table of what some rows come to."""
    cursor = draft.cursor(at)
    barred = draft.tokens[at - 1].text == "|"
    while cursor.at < line.last:
        if cursor.token.text == "|":
            cursor.step()
        elif draft.label(cursor, steps=False) is None:
            return False
    return barred and cursor.at > at


def _sizes_behind(draft: Collected, cursor: Cursor) -> tuple[str, ...] | None:
    """ "Rnd 7, sizes M and L only:": whom the row is for, behind its number."""
    at = cursor.at
    named = of_these_sizes(draft, cursor)
    if named:
        return named
    opened = cursor.take_kind(Kind.COMMA) or cursor.take_kind(Kind.OPEN)
    named = read_size_prefix(draft, cursor) if opened and draft.sizes else None
    if not named:
        cursor.at = at
        return None
    cursor.take_kind(Kind.CLOSE)
    cursor.take_kind(Kind.COLON)
    return named


def _sizes_in_label(draft: Collected, cursor: Cursor) -> tuple[str, ...] | None:
    """ "Rnd 7 (M and L):": whom the row is for, in a bracket that tells nothing else.

    Numbers alone are one for each size, "Rows 7 (9, 11):", and "(M)" may be a yarn.
    """
    closed = cursor.at - 1
    while closed and draft.tokens[closed].kind in (Kind.COLON, Kind.STOP, Kind.DASH):
        closed -= 1
    if not draft.sizes or draft.tokens[closed].kind is not Kind.CLOSE:
        return None
    opened = closed
    while opened and draft.tokens[opened].kind is not Kind.OPEN:
        opened -= 1
    words = [token.text for token in draft.tokens[opened + 1 : closed]]
    inside = draft.cursor(opened + 1)
    named = names_of_sizes(draft, inside)
    told = any(word.isalpha() and len(word) > 1 and word != "and" for word in words)
    told = told or (len(named) > 1 and all(map(str.isalpha, named)))
    some = told and inside.at == closed and 0 < len(named) < len(draft.sizes)
    return named if some else None


def of_these_sizes(draft: Collected, cursor: Cursor) -> tuple[str, ...] | None:
    """ "Child: sc in each st.": whom some words of a row are for."""
    at = cursor.at
    named = read_size_prefix(draft, cursor, in_row=True) if draft.sizes else None
    marked = named and draft.tokens[cursor.at - 1].kind is Kind.COLON
    if not marked:
        cursor.at = at
    return named if marked else None


def _ends_list(tokens: Sequence[Token], at: int) -> bool:
    """Whether a bracket that closes here ends with the number of a size."""
    return at > 0 and tokens[at].kind is Kind.CLOSE and tokens[at - 1].kind is Kind.NUMBER


_BEFORE_LABEL = (Kind.STOP, Kind.CLOSE, Kind.LINE, Kind.COLON)
_BEGINS_LABEL = (Kind.WORD, Kind.ORDINAL)


_FAR_COMMA = 6
"""So many words and marks a label has at most, as in "R2 thru R4,"."""


def _label_before_comma(
    draft: Collected, cursor: Cursor, at: int, before: int
) -> Label | None:
    """ "... ch 10. R1, sc 9": a label that begins a sentence, and a comma behind it."""
    tokens = draft.tokens
    if tokens[before].kind is not Kind.STOP or tokens[at].text not in CALLED:
        return None
    near = range(at + 1, min(at + _FAR_COMMA, len(tokens)))
    comma = next((i for i in near if tokens[i].kind is Kind.COMMA), None)
    if comma is None:
        return None
    marked = replace(tokens[comma], kind=Kind.COLON, text=":")
    other = replace(cursor, tokens=(*tokens[:comma], marked, *tokens[comma + 1 :]), at=at)
    label = read_label(other, draft.source.text, inline=True)
    if label is None or not label.numbers or other.at != comma + 1:
        return None
    cursor.at = other.at
    return label


def next_inline(draft: Collected, opened: OpenRow) -> tuple[int, Label, int] | None:
    """The first label inside the lines of a row: its token, itself, where its work is."""
    tokens = draft.tokens
    for before in draft.marks_in(opened, *_BEFORE_LABEL):
        i = before + 1
        if i == opened.last or tokens[i].kind not in _BEGINS_LABEL:
            continue
        cursor = draft.cursor(i)
        label = read_label(cursor, draft.source.text, inline=True)
        label = label or _label_before_comma(draft, cursor, i, before)
        if label is not None and _is_measured(draft.source.text, tokens[cursor.at].start):
            continue
        if label is not None and not label.numbers and _ends_list(tokens, before):
            continue  # "work 5 (6, 6) plain rnds."
        if label is not None:
            return i, label, cursor.at
        if opened.label is not None and opened.label.sizes:
            others = of_these_sizes(draft, cursor)
            if others:
                return i, replace(opened.label, sizes=others), cursor.at
    return None
