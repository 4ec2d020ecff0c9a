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
from hookwright.notation.collected import Collected, OpenRow, vocabulary_of
from hookwright.notation.continued import explains_word, goes_on
from hookwright.notation.cursor import Cursor
from hookwright.notation.customs import terms_by_height
from hookwright.notation.definitions import words_for
from hookwright.notation.entries import all_definitions
from hookwright.notation.given import given_piece
from hookwright.notation.label_words import ROUND_NAMES, ROW_NAMES
from hookwright.notation.labels import read_label
from hookwright.notation.leaving import note_leaving, sizes_staying
from hookwright.notation.lexer import MOST_DIGITS, TOO_LARGE, Kind, marks_of, tokens_of
from hookwright.notation.lines import Line, is_line_mark, lines_of
from hookwright.notation.named_corners import corners_worked
from hookwright.notation.other_pieces import puts_together
from hookwright.notation.outside import (
    foundation_hint,
    multiples_of,
    outside_rows,
    statements_outside,
)
from hookwright.notation.rebuilding import moved
from hookwright.notation.sections import (
    Section,
    heading_name,
    is_heading,
    make_of,
    section_of,
    unemphasised,
)
from hookwright.notation.size_order import of_some_sizes
from hookwright.notation.sizes import is_size_line, read_size_prefix, size_names
from hookwright.notation.statements import terms_of
from hookwright.notation.stripe_tables import stripes_in_tables
from hookwright.notation.tree import (
    Chain,
    Claim,
    Definition,
    FinishOff,
    Label,
    Node,
    PartText,
    Pattern,
    Recall,
    Remark,
    RowText,
    Turn,
    Yarn,
)
from hookwright.notation.unlabelled import (
    OPTIONAL,
    is_lead,
    is_unlabelled_row,
    states_a_number,
)
from hookwright.notation.work import work_in
from hookwright.notation.yarn_names import yarn_names
from hookwright.regex import regex
from hookwright.source import Source, Span


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
    words = frozenset([token.text for token in tokens])
    draft = Collected(source, tokens, marks, lines_of(source, tokens, marks), words)
    draft.levels = levels or {}
    _limits(draft)
    draft.sizes = size_names(draft)
    draft.steps = _numbered_steps(draft)
    definitions = all_definitions(draft)
    draft.own_words = words_for(definitions)
    draft.vocabulary = vocabulary_of(draft.own_words)
    draft.yarns = yarn_names(draft)
    draft.alike.clear()  # what was read before these were known
    _walk(draft)
    return Reading(_pattern(draft, definitions), tuple(draft.findings))


def _limits(draft: Collected) -> None:
    """Numbers nobody can work are findings at their place."""
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


_WORK = frozenset("ch sc dc hdc tr htr rep repeat sl".split())
"""Words of which one stands in a row of a table, and none in a table of colours."""
_NUMBERED_NOTES = (Section.NOTES, Section.FINISHING)


def _numbered_steps(draft: Collected) -> bool:
    """Whether rows are told by bare numbers ("1. ", "2. ") and by nothing better.

    Numbered notes are kept as such, unless there is nothing else that could be rows.
    """
    steps: list[int] = []
    noted: list[int] = []
    better = 0
    notes = False
    for line in draft.lines:
        bare = draft.cursor(line.first)
        while is_line_mark(bare.token) and not _WORK.isdisjoint(
            token.text for token in draft.tokens_in(line)
        ):  # the bar before the first column of a table of rows
            bare.step()
        if draft.label(bare, steps=False) is not None:
            better += 1
        elif draft.label(bare, steps=True) is not None:
            (noted if notes else steps).append(line.first)
        else:
            section = section_of(line.text)
            heads = is_heading(draft.tokens_in(line), unemphasised(line.text), marked=False)
            notes = section in _NUMBERED_NOTES if section or heads else notes
    if len(steps) < _FEWEST_STEPS and not better:
        return len(steps) + len(noted) >= _FEWEST_STEPS
    draft.numbered_notes = frozenset(noted)
    return _FEWEST_STEPS <= len(steps) > better


_FEWEST_STEPS = 2


