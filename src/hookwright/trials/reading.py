"""The reports of testers from a file of comma-separated values, and what is wrong in it.

Columns may stand in any order and be called by any usual words, cells may be empty, and
each may have its own unit. Whatever cannot be taken is told at its cell. Source: RFC 4180,
with semicolons or tabs as well.
"""

from __future__ import annotations

import csv
import io
from collections.abc import Iterator, Sequence
from typing import Any

from msgspec import Struct

from hookwright.answers.listed_yarn import listed_yarn
from hookwright.checking import Checked
from hookwright.finding import Finding, Severity
from hookwright.sizing.wishes import unit_of
from hookwright.source import Source, Span
from hookwright.trials.cells import (
    Ball,
    amount_cell,
    gauge_cell,
    hours_cell,
    length_cell,
    rows_cell,
)
from hookwright.trials.columns import Column, columns_of
from hookwright.trials.facts import Reports, Trial, Used

RULE = "trials"
_YES = frozenset({"yes", "y", "true", "x", "1", "dropped", "left off"})
MOST_LINES = 5_000


class _Cell(Struct, frozen=True):
    """A cell: its words, its column, and where it stands."""

    words: str
    column: Column
    span: Span


def read_reports(source: Source, checked: Checked) -> Reports:
    """The reports in a file. Never fails: what cannot be taken is a finding."""
    rows = list(_rows(source))
    if not rows:
        return Reports()
    head, *others = rows
    columns = columns_of([words for words, _ in head[1]])
    reader = _Reader(checked)
    findings = [
        _finding(span, f'"{column.heading}" is no column that is known, so it is left out.',
                 "Columns are tester, size, skill, gauge, width, height, yarn, hours, "
                 "unclear rows.",
                 Severity.WARNING)
        for column, (words, span) in zip(columns, head[1], strict=True)
        if not column.means and words.strip()
    ]  # fmt: skip
    trials = []
    for line, cells in others[:MOST_LINES]:
        told = [
            _Cell(words.strip(), column, span)
            for column, (words, span) in zip(columns, cells, strict=False)
        ]
        if any(cell.words for cell in told):
            trials.append(reader.trial(line, told))
    return Reports(tuple(trials), (*findings, *reader.findings))


def _rows(source: Source) -> Iterator[tuple[int, list[tuple[str, Span]]]]:
    """Each line with its cells, and where these stand."""
    text = source.text
    mark = max(",;\t", key=text.partition("\n")[0].count)
    csv.field_size_limit(1_000_000)
    reader = csv.reader(io.StringIO(text, newline=""), delimiter=mark)
    at = 0
    try:
        for number, row in enumerate(reader, start=1):
            cells = []
            for words in row:
                start = text.find(words, at) if words else at
                start = at if start < 0 else start
                cells.append((words, Span(start, start + len(words))))
                at = start + len(words)
            yield number, cells
    except csv.Error:
        return


class _Reader:
    """Reads one line after the other, and gathers what is wrong."""

    def __init__(self, checked: Checked) -> None:
        self.findings: list[Finding] = []
        self._sizes = {name.lower(): name for name in checked.sizes}
        needs = listed_yarn(checked, 0)
        self._ball: Ball = (needs[0].ball_m, needs[0].ball_g) if needs else (None, None)
        self._inches = unit_of(checked) == "in"

    def trial(self, line: int, cells: Sequence[_Cell]) -> Trial:
        """A line as a report."""
        known: dict[str, Any] = {}
        used: list[Used] = []
        for cell in cells:
            if not cell.words or not cell.column.means:
                continue
            if cell.column.means == "used":
                metres = amount_cell(cell.words, cell.column.unit, self._ball)
                if metres is None:
                    self._cannot(
                        cell, "an amount of yarn", '"350 g", "400 yd" or "3 balls"'
                    )
                else:
                    used.append(Used(cell.column.colour, metres))
            else:
                self._read(cell, known)
        tester = known.pop("tester", "") or f"line {line}"
        return Trial(line, tester, used=tuple(used), **known)

    def _read(self, cell: _Cell, known: dict[str, Any]) -> None:
        words, unit = cell.words, cell.column.unit
        match cell.column.means:
            case "tester" | "skill":
                known[cell.column.means] = words
            case "size":
                known["size"] = self._size(cell)
            case "width" | "height":
                known[f"{cell.column.means}_mm"] = self._told(
                    cell, length_cell(words, unit), "a length", '"104 cm" or "41 in"'
                )
            case "stitch_gauge" | "row_gauge":
                key = "stitch_mm" if cell.column.means == "stitch_gauge" else "row_mm"
                known[key] = self._told(
                    cell, gauge_cell(words, inches=self._inches), "a gauge",
                    '"16", or "16 sts in 10 cm"',
                )  # fmt: skip
            case "hours":
                known["hours"] = self._told(
                    cell, hours_cell(words, unit), "a time", '"12", "12.5 h" or "12:30"'
                )
            case "unclear":
                known["unclear"] = rows_cell(words)
            case "dropped":
                known["dropped"] = words.lower() in _YES
            case _:
                pass

    def _size(self, cell: _Cell) -> str:
        found = self._sizes.get(cell.words.lower(), "")
        if not found and self._sizes:
            self._cannot(cell, "a size of the pattern", ", ".join(self._sizes.values()))
        return found

    def _told(
        self, cell: _Cell, value: float | None, what: str, example: str
    ) -> float | None:
        if value is None:
            self._cannot(cell, what, example)
        return value

    def _cannot(self, cell: _Cell, what: str, example: str) -> None:
        self.findings.append(
            _finding(
                cell.span,
                f'"{cell.words[:40]}" under "{cell.column.heading}" is not read as {what}.',
                f"Write it as {example}; what is left empty is left out.",
                Severity.WARNING,
            )
        )


def _finding(span: Span, message: str, why: str, severity: Severity) -> Finding:
    return Finding(RULE, severity, span, message, why)
