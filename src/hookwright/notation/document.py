"""A whole draft as a pattern: its parts, rows, conventions, definitions, sizes and colours.

A draft is read line by line. A label begins a row, at the start of a line or inside a
paragraph; what follows belongs to it until the next label, an unlabelled row, a heading or
a gap. Everything else is searched for conventions, definitions and the foundation.
"""

from __future__ import annotations

import re
from collections.abc import Mapping

from msgspec import Struct
from msgspec.structs import replace

from hookwright.finding import Finding, Severity
from hookwright.notation.begun_together import with_begun_together
from hookwright.notation.block_in_block import into_their_spaces
from hookwright.notation.blocks_told import with_blocks
from hookwright.notation.collected import Collected, OpenRow, vocabulary_of
from hookwright.notation.continued import explains_word, goes_on
from hookwright.notation.customs import terms_by_height
from hookwright.notation.definitions import words_for
from hookwright.notation.entries import all_definitions
from hookwright.notation.given import given_piece
from hookwright.notation.leaving import note_leaving
from hookwright.notation.lexer import MOST_DIGITS, TOO_LARGE, Kind, marks_of, tokens_of
from hookwright.notation.lines import Line, is_line_mark, lines_of
from hookwright.notation.named_corners import CORNER, corners_worked
from hookwright.notation.outside import (
    foundation_hint,
    multiples_of,
    outside_rows,
    statements_outside,
)
from hookwright.notation.part_headings import heads_part, heads_stretch, names_part
from hookwright.notation.parts_kept import begin_part, end_part
from hookwright.notation.plain_stitches import plain_words
from hookwright.notation.row_begins import (
    count_before_label,
    label_at,
    next_inline,
    numbered_steps,
)
from hookwright.notation.rows_kept import keep_row
from hookwright.notation.rows_of_kinds import works_kinds
from hookwright.notation.sections import Section, is_heading, section_of, unemphasised
from hookwright.notation.sizes import is_size_line, read_size_prefix, size_names
from hookwright.notation.stripe_tables import stripes_in_tables
from hookwright.notation.terms_said import terms_of
from hookwright.notation.times_signs import read_times_signs
from hookwright.notation.told_units import with_told_unit
from hookwright.notation.tree import Definition, FinishOff, Label, Pattern, Remark
from hookwright.notation.unlabelled import (
    OPTIONAL,
    is_lead,
    is_unlabelled_row,
    lead_behind_end,
    states_a_number,
)
from hookwright.notation.work import work_in
from hookwright.notation.yarn_names import yarn_names
from hookwright.regex import regex
from hookwright.source import Source


class Reading(Struct, frozen=True):
    """A pattern as read, with what was found wrong in reading it."""

    pattern: Pattern
    findings: tuple[Finding, ...]


def read_pattern(source: Source, levels: Mapping[int, int] | None = None) -> Reading:
    """Reads a draft. Never fails: what is not understood is a finding or a remark.

    Args:
        source: Its text.
        levels: How far down its headings stand, by the place their words begin, where the
            kind of file tells that.
    """
    tokens = tokens_of(source.text)
    marks = marks_of(tokens)
    read_times_signs(tokens, marks)
    words = frozenset([token.text for token in tokens])
    draft = Collected(source, tokens, marks, lines_of(source, tokens, marks), words)
    draft.levels = levels or {}
    _limits(draft)
    draft.sizes = size_names(draft)
    draft.steps = numbered_steps(draft)
    definitions = all_definitions(draft)
    draft.own_words = {**plain_words(tokens, words), **words_for(definitions)}
    draft.vocabulary = vocabulary_of(draft.own_words)
    draft.yarns = yarn_names(draft)
    draft.alike.clear()  # what was read before these were known
    _walk(draft)
    return Reading(_pattern(draft, definitions), tuple(draft.findings))


def _limits(draft: Collected) -> None:
    """Numbers nobody can work are findings at their place."""
    if not any(len(word) > MOST_DIGITS for word in draft.words):
        return
    for token in draft.tokens:
        if token.value == TOO_LARGE and token.kind in (Kind.NUMBER, Kind.ORDINAL):
            draft.findings.append(
                Finding(
                    "unknown-word", Severity.ERROR, token.span,
                    f"This number has more than {MOST_DIGITS} digits.",
                    "Check the number: it cannot be worked.",
                )
            )  # fmt: skip
            if len(draft.findings) > 20:
                return


