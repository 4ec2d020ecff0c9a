"""`hookwright trials`: the sheet for testers, and what they report."""

from __future__ import annotations

import json
from pathlib import Path

from msgspec import Struct

from hookwright.answer import found_in_worksheet
from hookwright.checking import Checked, check
from hookwright.commands.check import Status
from hookwright.commands.project import draft_at, pattern_file, worksheet_at
from hookwright.commands.sheet_writing import write_sheet
from hookwright.commands.trials_file import TRIALS_FILE, reports_at
from hookwright.commands.writing import NotWritten, write_new
from hookwright.listing.columns import wrapped
from hookwright.reading import UnreadableDraft
from hookwright.source import Source
from hookwright.terminal import ReaderGone, say, say_aside, width
from hookwright.trials.analysing import analysis_of
from hookwright.trials.facts import Reports
from hookwright.trials.form import form_file, form_sheet
from hookwright.trials.reading import read_reports
from hookwright.trials.report_sheet import report_sheet
from hookwright.trials.telling import analysis_answer, analysis_lines


class TrialsOptions(Struct, frozen=True):
    """What was asked for.

    Attributes:
        form: The file for the sheet that testers fill in, .csv among them; "" for none.
        file: The reports; "" for the trials.csv beside the pattern.
        write: The file for what they come to; "" for none.
        paper: "a4" or "us-letter".
        as_json: An object for programs.
    """

    form: str = ""
    file: str = ""
    write: str = ""
    paper: str = "a4"
    as_json: bool = False


def trials(path: str, options: TrialsOptions) -> Status:
    """Write the sheet for testers, or tell what they report."""
    try:
        checked = check(draft_at(path), None, worksheet_at(path))
        if not checked.has_rows():
            say_aside("No row is found in the draft.")
            return Status.NOT_READ
        if options.form:
            _write_form(checked, options)
            return Status.CLEAN
        return _told(checked, path, options)
    except (UnreadableDraft, NotWritten) as refusal:
        say_aside(str(refusal))
        return Status.NOT_READ
    except ReaderGone:
        return Status.CLEAN


def _write_form(checked: Checked, options: TrialsOptions) -> None:
    if options.form.lower().endswith(".csv"):
        write_new(Path(options.form), form_file(checked).encode())
        say_aside(f"A file to fill in is {options.form}.")
    else:
        write_sheet(form_sheet(checked), options.form, options.paper)


def _told(checked: Checked, path: str, options: TrialsOptions) -> Status:
    source = reports_at(options.file or str(pattern_file(path).with_name(TRIALS_FILE)))
    reports = read_reports(source, checked)
    analysis = analysis_of(checked, reports.trials)
    if options.as_json:
        told = found_in_worksheet(reports.findings, source)
        found = [one | {"text": "trials"} for one in told]
        say(json.dumps(analysis_answer(analysis) | {"findings": found}))
    else:
        say(
            _in_columns(
                "\n\n".join((*analysis_lines(analysis), *_findings(reports, source)))
            )
        )
    if options.write:
        title = checked.design.title or checked.draft.title or ""
        write_sheet(report_sheet(analysis, title), options.write, options.paper)
    return Status.TO_MEND if reports.findings else Status.CLEAN


def _findings(reports: Reports, source: Source) -> list[str]:
    told = [
        f"- line {source.line_of(found.span.start)}: {found.message} {found.why}"
        for found in reports.findings
    ]
    return ["\n".join(("Left out of it:", *told))] if told else []


def _in_columns(text: str) -> str:
    return "\n".join(
        line for one in text.split("\n") for line in wrapped(one, width()) or [""]
    )
