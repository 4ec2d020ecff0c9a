"""Is a text read in the terms it is in, and where does it say them if not?"""

from __future__ import annotations

from hookwright.checking import Checked
from hookwright.design.facts import Holds
from hookwright.finding import Edit
from hookwright.notation.tree import Pattern
from hookwright.regex import regex
from hookwright.source import Span
from hookwright.wording.asked import Asked


def terms_told(checked: Checked, asked: Asked, read: Pattern) -> bool:
    """Whether whoever reads the text takes it in the terms it is in."""
    said = read.terms if read.terms_said else None
    if asked.terms == (checked.terms or checked.worked.terms):
        return (read.terms or asked.terms) == asked.terms
    return said == asked.terms


def among_notes(checked: Checked, sentence: str) -> Edit:
    """A sentence put in among the notes, or below the title, of the source."""
    notes = checked.design.section(Holds.NOTES)
    text = checked.source.text
    if notes is not None and text[notes.heading.end : notes.body.start].strip() == "":
        line = text.find("\n", notes.heading.start)
        if line >= 0 and not text[notes.heading.end : line].strip(" *_#:."):
            return Edit(Span(line, line), f"\n\n{sentence}")
    title = min(checked.draft.headings, key=lambda heading: heading.level, default=None)
    if title is not None:
        return Edit(Span(title.span.end, title.span.end), f"\n\n{sentence}")
    first = _TITLE.match(text)
    if first is not None:
        return Edit(Span(first.end("title"), first.end("title")), f"\n\n{sentence}")
    return Edit(Span(0, 0), f"{sentence}\n\n")


_TITLE = regex(r"\s*(?P<title>[^\n]{1,80})\n[ \t]*\n")
"""A first line that stands alone."""