def _walk(draft: Collected) -> None:
    """Through the lines, collecting rows and what stands outside them."""
    opened: OpenRow | None = None
    for number, line in enumerate(draft.lines):
        label, at = _label_at(draft, line)
        if label is not None:
            _close(draft, opened)
            if _begins_again(draft, label) and draft.section_line is not None:
                _begin_part(draft, draft.section_line)
            draft.section = Section.ROWS
            opened = OpenRow(label, at, line.last, label.span.start)
            if not label.sizes:
                draft.left.clear()  # "All sizes:", or the row that they go on at
            note_leaving(draft, line)
        elif opened is not None and _goes_on(draft, opened, line):
            opened.last = line.last
        else:
            _close(draft, opened)
            opened = _other_line(draft, line, number)
            if opened is not None:
                draft.section = Section.ROWS
        opened = _inline_labels(draft, opened)
    _close(draft, opened)
    _end_part(draft)


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


def _label_at(draft: Collected, line: Line) -> tuple[Label | None, int]:
    """The label at the start of a line, and where its row begins."""
    cursor = draft.cursor(line.first)
    while is_line_mark(cursor.token):
        cursor.step()
    own = read_size_prefix(draft, cursor)
    steps = draft.steps and line.first not in draft.numbered_notes
    label = draft.label(cursor, steps=steps)
    if label is None or _only_speaks_of_rows(draft, label, cursor.at, line):
        return None, line.first
    if _MEASURE.match(draft.source.text, draft.tokens[cursor.at].start):
        return None, line.first
    own = own or _sizes_behind(draft, cursor) or own
    if own is not None:
        label = replace(label, sizes=own)
    elif draft.row_sizes or draft.left:
        staying = draft.row_sizes or sizes_staying(draft, label.numbers)
        label = replace(label, sizes=staying)
    return label, cursor.at


_MEASURE = regex(
    r"(?:\([^()\n]{1,40}\)\s*)?(?:(?:should )?(?:=|equals?|measures?|come to)\s*)?"
    r"(?:about |approx\.? |roughly )?\d+(?:[.,/]\d+)?(?: ?\d/\d)?[½¼¾⅓⅔⅛⅜⅝⅞]?\s?"
    r"(?:[\"″”]|(?:cm|mm|inch|inches|in)\b(?! (?:the|each|every|next|first|same|ring)))",
    re.IGNORECASE,
)
"""How rows go on that are only measured: "Rnds 1-6 (the base) = 6½ in across"."""


def _only_speaks_of_rows(draft: Collected, label: Label, at: int, line: Line) -> bool:
    """ "All WS rows: hold the yarn in front": no work is told, so it is no row."""
    if label.numbers or label.every not in ("odd", "even"):
        return False
    return not work_in(draft.read(OpenRow(label, at, line.last, line.start))[0])


def _sizes_behind(draft: Collected, cursor: Cursor) -> tuple[str, ...] | None:
    """ "Rnd 7, sizes M and L only:": whom the row is for, behind its number."""
    at = cursor.at
    named = _of_some_sizes(draft, cursor)
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


def _of_some_sizes(draft: Collected, cursor: Cursor) -> tuple[str, ...] | None:
    """ "Child: sc in each st.": whom some words of a row are for."""
    at = cursor.at
    named = read_size_prefix(draft, cursor, in_row=True) if draft.sizes else None
    marked = named and draft.tokens[cursor.at - 1].kind is Kind.COLON
    if not marked:
        cursor.at = at
    return named if marked else None


def _inline_labels(draft: Collected, opened: OpenRow | None) -> OpenRow | None:
    """Splits a row at the labels inside its lines."""
    while opened is not None:
        cut = _next_inline(draft, opened)
        if cut is None:
            return opened
        at, label, after = cut
        before = OpenRow(opened.label, opened.first, at, opened.start)
        if opened.label is None and draft.parts and is_lead(draft, before):
            draft.lead = before
        else:
            _close(draft, before)
        draft.section = Section.ROWS
        opened = OpenRow(label, after, opened.last, label.span.start)
    return opened


_BEFORE_LABEL = (Kind.STOP, Kind.CLOSE, Kind.LINE, Kind.COLON)
_BEGINS_LABEL = (Kind.WORD, Kind.ORDINAL)


def _next_inline(draft: Collected, opened: OpenRow) -> tuple[int, Label, int] | None:
    tokens = draft.tokens
    for before in draft.marks_in(opened, *_BEFORE_LABEL):
        i = before + 1
        if i == opened.last or tokens[i].kind not in _BEGINS_LABEL:
            continue
        cursor = draft.cursor(i)
        label = read_label(cursor, draft.source.text, inline=True)
        if label is not None:
            return i, label, cursor.at
        if opened.label is not None and opened.label.sizes:
            others = _of_some_sizes(draft, cursor)
            if others:
                return i, replace(opened.label, sizes=others), cursor.at
    return None


