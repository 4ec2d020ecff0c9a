"""`hookwright lesson`: its options."""

from __future__ import annotations

import sys

import click

from hookwright.cli.options import SHEET_PAPER, read_in_terms


@click.command()
@click.argument("path", metavar="PATH")
@click.option(
    "--recorded",
    metavar="FILE",
    default="",
    help="Captions or a transcript of a filmed lesson (.vtt, .srt, lines with m:ss).",
)
@click.option(
    "--write",
    metavar="FOLDER",
    default="",
    help="Write script, captions, chapters and the times of rows into a folder.",
)
@click.option(
    "--paper",
    type=click.Choice(["a4", "us-letter"]),
    default=SHEET_PAPER,
    help="The paper of a PDF; A4 if none is named.",
)
@read_in_terms
@click.option("--json", "as_json", is_flag=True, help="Print an object for programs.")
def lesson(
    path: str, *, recorded: str, write: str, paper: str, terms: str | None, as_json: bool
) -> None:
    """Plan the filmed lesson of a pattern, or hold a filmed one against it.

    PATH is a draft or a project folder, as for check.

    The exit status is 0 where the lesson is planned, or what is said in it is right, 1
    where it says otherwise than the pattern, 2 where a file could not be read.
    """
    from hookwright.commands.lesson import LessonOptions  # noqa: PLC0415
    from hookwright.commands.lesson import lesson as make_lesson  # noqa: PLC0415

    if recorded and write:
        raise click.UsageError("--write is for a lesson to film: it takes no --recorded.")
    options = LessonOptions(
        write, recorded, paper, terms.upper() if terms else None, as_json
    )
    sys.exit(make_lesson(path, options))
