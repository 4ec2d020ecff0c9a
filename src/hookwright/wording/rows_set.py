"""A row set anew from its tree: in a house style, one action a line, or to be heard."""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.finding import Edit
from hookwright.notation.printing import Style, Wording, body_words
from hookwright.notation.tree import RowText
from hookwright.source import Span
from hookwright.wording.asked import Asked
from hookwright.wording.edits import Layered
from hookwright.wording.expected import row_at_size, work_behind_label
from hookwright.wording.one_size import row_numbers
from hookwright.wording.own_phrases import Said, own_phrases


def row_set(
    checked: Checked, row: RowText, asked: Asked, terms: str, *, spoken: bool
) -> Iterator[Edit]:
    """The change that sets a row anew, in the terms of the source."""
    begin, nodes = work_behind_label(row)
    shown = replace(row, body=nodes)
    shown = shown if asked.size is None else row_at_size(shown, asked.size)
    pattern = checked.reading.pattern
    own = frozenset(name for d in pattern.definitions for name in d.names)
    style = style_of(asked, spoken=spoken, sizes=len(pattern.sizes))
    wording = Wording(terms, own_words=own, style=style)
    phrases = dict(own_phrases(shown, _saying(checked, row, asked.size), wording))
    words = body_words(shown, replace(wording, own_phrases=phrases))
    behind = checked.source.slice(Span(begin, row.span.end))
    start = begin + len(behind) - len(behind.lstrip())
    span = Span(start, row.span.end)
    if words and style.one_a_line and row.label is not None:
        gap = checked.source.slice(Span(start - 1, start)) == " "
        span, words = Span(start - gap, row.span.end), f"\n{words}"
    if words and words != checked.source.slice(span):
        yield Edit(span, words)


def _saying(checked: Checked, row: RowText, size: int | None) -> Said:
    """What gives the words of a stretch of a row, in the numbers of a size."""
    text = checked.source.text
    shown = Layered(text)
    if size is not None:
        shown = shown.then(row_numbers(text, row, size))

    def said(span: Span) -> str:
        own = shown.span_on(row.place(span))
        return shown.text[own.start : own.end]

    return said


def style_of(asked: Asked, *, spoken: bool, sizes: int = 0) -> Style:
    """How the printer writes what is asked for."""
    house = asked.style
    return Style(
        spoken=spoken,
        brackets=house.repeats == "brackets",
        dash=house.counts == "dash",
        behind=house.numbers == "behind",
        one_a_line=asked.one_a_line,
        remarks=True,
        listed=sizes > 1 and asked.size is None,
    )
