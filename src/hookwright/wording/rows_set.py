"""A row set anew from its tree: in a house style, one action a line, or to be heard."""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.checking import Checked
from hookwright.finding import Edit
from hookwright.notation.printing import Style, Wording, body_words
from hookwright.notation.tree import RowText
from hookwright.source import Span
from hookwright.wording.asked import Asked
from hookwright.wording.expected import row_at_size


def row_set(
    checked: Checked, row: RowText, asked: Asked, terms: str, *, spoken: bool
) -> Iterator[Edit]:
    """The change that sets a row anew, in the terms of the source."""
    shown = row if asked.size is None else row_at_size(row, asked.size)
    pattern = checked.reading.pattern
    own = frozenset(name for d in pattern.definitions for name in d.names)
    style = style_of(asked, spoken=spoken, sizes=len(pattern.sizes))
    words = body_words(shown, Wording(terms, own_words=own, style=style))
    span = Span(row.at, row.span.end)
    if words and style.one_a_line and row.label is not None:
        gap = checked.source.slice(Span(row.at - 1, row.at)) == " "
        span, words = Span(row.at - gap, row.span.end), f"\n{words}"
    if words and words != checked.source.slice(span):
        yield Edit(span, words)


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
