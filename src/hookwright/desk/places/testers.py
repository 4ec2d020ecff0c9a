"""The testers: what they report in trials.csv, and the sheet on which they report."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hookwright.commands.trials_file import TRIALS_FILE, put_reports, reports_at
from hookwright.commands.writing import NotWritten
from hookwright.desk.asked import Asked
from hookwright.desk.beside import trials_file
from hookwright.desk.folder import NotHere
from hookwright.desk.on_paper import SHEET_FILES, as_file, blocks, sheet_file, stem_of
from hookwright.reading import UnreadableDraft
from hookwright.source import Source, Span
from hookwright.trials.analysing import analysis_of
from hookwright.trials.facts import Analysis
from hookwright.trials.form import form_file, form_sheet
from hookwright.trials.reading import read_reports
from hookwright.trials.report_sheet import report_sheet
from hookwright.trials.table import reports_table

_CSV = "csv"
_FILES = (
    *({"keep": one["keep"], "says": one["says"]} for one in SHEET_FILES),
    {"keep": _CSV, "says": "As a file to fill in"},
)


def answer(asked: Asked) -> dict[str, Any]:
    """What they report; the sheet for them as a file; or their reports taken in."""
    wished = asked.wished
    if not asked.checked.has_rows():
        return {"refused": "There are no rows yet, so there is nothing to test."}
    if wished.keep:
        return _form(asked)
    try:
        file = trials_file(asked.folder)
        if wished.write:
            put_reports(file, wished.words)
        source = reports_at(str(file)) if file.exists() else None
    except (NotHere, NotWritten, UnreadableDraft) as refusal:
        return {"refused": str(refusal), "files": list(_FILES)}
    return {"files": list(_FILES), **(_told(asked, source) if source else {})}


def _form(asked: Asked) -> dict[str, Any]:
    checked, wished = asked.checked, asked.wished
    if wished.keep == _CSV:
        return as_file(TRIALS_FILE, form_file(checked).encode())
    sheet = form_sheet(checked)
    return sheet_file(sheet, f"{stem_of(checked)}-testers", wished.keep, wished.units)


def _told(asked: Asked, source: Source) -> dict[str, Any]:
    reports = read_reports(source, asked.checked)
    analysis = analysis_of(asked.checked, reports.trials)
    return {
        "says": _how_many(analysis),
        "each": blocks([reports_table(reports.trials, asked.wished.units)]),
        "come_to": blocks(report_sheet(analysis, "").blocks),
        "findings": [
            {
                "message": f"Line {source.line_of(found.span.start)}: {found.message}",
                "why": found.why,
            }
            for found in reports.findings
        ],
        "words": asked.spans(_unclear(asked, analysis)),
    }


def _how_many(analysis: Analysis) -> str:
    left = f", {analysis.dropped} left off" if analysis.dropped else ""
    if analysis.reported == 1:
        return f"One has reported{left}"
    return f"{analysis.reported} have reported{left}"


def _unclear(asked: Asked, analysis: Analysis) -> Iterator[Span]:
    """The words of the rows that confuse."""
    numbers = {one.row.rpartition(" ")[2] for one in analysis.unclear}
    for line in asked.checked.lines:
        first = next(iter(line.first), None)
        last = next(iter(line.last), None)
        if first is None or last is None:
            continue
        if any(number.isdecimal() and first <= int(number) <= last for number in numbers):
            yield line.span
