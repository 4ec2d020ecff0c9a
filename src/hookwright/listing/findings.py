"""A finding in words: where, the line with the words marked, what is wrong, what to do."""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.checking import Checked
from hookwright.design.facts import Worksheet
from hookwright.finding import Edit, Finding, Severity
from hookwright.listing.columns import in_a_line, wrapped
from hookwright.listing.excerpt import excerpt
from hookwright.reading import LinePlace
from hookwright.reading.draft import Draft, SameLines
from hookwright.source import Source, Span
from hookwright.terminal import Ink

LOUDNESS = {
    Severity.ERROR: "to mend",
    Severity.WARNING: "to look at",
    Severity.ADVICE: "advice",
}
WORKSHEET = "worksheet.toml"
_INDENT = "  "


def told(finding: Finding, checked: Checked, width: int, ink: Ink) -> str:
    """All lines of a finding."""
    where = ", ".join(where_told(finding, checked))
    where = where[0].upper() + where[1:]
    return _told(finding, where, checked.draft, width, ink)


def told_of_worksheet(finding: Finding, sheet: Worksheet, width: int, ink: Ink) -> str:
    """All lines of a finding in a worksheet."""
    draft = Draft(sheet.source, SameLines(sheet.source))
    where = f"{WORKSHEET}, {place_of(finding.span, draft)}"
    return _told(finding, where, draft, width, ink)


def told_of_words(
    finding: Finding, source: Source, where: str, width: int, ink: Ink
) -> str:
    """All lines of a finding in words that stand in no file: what is asked for."""
    return _told(finding, where, Draft(source, SameLines(source)), width, ink)


def _told(finding: Finding, where: str, draft: Draft, width: int, ink: Ink) -> str:
    heading = in_a_line(f"{where}: {LOUDNESS[finding.severity]} ({finding.rule})")
    lines = [ink.strong(heading), *_marked(finding.span, draft.source, width, ink)]
    lines += wrapped(finding.message, width, _INDENT)
    if finding.why:
        lines += wrapped(finding.why, width, _INDENT)
    change = change_told(finding, draft.source)
    if change:
        lines += [ink.blue(line) for line in wrapped(change, width, _INDENT)]
    for related in finding.related:
        place = place_of(related.span, draft)
        lines += wrapped(
            f"{place[0].upper()}{place[1:]}: {related.message}", width, _INDENT
        )
        lines += _marked(related.span, draft.source, width, ink)
    return "\n".join(lines)


def where_told(finding: Finding, checked: Checked) -> Iterator[str]:
    """Where it is, from the large to the small: "Top edging", "Row 1 (RS)", "line 57"."""
    if finding.part and len({line.part for line in checked.lines}) > 1:
        yield finding.part
    if finding.row:
        yield finding.row
    if finding.sizes:
        yield ("size " if len(finding.sizes) == 1 else "sizes ") + " and ".join(
            finding.sizes
        )
    yield place_of(finding.span, checked.draft)


def place_of(span: Span, draft: Draft) -> str:
    """Where the designer finds it in what she has before her."""
    origin = draft.origin_of(span.start)
    return f"line {origin.line}" if isinstance(origin, LinePlace) else origin.describe()


def _marked(span: Span, source: Source, width: int, ink: Ink) -> list[str]:
    shown = excerpt(source, span, width - len(_INDENT))
    return [
        "",
        (_INDENT + shown.words).rstrip(),
        _INDENT + shown.margin + ink.red(shown.carets),
    ]


def change_told(finding: Finding, source: Source) -> str:
    """What to write, if its words do not say so already; "" where nothing is offered."""
    edit = finding.edit
    if edit is None or f'"{edit.replacement}"' in finding.why:
        return ""
    return _change(edit, source)


def _change(edit: Edit, source: Source) -> str:
    """What to write, in her words; the change itself is the same."""
    old = source.slice(edit.span).strip()
    new = edit.replacement.strip()
    if not old:
        return f'Put in "{new}".'
    return f'Write "{new}" in place of "{old}".' if new else f'Take out "{old}".'
