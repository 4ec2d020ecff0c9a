"""Which headings begin a part, and which only a stretch of the part above them."""

from __future__ import annotations

from hookwright.notation.collected import Collected
from hookwright.notation.lexer import Kind
from hookwright.notation.lines import Line
from hookwright.notation.row_begins import label_at
from hookwright.notation.sections import heading_name, is_heading, section_of
from hookwright.notation.tree import Chain, Node, Recall, Yarn
from hookwright.notation.work import work_in

_LONGEST_NAME = 4
"""How many words and marks the name of a part may have that is set as a sentence."""


def names_part(draft: Collected, line: Line, number: int) -> bool:
    """Whether a line set apart is the name of a part, "Body.": its first row follows."""
    if not line.gap or number + 1 >= len(draft.lines) or draft.lines[number + 1].gap:
        return False
    words = [token for token in draft.tokens_in(line) if token.kind is Kind.WORD]
    named = line.text.rstrip().endswith(".") and line.text[:1].isupper()
    if not named or not 0 < len(words) <= _LONGEST_NAME or work_in(draft.read(line)[0]):
        return False
    label, _ = label_at(draft, draft.lines[number + 1])
    return label is not None and label.numbers[:1] == (1,)


def heads_part(draft: Collected, number: int) -> bool:
    """Whether a heading is followed by rows or a foundation within a few lines.

    A first row may stand further down, behind what is said of the part.
    """
    for ahead, line in enumerate(draft.lines[number + 1 : number + 1 + _FURTHEST]):
        if section_of(line.text) is not None:
            return False
        label, _ = label_at(draft, line)
        if label is not None:
            return ahead < _NEAR or label.numbers[:1] == (1,)
        nodes = draft.read(line)[0] if ahead < _NEAR else ()
        if any(isinstance(node, Chain) for node in nodes[:3]) or _works_a_part(nodes):
            return True
        if is_heading(draft.tokens_in(line), line.text, marked=False):
            return False
    return False


_NEAR = 3
_FURTHEST = 12


def _works_a_part(nodes: tuple[Node, ...]) -> bool:
    """ "With A, work as for Back to end of Row 26": rows of another part begin this one."""
    first = next((node for node in nodes if not isinstance(node, Yarn)), None)
    return isinstance(first, Recall) and bool(first.part)


_UNSIGNED = 7
"""Where a heading without a number sign stands: under all that have one."""


def heads_stretch(draft: Collected, line: Line, number: int) -> bool:
    """ "Shape armholes" under "BACK": a lower heading, and the rows go on counting."""
    if draft.heading is None or _rank(draft, line) <= _rank(draft, draft.heading):
        return False
    labels = [row.label for row in draft.rows if row.label and row.label.numbers]
    ahead = (label_at(draft, other)[0] for other in draft.lines[number + 1 : number + 4])
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
