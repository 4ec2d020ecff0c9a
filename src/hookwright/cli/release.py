"""`hookwright release`: its options."""

from __future__ import annotations

import datetime as dt
import sys

import click


@click.command()
@click.argument("path", metavar="PATH")
@click.option(
    "-o",
    "--output",
    metavar="DIR",
    help="The folder to put the copies in; without it, release/ beside the pattern.",
)
@click.option("--draft", is_flag=True, help="Put out a draft that still has to be mended.")
@click.option(
    "--date",
    "day",
    metavar="YYYY-MM-DD",
    help="The day printed on every page, where the worksheet is not to tell it.",
)
def release(path: str, *, output: str | None, draft: bool, day: str | None) -> None:
    """Put out a pattern: PDF, large print, plain text, and a page for a blog.

    PATH is what `check` takes. Version, date, designer, rights and where corrections stand
    are read from worksheet.toml. Files that are made of the same things as before are taken
    over; the earlier release stands until the new one is whole.

    The exit status is 0 for a release, 1 where the pattern has to be mended first, 2 where
    it could not be read or the files not written.
    """
    if output == "":
        raise click.UsageError("-o takes the name of a folder.")
    if day is not None and not _is_day(day):
        raise click.UsageError(f'A day is given as 2026-11-25, not "{day}".')
    from hookwright.commands.release import ReleaseOptions, put_out  # noqa: PLC0415

    options = ReleaseOptions(folder=output or "", draft=draft, day=day or "")
    sys.exit(put_out(path, options))


def _is_day(words: str) -> bool:
    try:
        return dt.date.fromisoformat(words).isoformat() == words
    except ValueError:
        return False
