"""`hookwright corrections`: its options."""

from __future__ import annotations

import sys

import click

from hookwright.cli.options import SHEET_PAPER, as_sheet


@click.command()
@click.argument("path", metavar="PATH")
@click.option(
    "--keep", metavar="VERSION", default="", help="Keep the present text as this version."
)
@click.option(
    "--against",
    metavar="VERSION",
    default="",
    help="The version, or file, to compare with; the one kept last if none is named.",
)
@click.option(
    "--version",
    metavar="VERSION",
    default="",
    help="What the new version is called; the worksheet's if nothing is told.",
)
@click.option("--date", metavar="DAY", default="", help="The day to print; today if none.")
@as_sheet("Write the page of corrections to FILE.html, FILE.md or FILE.pdf.")
@click.option("--json", "as_json", is_flag=True, help="Print an object for programs.")
def corrections(
    path: str,
    *,
    keep: str,
    against: str,
    version: str,
    date: str,
    write: str | None,
    paper: str,
    as_json: bool,
) -> None:
    """Tell what changed since a version that is out: in the fabric, or only in words.

    PATH is a draft or a project folder, as for check. Versions are kept in the folder
    versions/ beside the pattern.

    The exit status is 0 where the fabric is the same, 1 where it changed, 2 where a text
    could not be read.
    """
    from hookwright.commands.corrections import (  # noqa: PLC0415
        CorrectionsOptions,
    )
    from hookwright.commands.corrections import (  # noqa: PLC0415
        corrections as tell_corrections,
    )

    options = CorrectionsOptions(
        keep, against, version, date, write or "", paper or SHEET_PAPER, as_json
    )
    sys.exit(tell_corrections(path, options))
