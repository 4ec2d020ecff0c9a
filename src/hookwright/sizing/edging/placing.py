"""Where in the text does an edging stand, and which of the pattern's own does it replace?

It stands behind the piece, before the section on finishing. An edging that the pattern has
of its own on the same piece would lie between them, so it is left out of the text that the
new one is proven in, and that is said.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.finding import Edit
from hookwright.reading.draft import Draft, Heading, SameLines
from hookwright.regex import regex
from hookwright.sizing.edging.piece import Edged
from hookwright.source import Source, Span

_EDGING = regex(r"\b(?:edging|edge|border|trim)\b", re.IGNORECASE)


class Place(Struct, frozen=True):
    """Where an edging goes.

    Attributes:
        at: The offset in the text that it is put in at.
        gone: The stretches of the pattern's own edgings, which are taken out.
        names: Their headings.
        level: The level of its heading; 0 in a draft without marks for headings.
    """

    at: int
    gone: tuple[Span, ...]
    names: tuple[str, ...]
    level: int


def place_for(checked: Checked, piece: Edged) -> Place:
    """Where an edging of a piece goes."""
    text = checked.source.text
    ends = max(_line_end(text, row.step.span.end) for row in piece.rows)
    parts = {row.step.part for row in piece.rows}
    breaks = sorted({s for s in _headings(checked) if s >= ends} | {len(text)})
    gone: list[Span] = []
    names: list[str] = []
    for number, part in enumerate(checked.reading.pattern.parts):
        if number in parts or part.span.start < ends or not _EDGING.search(part.name):
            continue
        start = max((b for b in breaks if b <= part.span.start), default=part.span.start)
        last = max((row.span.end for row in part.rows), default=part.span.start)
        end = next((b for b in breaks if b >= last), len(text))
        gone.append(Span(start, end))
        names.append(part.name)
    at = next(b for b in breaks if not any(g.start <= b < g.end for g in gone))
    if gone:
        at = min(gone[0].start, at)
    return Place(at, tuple(gone), tuple(names), _level(checked, sorted(parts)))


def _headings(checked: Checked) -> Iterator[int]:
    """Where sections and parts begin, each at the start of its line."""
    text = checked.source.text
    starts = [heading.span.start for heading in checked.draft.headings]
    starts += [section.heading.start for section in checked.design.sections]
    starts += [part.span.start for part in checked.reading.pattern.parts if part.name]
    for start in starts:
        yield text.rfind("\n", 0, start) + 1


def _line_end(text: str, at: int) -> int:
    end = text.find("\n", at)
    return len(text) if end < 0 else end + 1


def _level(checked: Checked, parts: Sequence[int]) -> int:
    """The level of the headings of parts; 0 where nothing marks them."""
    headings = checked.draft.headings
    if not headings:
        return 0
    named = {checked.reading.pattern.parts[part].name.casefold() for part in parts}
    levels = [h.level for h in headings if _said(checked, h) in named]
    return levels[-1] if levels else 2


def _said(checked: Checked, heading: Heading) -> str:
    return checked.source.slice(heading.span).strip().casefold()


def block(heading: str, lines: Sequence[str]) -> str:
    """A part with its heading, as it stands in a text."""
    return "\n\n".join((heading, *lines))


def edits_for(checked: Checked, place: Place, blocks: Sequence[str]) -> tuple[Edit, ...]:
    """The changes of the text that put edgings in their place."""
    text = checked.source.text
    out = [Edit(span, "") for span in place.gone]
    if not blocks:
        return tuple(out)
    before = text[: place.at]
    ends = len(before) - len(before.rstrip("\n"))
    lead = "\n" * (2 - min(ends, 2)) if before.strip() else ""
    behind = "\n\n" if _goes_on(text, place) else "\n"
    words = lead + "\n\n".join(blocks) + behind
    first = next((e for e in out if e.span.start == place.at), None)
    if first is not None:
        out.remove(first)
        return (Edit(first.span, words), *out)
    put_in = Edit(Span(place.at, place.at), words)
    return tuple(sorted((put_in, *out), key=lambda edit: edit.span))


def _goes_on(text: str, place: Place) -> bool:
    """Whether anything stands behind the edging."""
    rest = text[place.at :]
    for span in reversed(place.gone):
        if span.start >= place.at:
            rest = rest[: span.start - place.at] + rest[span.end - place.at :]
    return bool(rest.strip())


def with_edits(
    draft: Draft, edits: Sequence[Edit], headings: Sequence[str], level: int
) -> Draft:
    """A draft with some changes made in its text; its headings move along.

    Args:
        draft: The draft.
        edits: Changes of its text that do not touch one another.
        headings: The lines that are headings among those put in.
        level: Their level; 0 where the draft has no marked headings.
    """
    pieces: list[str] = []
    kept: list[Heading] = []
    at = moved = 0
    for edit in sorted(edits, key=lambda e: e.span):
        kept += _moved(draft, Span(at, edit.span.start), moved)
        pieces += [draft.source.text[at : edit.span.start], edit.replacement]
        if level:
            begins = edit.span.start + moved
            kept += _new_headings(edit.replacement, headings, begins, level)
        moved += len(edit.replacement) - (edit.span.end - edit.span.start)
        at = edit.span.end
    kept += _moved(draft, Span(at, len(draft.source.text) + 1), moved)
    pieces.append(draft.source.text[at:])
    source = Source("".join(pieces), draft.source.name)
    return Draft(source, SameLines(source), tuple(kept), (), draft.notes, draft.only_words)


def _moved(draft: Draft, within: Span, by: int) -> list[Heading]:
    return [
        Heading(Span(h.span.start + by, h.span.end + by), h.level)
        for h in draft.headings
        if within.start <= h.span.start < within.end
    ]


def _new_headings(
    words: str, headings: Sequence[str], at: int, level: int
) -> Iterator[Heading]:
    for line in re.finditer(r"^.+$", words, re.MULTILINE):
        if line[0] in headings:
            yield Heading(Span(at + line.start(), at + line.end()), level)
