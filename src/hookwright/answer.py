"""What `check --json` prints: rows and findings as plain values."""

from __future__ import annotations

from typing import Any

from hookwright.checking import Checked
from hookwright.finding import Finding
from hookwright.source import Source
from hookwright.working.count import Count
from hookwright.working.report import Line


def answer(checked: Checked) -> dict[str, Any]:
    """One pattern as an object for programs."""
    return {
        "terms": checked.terms,
        "sizes": list(checked.reading.pattern.sizes),
        "rows": [_row(line, checked.source) for line in checked.lines],
        "findings": [_finding(finding, checked.source) for finding in checked.findings],
    }


def _row(line: Line, source: Source) -> dict[str, Any]:
    return {
        "part": line.part,
        "printed": line.printed,
        "first": _one_or_list(line.first),
        "last": _one_or_list(line.last),
        "times": line.times,
        "line": source.line_of(line.span.start),
        "stitches": [_number(count) for count in line.stitches],
        "uses": [_number(count) for count in line.uses],
        "spaces": [_number(count) for count in line.spaces],
        "stated": list(line.stated),
        "colours": [[name, _number(count)] for name, count in line.colours],
    }


def _one_or_list(values: tuple[int | None, ...]) -> Any:  # noqa: ANN401 (as printed)
    return values[0] if len(set(values)) == 1 else list(values)


def _number(count: Count | None) -> int | None:
    return count if isinstance(count, int) else None


def _finding(finding: Finding, source: Source) -> dict[str, Any]:
    line, column = source.position(finding.span.start)
    first, last = finding.numbers or (None, None)
    return {
        "rule": finding.rule,
        "severity": str(finding.severity),
        "line": line,
        "column": column,
        "row": finding.row,
        "first": first,
        "last": last,
        "part": finding.part,
        "sizes": list(finding.sizes),
        "message": finding.message,
        "why": finding.why,
    }