def _close(draft: Collected, opened: OpenRow | None) -> None:
    """Ends the row being collected and keeps it."""
    if opened is None or _only_names_rows(opened):
        return
    at = draft.tokens[opened.first].start
    if draft.lead is not None:
        at = min(at, draft.tokens[draft.lead.first].start)
    nodes, claims = draft.read(opened, at)
    last = draft.tokens[max(opened.first, opened.last) - 1]
    span = Span(opened.start, max(opened.start, last.end))
    if opened.label is not None and _stripe_line(draft, opened, nodes):
        return
    if draft.lead is not None:
        lead, _ = draft.read(draft.lead, at)
        nodes = (*lead, *nodes)
        draft.lead = None
    if opened.label is not None:
        own = opened.label.sizes
        _share_count(draft, opened.label, claims, at)
        nodes, claims = of_some_sizes((nodes, claims), own, draft.sizes)
    draft.rows.append(RowText(opened.label, nodes, claims, span, at))


def _share_count(
    draft: Collected, label: Label, claims: tuple[Claim, ...], at: int
) -> None:
    """ "Child: sc in each st. Adult: inc in each st. 48 (56)": the count of all of them."""
    before = draft.rows[-1] if draft.rows else None
    if before is None or before.label is None or before.claims or not label.sizes:
        return
    same = before.label.text == label.text and before.label.sizes
    numbers = {len(f.amount.values) for claim in claims for f in claim.figures}
    if same and numbers == {len(draft.sizes)}:
        draft.rows[-1] = replace(before, claims=moved(claims, at - before.at))


def _only_names_rows(opened: OpenRow) -> bool:
    """ "Joining round:" over "Rnd 11: ...": a title, for nothing stands behind it."""
    label = opened.label
    if label is None or label.numbers or label.next_rows is not None:
        return False
    return label.every in ("", "next") and opened.first >= opened.last


_ENDINGS = (Turn, FinishOff)


def _stripe_line(draft: Collected, opened: OpenRow, nodes: tuple[Node, ...]) -> bool:
    """ "Rows 3-4: Slate" tells the colour of rows; it is not a row."""
    label = opened.label
    if label is None or work_in(nodes) or any(isinstance(n, _ENDINGS) for n in nodes):
        return False
    words = [t for t in draft.tokens_in(opened) if t.kind not in (Kind.LINE, Kind.STOP)]
    if not words or len(words) > 3 or not all(t.text in draft.yarns for t in words):
        return False
    name = draft.source.text[words[0].start : words[-1].end]
    draft.stripes.extend((number, name) for number in label.numbers)
    return True


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
    marked = marked or _names_part(draft, line, number)
    if is_heading(tokens, unemphasised(line.text), marked=marked):
        draft.row_sizes = ()
        draft.left.clear()
        if _heads_part(draft, number) and not _heads_stretch(draft, line, number):
            _begin_part(draft, line)
        return None
    opened = OpenRow(None, line.first, line.last, line.start)
    label = _next_inline(draft, opened)
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


def _fastens_off(draft: Collected, line: Line) -> bool:
    """Whether a line only ends the row before it: "Fasten off.", on a line of its own."""
    nodes, claims = draft.read(line)
    if not draft.rows or claims or not nodes or not isinstance(nodes[0], FinishOff):
        return False
    return all(isinstance(node, (FinishOff, Remark)) for node in nodes)


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


_LONGEST_NAME = 4
"""How many words and marks the name of a part may have that is set as a sentence."""


def _names_part(draft: Collected, line: Line, number: int) -> bool:
    """Whether a line set apart is the name of a part, "Body.": its first row follows."""
    if not line.gap or number + 1 >= len(draft.lines) or draft.lines[number + 1].gap:
        return False
    words = [token for token in draft.tokens_in(line) if token.kind is Kind.WORD]
    named = line.text.rstrip().endswith(".") and line.text[:1].isupper()
    if not named or not 0 < len(words) <= _LONGEST_NAME or work_in(draft.read(line)[0]):
        return False
    label, _ = _label_at(draft, draft.lines[number + 1])
    return label is not None and label.numbers[:1] == (1,)


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


def _heads_part(draft: Collected, number: int) -> bool:
    """Whether a heading is followed by rows or a foundation within a few lines."""
    for line in draft.lines[number + 1 : number + 4]:
        if section_of(line.text) is not None:
            return False
        label, _ = _label_at(draft, line)
        if label is not None:
            return True
        nodes, _ = draft.read(line)
        if any(isinstance(node, Chain) for node in nodes[:3]) or _works_a_part(nodes):
            return True
        if is_heading(draft.tokens_in(line), line.text, marked=False):
            return False
    return False


