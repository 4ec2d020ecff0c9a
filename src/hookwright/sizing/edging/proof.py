"""Does an edging come out, worked together with the piece?

Its text is put behind the pattern's own and the whole is read and worked again. Only what
brings nothing new to mend or to look at, and whose every row closes with the count behind
it, is offered.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence

from msgspec import Struct

from hookwright.checking import Checked, check
from hookwright.finding import Edit, Finding, Severity
from hookwright.reading.draft import Draft
from hookwright.sizing.edging.facts import Reason
from hookwright.sizing.edging.placing import Place, edits_for, with_edits
from hookwright.source import Span

_UNLISTED = "undefined-abbreviation"
_MOST_ENTRIES = 6
"""Entries that an edging may add to the list of abbreviations."""


class Base(Struct, frozen=True):
    """The text that edgings are proven in.

    Attributes:
        checked: The pattern as it stands.
        place: Where an edging goes.
        known: What is found without one.
    """

    checked: Checked
    place: Place
    known: Counter[tuple[str, str]]


class Proven(Struct, frozen=True):
    """A pattern with edgings in it that come out.

    Attributes:
        edits: The changes of its text as read, entries of the list of abbreviations among
            them.
        checked: The changed pattern, read and worked.
        headings: The headings put in.
        level: Their level; 0 where the draft marks none.
    """

    edits: tuple[Edit, ...]
    checked: Checked
    headings: tuple[str, ...]
    level: int

    def in_file(self, text: str) -> str:
        """The same changes in a Markdown file; its marks are blanks in the text as read."""
        pieces: list[str] = []
        at = 0
        for edit in sorted(self.edits, key=lambda edit: edit.span):
            pieces += [text[at : edit.span.start], self._marked(edit.replacement)]
            at = edit.span.end
        return "".join([*pieces, text[at:]])

    def _marked(self, words: str) -> str:
        mark = "#" * (self.level or 2)
        lines = words.split("\n")
        return "\n".join(f"{mark} {own}" if own in self.headings else own for own in lines)


def base_of(checked: Checked, place: Place) -> Base:
    """What is found in a pattern before any edging is put in it."""
    without = checked
    if place.gone:
        edits = edits_for(checked, place, ())
        without = _checked(checked, with_edits(checked.draft, edits, (), place.level))
    return Base(checked, place, _told(without.findings))


def prove(base: Base, blocks: Sequence[tuple[str, str]]) -> Proven | Reason:
    """Put edgings behind a piece and work the whole again.

    Args:
        base: The pattern, and where they go.
        blocks: Each edging: its heading, and all its text.

    Returns:
        The proven pattern, or the first thing that is wrong with it.
    """
    headings = tuple(heading for heading, _ in blocks)
    edits = edits_for(base.checked, base.place, [text for _, text in blocks])
    found = _with(base, edits, headings)
    for _ in range(_MOST_ENTRIES):
        entry = _entry(base, found, edits)
        if entry is None:
            break
        edits = tuple(sorted((*edits, entry), key=lambda edit: edit.span))
        found = _with(base, edits, headings)
    fault = _fault(base, found, headings)
    return fault if fault is not None else Proven(edits, found, headings, base.place.level)


def _with(base: Base, edits: Sequence[Edit], headings: Sequence[str]) -> Checked:
    draft = with_edits(base.checked.draft, edits, headings, base.place.level)
    return _checked(base.checked, draft)


def _checked(like: Checked, draft: Draft) -> Checked:
    sheet = like.worksheet.source if like.worksheet is not None else None
    return check(draft, like.terms, sheet)


def _told(findings: Iterable[Finding]) -> Counter[tuple[str, str]]:
    loud = (f for f in findings if f.severity is not Severity.ADVICE)
    return Counter((finding.rule, finding.message) for finding in loud)


def _entry(base: Base, found: Checked, edits: Sequence[Edit]) -> Edit | None:
    """An entry that the list of abbreviations lacks for the edging.

    It is told in the changed text, and goes where that is the same as hers.
    """
    for finding in found.findings:
        edit = finding.edit
        if finding.rule != _UNLISTED or edit is None or edit.span.start != edit.span.end:
            continue
        if _is_known(base, finding):
            continue
        at = _before_edits(edit.span.start, edits)
        if at is not None and all(e.span.start != at for e in edits):
            return Edit(Span(at, at), edit.replacement)
    return None


def _is_known(base: Base, finding: Finding) -> bool:
    told = (finding.rule, finding.message)
    return any((found.rule, found.message) == told for found in base.checked.findings)


def _before_edits(at: int, edits: Sequence[Edit]) -> int | None:
    """An offset of the changed text as one of the text before; None within a change."""
    moved = 0
    for edit in edits:
        start = edit.span.start + moved
        grown = len(edit.replacement)
        if at <= start:
            break
        if at < start + grown:
            return None
        moved += grown - (edit.span.end - edit.span.start)
    return at - moved


def _fault(base: Base, found: Checked, headings: Sequence[str]) -> Reason | None:
    """The first thing that an edging brings; None where it comes out."""
    new = _told(found.findings) - base.known
    loud = (f for f in found.findings if f.severity is not Severity.ADVICE)
    first = next((f for f in loud if (f.rule, f.message) in new), None)
    if first is not None:
        return Reason(first.span, first.message, first.why)
    lines = [line for line in found.lines if line.part in headings]
    told = Counter(line.part for line in lines)
    unproven = next((line for line in lines if line.agrees is not True), None)
    if unproven is not None or len(told) < len(set(headings)):
        span = unproven.span if unproven is not None else Span(0, 0)
        return Reason(span, "A row of the edging does not read back as it was worked out.")
    return None
