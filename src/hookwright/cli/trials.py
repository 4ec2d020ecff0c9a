"""`hookwright trials`: its options."""

from __future__ import annotations

import sys

import click

from hookwright.cli.options import SHEET_PAPER, as_sheet


@click.command()
@click.argument("path", metavar="PATH")
@click.option(
    "--form",
    metavar="FILE",
    default="",
    help="Write the sheet for testers to FILE.html, .md or .pdf, or to fill in, FILE.csv.",
)
@click.option(
    "--file",
    metavar="FILE",
    default="",
    help="The reports; trials.csv beside the pattern if none is named.",
)
@as_sheet("Write what they come to, with charts, to FILE.html, FILE.md or FILE.pdf.")
@click.option("--json", "as_json", is_flag=True, help="Print an object for programs.")
def trials(
    path: str, *, form: str, file: str, write: str | None, paper: str, as_json: bool
) -> None:
    """Tell what test makers report: yarn, gauge, hours, rows that confuse, gaps.

    PATH is a draft or a project folder, as for check.

    The exit status is 0 where all is read, 1 where a cell could not be taken, 2 where the
    pattern or the reports could not be read.
    """
    from hookwright.commands.trials import TrialsOptions  # noqa: PLC0415
    from hookwright.commands.trials import trials as tell_trials  # noqa: PLC0415

    if form and not form.lower().endswith((".csv", ".html", ".md", ".pdf")):
        raise click.UsageError("The name of a form ends in .csv, .html, .md or .pdf.")
    options = TrialsOptions(form, file, write or "", paper or SHEET_PAPER, as_json)
    sys.exit(tell_trials(path, options))
