"""A checked pattern as text for people: its rows, its findings, and what they come to."""

from __future__ import annotations

import shlex
from collections.abc import Iterator

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.listing.assumed import assumed
from hookwright.listing.columns import columns_of, wrapped, writable
from hookwright.listing.findings import told, told_of_worksheet
from hookwright.listing.row_table import row_table
from hookwright.listing.summary import advice_told, is_loud, summary
from hookwright.terminal import NO_INK, Ink


class Layout(Struct, frozen=True):
    """How a listing is set.

    Attributes:
        width: Columns to write in.
        ink: The colours.
        quiet: Findings and summary only.
        all_rows: A line for every row.
        advice: Advice too, of which otherwise only the number is told.
    """

    width: int = 92
    ink: Ink = NO_INK
    quiet: bool = False
    all_rows: bool = False
    advice: bool = False


def listing(checked: Checked, layout: Layout) -> str:
    """All there is to say about a pattern; paragraphs are parted by blank lines."""
    return "\n\n".join(_paragraphs(checked, layout))


def _paragraphs(checked: Checked, layout: Layout) -> Iterator[str]:
    if not layout.quiet:
        notes = [
            line for note in checked.draft.notes for line in wrapped(note, layout.width)
        ]
        if notes:
            yield "\n".join(notes)
        table = row_table(checked, layout.width, layout.ink, all_rows=layout.all_rows)
        if table:
            yield table
    if checked.worksheet is not None:
        for finding in checked.worksheet.findings:
            if layout.advice or is_loud(finding):
                yield told_of_worksheet(
                    finding, checked.worksheet, layout.width, layout.ink
                )
    for finding in checked.findings:
        if layout.advice or is_loud(finding):
            yield told(finding, checked, layout.width, layout.ink)
    yield "\n".join(_conclusion(checked, layout))


def _conclusion(checked: Checked, layout: Layout) -> Iterator[str]:
    words = summary(checked)
    yield layout.ink.red(words) if checked.has_errors() else layout.ink.strong(words)
    for sentence in assumed(checked):
        yield from wrapped(sentence, layout.width)
    advice = advice_told(checked)
    if advice and layout.advice:
        yield f"{advice}."
    elif advice:  # one line even where it is long, so that it can be copied
        name = writable(shlex.quote(checked.source.name))
        yield f"{advice}: hookwright check --advice {name}"


def heading(name: str, ink: Ink) -> str:
    """The name of a draft over what is said of it, where there are several."""
    shown = writable("What was piped in" if name == "-" else name)
    return f"{ink.strong(shown)}\n{ink.quiet('-' * columns_of(shown))}\n"


__all__ = ["Layout", "heading", "listing"]
