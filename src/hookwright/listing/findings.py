"""A finding in words: where, the line with the words marked, what is wrong, what to do."""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.checking import Checked
from hookwright.finding import Edit, Finding, Severity
from hookwright.listing.columns import in_a_line, wrapped
from hookwright.listing.excerpt import excerpt
from hookwright.reading import LinePlace
from hookwright.source import Span
from hookwright.terminal import Ink

LOUDNESS = {
    Severity.ERROR: "to mend",
    Severity.WARNING: "to look at",
    Severity.ADVICE: "advice",
}
_INDENT = "  "


def told(finding: Finding, checked: Checked, width: int, ink: Ink) -> str:
    """All lines of a finding."""
    lines = [
        ink.strong(_heading(finding, checked)),
        *_marked(finding.span, checked, width, ink),
    ]
    lines += wrapped(finding.message, width, _INDENT)
    if finding.why:
        lines += wrapped(finding.why, width, _INDENT)
    if finding.edit is not None and f'"{finding.edit.replacement}"' not in finding.why:
        change = _change(finding.edit, checked)
        lines += [ink.blue(line) for line in wrapped(change, width, _INDENT)]
    for related in finding.related:
        place = _place(related.span, checked)
        lines += wrapped(
            f"{place[0].upper()}{place[1:]}: {related.message}", width, _INDENT
        )
        lines += _marked(related.span, checked, width, ink)
    return "\n".join(lines)


def _heading(finding: Finding, checked: Checked) -> str:
    """Where and how loud: "Top edging, Row 1 (RS), line 57: to mend (stitches-left)"."""
    where = ", ".join(_where(finding, checked))
    where = where[0].upper() + where[1:]
    return in_a_line(f"{where}: {LOUDNESS[finding.severity]} ({finding.rule})")


def _where(finding: Finding, checked: Checked) -> Iterator[str]:
    if finding.part and len({line.part for line in checked.lines}) > 1:
        yield finding.part
    if finding.row:
        yield finding.row
    if finding.sizes:
        yield ("size " if len(finding.sizes) == 1 else "sizes ") + " and ".join(
            finding.sizes
        )
    yield _place(finding.span, checked)


def _place(span: Span, checked: Checked) -> str:
    """Where the designer finds it in what she has before her."""
    origin = checked.draft.origin_of(span.start)
    return f"line {origin.line}" if isinstance(origin, LinePlace) else origin.describe()


def _marked(span: Span, checked: Checked, width: int, ink: Ink) -> list[str]:
    shown = excerpt(checked.source, span, width - len(_INDENT))
    return [
        "",
        (_INDENT + shown.words).rstrip(),
        _INDENT + shown.margin + ink.red(shown.carets),
    ]


def _change(edit: Edit, checked: Checked) -> str:
    """What to write, in her words; the change itself is the same."""
    old = checked.source.slice(edit.span).strip()
    new = edit.replacement.strip()
    if not old:
        return f'Put in "{new}".'
    return f'Write "{new}" in place of "{old}".' if new else f'Take out "{old}".'
