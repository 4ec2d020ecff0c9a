"""What `check --json` prints: a checked pattern as plain values for programs.

Spans count characters of the text as read, which `check --text` prints; lines and columns
are counted from 1 in the same text.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import Any

from hookwright.checking import Checked
from hookwright.design.facts import Worksheet
from hookwright.finding import Edit, Finding, Related
from hookwright.listing.assumed import assumed
from hookwright.reading.draft import Draft, SameLines
from hookwright.source import Source
from hookwright.working.count import Count
from hookwright.working.printed_lines import Line


def answer(checked: Checked) -> dict[str, Any]:
    """One pattern as an object for programs."""
    return {
        "name": checked.source.name,
        "terms": checked.terms,
        "sizes": list(checked.sizes),
        "rows": [_row(line, checked) for line in checked.lines],
        "findings": findings_answer(checked),
        "assumed": list(assumed(checked)),
        "notes": list(checked.draft.notes),
    }


def findings_answer(checked: Checked) -> list[dict[str, Any]]:
    """What is wrong in the worksheet and in the pattern."""
    return [*_of_worksheet(checked.worksheet), *_of_pattern(checked)]


def _row(line: Line, checked: Checked) -> dict[str, Any]:
    return {
        "part": line.part,
        "printed": line.printed,
        "first": _one_or_list(line.first),
        "last": _one_or_list(line.last),
        "times": line.times,
        "line": checked.source.line_of(line.span.start),
        "start": line.span.start,
        "end": line.span.end,
        "stitches": [_number(count) for count in line.stitches],
        "uses": [_number(count) for count in line.uses],
        "spaces": [_number(count) for count in line.spaces],
        "stated": list(line.stated),
        "colours": [[name, _number(count)] for name, count in line.colours],
        "agrees": line.agrees,
    }


def _one_or_list(numbers: tuple[int | None, ...]) -> int | list[int | None] | None:
    return numbers[0] if len(set(numbers)) == 1 else list(numbers)


def _number(count: Count | None) -> int | None:
    return count if isinstance(count, int) else None


def _of_worksheet(sheet: Worksheet | None) -> Iterator[dict[str, Any]]:
    if sheet is not None:
        yield from found_in_worksheet(sheet.findings, sheet.source)


def _of_pattern(checked: Checked) -> Iterator[dict[str, Any]]:
    yield from found_in_pattern(checked.findings, checked.draft)


def found_in_worksheet(
    findings: Sequence[Finding], source: Source
) -> Iterator[dict[str, Any]]:
    """Findings in the text of a worksheet."""
    draft = Draft(source, SameLines(source))
    for finding in findings:
        yield finding_answer(finding, draft, "worksheet")


def found_in_pattern(findings: Sequence[Finding], draft: Draft) -> Iterator[dict[str, Any]]:
    """Findings in a draft."""
    for finding in findings:
        yield finding_answer(finding, draft, "pattern")


def finding_answer(finding: Finding, draft: Draft, text: str) -> dict[str, Any]:
    """A finding; its lines and characters are those of the text that is named."""
    line, column = draft.source.position(finding.span.start)
    first, last = finding.numbers or (None, None)
    return {
        "text": text,
        "rule": finding.rule,
        "severity": str(finding.severity),
        "line": line,
        "column": column,
        "start": finding.span.start,
        "end": finding.span.end,
        "place": draft.origin_of(finding.span.start).describe(),
        "row": finding.row,
        "first": first,
        "last": last,
        "part": finding.part,
        "sizes": list(finding.sizes),
        "message": finding.message,
        "why": finding.why,
        "related": [_related(related) for related in finding.related],
        "edit": _edit(finding.edit),
    }


def _related(related: Related) -> dict[str, Any]:
    return {
        "start": related.span.start,
        "end": related.span.end,
        "message": related.message,
    }


def _edit(edit: Edit | None) -> dict[str, Any] | None:
    if edit is None:
        return None
    return {
        "start": edit.span.start,
        "end": edit.span.end,
        "replacement": edit.replacement,
        "safe": edit.safe,
    }