def _walk(draft: Collected) -> None:
    """Through the lines, collecting rows and what stands outside them."""
    opened: OpenRow | None = None
    for number, line in enumerate(draft.lines):
        label, at = label_at(draft, line)
        if label is not None:
            keep_row(draft, opened)
            if _begins_again(draft, label) and draft.section_line is not None:
                begin_part(draft, draft.section_line)
            draft.section = Section.ROWS
            count = count_before_label(draft, line)
            opened = OpenRow(label, at, line.last, label.span.start, count=count)
            if not label.sizes:
                draft.left.clear()  # "All sizes:", or the row that they go on at
            note_leaving(draft, line)
        elif opened is not None and _goes_on(draft, opened, line):
            opened.last = line.last
        else:
            keep_row(draft, opened)
            opened = _rows_of_kinds(draft, line) or _other_line(draft, line, number)
            if opened is not None:
                draft.section = Section.ROWS
        opened = _inline_labels(draft, opened)
    keep_row(draft, opened)
    end_part(draft)


def _goes_on(draft: Collected, opened: OpenRow, line: Line) -> bool:
    """Whether a line is more of the row above; "12 mths only:" says whom others are for."""
    cursor = draft.cursor(line.first)
    alone = draft.sizes and read_size_prefix(draft, cursor) is not None
    return not (alone and cursor.at >= line.last) and goes_on(draft, opened, line)


def _begins_again(draft: Collected, label: Label) -> bool:
    """Whether a row is the first of an edging told among the finishing."""
    after = draft.section is Section.FINISHING and bool(draft.rows)
    return after and label.numbers[:1] == (1,)


_WORDS_BEFORE_LABEL = 4
"""How many words and marks, "Pink.", may stand on a line before the label of its row."""


def _inline_labels(draft: Collected, opened: OpenRow | None) -> OpenRow | None:
    """Splits a row at the labels inside its lines."""
    while opened is not None:
        cut = next_inline(draft, opened)
        if cut is None:
            return opened
        at, label, after = cut
        before = OpenRow(opened.label, opened.first, at, opened.start, count=opened.count)
        if opened.label is None and draft.parts and is_lead(draft, before):
            draft.lead = before
        else:
            keep_row(draft, before)
        draft.section = Section.ROWS
        opened = OpenRow(label, after, opened.last, label.span.start)
    return opened


def _only_tells(draft: Collected, line: Line) -> bool:
    """Whether a line only says whom rows are for, or how many stitches there are."""
    sent = note_leaving(draft, line)
    if _told_of_sizes(draft, line) or states_a_number(line.text):
        return True
    return sent and not work_in(draft.read(line)[0])


def _other_line(draft: Collected, line: Line, number: int) -> OpenRow | None:
    """A line that belongs to no row: a heading, a note, or instructions without a label."""
    tokens = draft.tokens_in(line)
    if _only_tells(draft, line):
        return None
    section = section_of(line.text)
    if section is not None:
        draft.section, draft.section_line = section, line
        return None
    if is_size_line(line.text):
        return None
    marked = draft.source.text[max(0, line.start - 2) : line.start].strip().startswith(
        "#"
    ) or (line.text.startswith("#"))
    marked = marked or names_part(draft, line, number)
    if is_heading(tokens, unemphasised(line.text), marked=marked):
        draft.row_sizes = ()
        draft.left.clear()
        if heads_part(draft, number) and not heads_stretch(draft, line, number):
            begin_part(draft, line)
        return None
    opened = OpenRow(None, line.first, line.last, line.start)
    label = next_inline(draft, opened)
    labelled = label is not None and label[0] - line.first <= _WORDS_BEFORE_LABEL
    if labelled or _fastens_off(draft, line):
        return opened
    if (draft.rows or draft.parts) and is_lead(draft, line):
        draft.lead = line
        return None
    if explains_word(draft, line):
        return None
    if not OPTIONAL.search(line.text) and is_unlabelled_row(draft, line):
        return OpenRow(None, line.first, line.last, line.start)
    return _first_inline(draft, line, label)


def _rows_of_kinds(draft: Collected, line: Line) -> OpenRow | None:
    """ "Size M only: work 5 plain rnds, then 1 decrease rnd.", below the rows of a name."""
    if not draft.rows:
        return None
    cursor = draft.cursor(line.first)
    while is_line_mark(cursor.token):
        cursor.step()
    own = read_size_prefix(draft, cursor) if draft.sizes else None
    while own is not None and is_line_mark(cursor.token):
        cursor.step()
    if own is None:
        cursor.at = line.first
    if cursor.at >= line.last or not cursor.is_word("work"):
        return None
    start = draft.tokens[cursor.at].start
    opened = OpenRow(None, cursor.at, line.last, start, own or draft.row_sizes)
    return opened if works_kinds(draft.read(opened)[0]) else None


