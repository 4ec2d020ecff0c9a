"""What is told beside the rows anew: the terms, the level, for whom it is written."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.checking import Checked
from hookwright.finding import Edit
from hookwright.source import Span
from hookwright.wording.abbreviations import without_list
from hookwright.wording.asked import Asked, Form
from hookwright.wording.edits import Layered
from hookwright.wording.level import level_of, level_words, owes_level
from hookwright.wording.told_terms import among_notes

_LEFT_HANDED = (
    "For left-handed makers: sides, crossings and directions are mirrored. "
    "The face of the work, the order of working and every count are as in the pattern."
)
"""It speaks of no rows or rounds: by such words a draft tells which of them "R1" is."""


def beside(
    checked: Checked,
    asked: Asked,
    text: Layered,
    *,
    tells_terms: bool,
    left: Sequence[Span] = (),
) -> Iterator[Edit]:
    """The changes beside the rows, in the text that is in its terms already.

    Args:
        checked: The source.
        asked: The wording.
        text: The text so far.
        tells_terms: Whether it has to say its terms.
        left: Where the words of the source stay as they are.
    """
    told = [f"Written in {asked.terms} terms."] if tells_terms else []
    told += [_LEFT_HANDED] if asked.left_handed else []
    if told:
        yield _put(text, among_notes(checked, "\n\n".join(told)))
    one_size = asked.size is not None
    owed = owes_level(checked)
    level = level_of(checked, asked.terms, one_size=one_size) if owed else None
    if level is not None:
        at = _before_sections(checked)
        yield _put(text, Edit(Span(at, at), f"Skill level: {level_words(level)}\n\n"))
    if asked.form is not Form.SHORT:
        yield from without_list(checked, text, left)


def _put(text: Layered, edit: Edit) -> Edit:
    """An insertion of the source made in the text as it is."""
    at = text.on(edit.span.start, last=True)
    return Edit(Span(at, at), edit.replacement)


def _before_sections(checked: Checked) -> int:
    """The beginning of the line that heads the first section below the title."""
    source = checked.source
    title = min(checked.draft.headings, key=lambda one: one.level, default=None)
    after = title.span.end if title is not None else 0
    headings = [one.span.start for one in checked.draft.headings if one.span.start > after]
    headings += [
        s.heading.start for s in checked.design.sections if s.heading.start > after
    ]
    first = min(headings, default=0)
    return source.line_span(source.line_of(first)).start