def _works_a_part(nodes: tuple[Node, ...]) -> bool:
    """ "With A, work as for Back to end of Row 26": rows of another part begin this one."""
    first = next((node for node in nodes if not isinstance(node, Yarn)), None)
    return isinstance(first, Recall) and bool(first.part)


_UNSIGNED = 7
"""Where a heading without a number sign stands: under all that have one."""


def _heads_stretch(draft: Collected, line: Line, number: int) -> bool:
    """ "Shape armholes" under "BACK": a lower heading, and the rows go on counting."""
    if draft.heading is None or _rank(draft, line) <= _rank(draft, draft.heading):
        return False
    labels = [row.label for row in draft.rows if row.label and row.label.numbers]
    ahead = (_label_at(draft, other)[0] for other in draft.lines[number + 1 : number + 4])
    following = next((label for label in ahead if label is not None), None)
    if not labels or following is None or not following.numbers:
        return False
    return following.numbers[0] == labels[-1].numbers[-1] + 1


def _rank(draft: Collected, line: Line) -> int:
    """How far down a heading stands: by number signs; capitals are over small letters."""
    marks = draft.source.text[max(0, line.start - 8) : line.start].rpartition("\n")[2]
    signs = (marks + line.text).lstrip().partition(" ")[0].count("#")
    signs = draft.levels.get(line.start, signs) or _UNSIGNED
    name = heading_name(line.text)
    return signs * 2 + (not name.isupper())


def _begin_part(draft: Collected, line: Line) -> None:
    _end_part(draft, line.start)
    draft.lead = None  # it led to no row of this part
    draft.heading = line
    draft.section = Section.ROWS


def _end_part(draft: Collected, end: int | None = None) -> None:
    """Keeps the rows of a part under its heading; a heading without rows heads nothing."""
    line, draft.heading = draft.heading, None
    rows, draft.rows = draft.rows, []
    if not rows:
        return
    rows = _named_by_letter(draft, rows)
    name = heading_name(line.text) if line else ""
    span = Span(line.start, line.start + len(line.text)) if line and name else rows[0].span
    make = make_of(line.text) if line else 1
    last = _last_row(draft, rows[0].span.start, end)
    before = draft.parts[-1].rows[-1] if draft.parts else None
    several = before is not None and puts_together(
        draft.source.text,
        before.span.start if before.label is None else before.span.end,
        rows[0].span.start,
    )
    draft.parts.append(PartText(name, span, tuple(rows), make, last, several))


_LAST = (
    r"\b(?:row|rnd|round|r)\s?(\d{1,5})\s+(?:is|was|will\s+be)\s+(?:the|your)\s+"
    r"(?:very\s+)?(?:last|final)(?:\s+(?:row|rnd|round|one))?\s*(?:[.,;:!)\n]|$)"
)


_SAY_LAST = (frozenset(("is", "was", "be")), frozenset(("last", "final")))


def _last_row(draft: Collected, start: int, end: int | None) -> int:
    """ "Row 8 is the last row.": where rows end that are told for all odd ones."""
    if any(draft.words.isdisjoint(words) for words in _SAY_LAST):
        return 0
    text = draft.source.text[start:end]
    found = re.search(_LAST, text, re.IGNORECASE)
    return int(found[1]) if found else 0


def _named_by_letter(draft: Collected, rows: list[RowText]) -> list[RowText]:
    """ "R1" is a round, unless the part is turned or the text speaks of rows only."""
    of_rows = bool(draft.words & ROW_NAMES) and not draft.words & ROUND_NAMES
    nodes = (node for row in rows for node in row.body)
    turned = any(isinstance(node, Turn) and node.turned for node in nodes)
    return [_as_row(row) for row in rows] if of_rows or turned else rows


def _as_row(row: RowText) -> RowText:
    label = row.label
    if label is None or not re.match(r"[Rr][^A-Za-z]", label.text):
        return row
    return replace(row, label=replace(label, is_round=False))


def _pattern(draft: Collected, definitions: list[Definition]) -> Pattern:
    terms, said, _ = terms_of(draft.tokens)
    if not said and terms == "US" and not _has_us_words(draft):
        terms = (
            terms_by_height(row.body for part in draft.parts for row in part.rows) or terms
        )
    statements = tuple(statements_outside(draft))
    defined = (*definitions, *corners_worked(draft.parts))
    return Pattern(
        with_begun_together(draft.parts, statements),
        statements,
        tuple(_in_terms(one, terms) for one in defined),
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