def _fastens_off(draft: Collected, line: Line) -> bool:
    """Whether a line only ends the row before it: "Fasten off.", on a line of its own.

    It may lead to the next one behind that: "Fasten off and rejoin yarn in the 6th st."
    """
    nodes, claims = draft.read(line)
    if claims or not nodes or not isinstance(nodes[0], FinishOff):
        return False
    if lead_behind_end(nodes):
        return bool(draft.rows or draft.parts)
    ended = all(isinstance(node, (FinishOff, Remark)) for node in nodes)
    return bool(draft.rows) and ended


def _first_inline(
    draft: Collected, line: Line, cut: tuple[int, Label, int] | None
) -> OpenRow | None:
    """The first row inside a paragraph whose other words are no row."""
    if cut is None or draft.section is Section.NOTES:
        return None
    _, label, after = cut
    opened = OpenRow(label, after, line.last, label.span.start)
    begins = label.numbers[:1] == (1,) or bool(draft.rows)
    return opened if begins and work_in(draft.read(opened)[0]) else None


_LONGEST_LEAD = 14
_STOPS = frozenset("stop stops stopping finish finishes finished done ends".split())


_GOES_ON = regex(
    r"\b(?:go|skip|move|proceed|jump|continue|pass)(?: on| ahead| straight)? to\b",
    re.IGNORECASE,
)


def _told_of_sizes(draft: Collected, line: Line) -> bool:
    """ "Sizes M and L only:" on a line of its own, for rows after it; or a list of them."""
    cursor = draft.cursor(line.first)
    while is_line_mark(cursor.token):
        cursor.step()
    own = read_size_prefix(draft, cursor) if draft.sizes else None
    if own is None:
        return False
    rest = draft.tokens[cursor.at : line.last]
    if any(draft.own_letters(token) in draft.sizes for token in rest):
        return True
    leaves = _GOES_ON.search(line.text)  # "Size S: go on to Body"
    if leaves or not _STOPS.isdisjoint(token.text for token in rest):
        return True  # "Size S stops here": the labels after it say whom they are for
    colon = draft.tokens[line.last - 1].kind is Kind.COLON
    if len(rest) > (_LONGEST_LEAD if colon else _LONGEST_LEAD // 2):
        return False
    draft.row_sizes = own
    if not own:
        draft.left.clear()
    return True


def _pattern(draft: Collected, definitions: list[Definition]) -> Pattern:
    terms, said, _ = terms_of(draft.tokens)
    if not said and terms == "US" and not _has_us_words(draft):
        terms = (
            terms_by_height(row.body for part in draft.parts for row in part.rows) or terms
        )
    statements = tuple(statements_outside(draft))
    unnamed = CORNER in draft.words and CORNER not in draft.own_words
    corners = tuple(corners_worked(draft.parts)) if unnamed else ()
    counted = with_told_unit(draft.parts, draft.source.text, draft.own_words)
    parts, known = with_blocks(
        with_begun_together(counted, statements),
        [_in_terms(definition, terms) for definition in (*definitions, *corners)],
    )
    return Pattern(
        into_their_spaces(parts, known),
        statements,
        known,
        terms,
        said,
        draft.sizes,
        multiples_of(draft),
        (*draft.stripes, *stripes_in_tables(draft.source.text)),
        foundation_hint=foundation_hint(draft, statements),
        given=given_piece(outside_rows(draft), draft.own_words, max(1, len(draft.sizes))),
    )


_FROM_US = {"sc": "dc", "hdc": "htr", "dc": "tr", "tr": "dtr", "dtr": "trtr"}


def _in_terms(definition: Definition, terms: str | None) -> Definition:
    """A definition with its stitch in the terms of the pattern: motions tell a US one."""
    if terms != "UK" or not definition.in_motions:
        return definition
    # As where definitions are read: few patterns tell motions.
    from hookwright.notation.hook_motions import read_motions  # noqa: PLC0415

    stitch = definition.stitch
    post = stitch[:2] if stitch[:2] in ("fp", "bp") else ""
    motions = read_motions(definition.words, terms="UK") if definition.words else None
    base = stitch.removeprefix(post) if motions is None else motions.base
    return replace(definition, stitch=post + _FROM_US.get(base, base))


def _has_us_words(draft: Collected) -> bool:
    return bool(draft.words & {"sc", "hdc", "esc", "scblo", "sc2tog", "fpsc"})
