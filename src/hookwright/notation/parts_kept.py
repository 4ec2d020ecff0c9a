"""What a part keeps of its heading and rows, from where it begins to where it ends."""

from __future__ import annotations

import re

from msgspec.structs import replace

from hookwright.notation.collected import Collected
from hookwright.notation.label_words import ROUND_NAMES, ROW_NAMES
from hookwright.notation.lines import Line
from hookwright.notation.other_pieces import puts_together
from hookwright.notation.sections import Section, heading_name, make_of
from hookwright.notation.tree import PartText, RowText, Turn
from hookwright.source import Span


def begin_part(draft: Collected, line: Line) -> None:
    """A part under a heading, from here on; what was collected before it is kept."""
    end_part(draft, line.start)
    draft.lead = None  # it led to no row of this part
    draft.heading = line
    draft.section = Section.ROWS


def end_part(draft: Collected, end: int | None = None) -> None:
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


_ENDS_AFTER = (
    r"\bafter\s+(?:row|rnd|round|r)\s?(\d{1,5})\s*,?\s*"
    r"(?:fasten|finish|cut|break|end|stop)\b"
)
_SAY_LAST = (frozenset(("is", "was", "be")), frozenset(("last", "final")))


def _last_row(draft: Collected, start: int, end: int | None) -> int:
    """ "Row 8 is the last row.", "After Row 8, fasten off.": where all odd ones end."""
    text = draft.source.text[start:end]
    told = not any(draft.words.isdisjoint(words) for words in _SAY_LAST)
    found = re.search(_LAST, text, re.IGNORECASE) if told else None
    if found is None and "after" in draft.words:
        found = re.search(_ENDS_AFTER, text, re.IGNORECASE)
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
