"""Options that several commands have."""

from __future__ import annotations

from collections.abc import Callable
from typing import TypeVar

import click

read_in_terms = click.option(
    "--terms",
    type=click.Choice(["us", "uk"], case_sensitive=False),
    help="Read the pattern in these terms, whatever it says of itself.",
)

ENDINGS = (".html", ".md", ".pdf")
SHEET_PAPER = "a4"
_Command = TypeVar("_Command", bound=Callable[..., object])


def as_sheet(says: str) -> Callable[[_Command], _Command]:
    """Options of a command that writes a sheet to hand on, `write` and `paper`."""

    def options(command: _Command) -> _Command:
        write = click.option("--write", metavar="FILE", callback=_ending, help=says)
        paper = click.option(
            "--paper",
            type=click.Choice(["a4", "us-letter"]),
            default=SHEET_PAPER,
            help="The paper of a PDF; A4 if none is named.",
        )
        return write(paper(command))

    return options


def _ending(_: click.Context, __: click.Parameter, file: str | None) -> str | None:
    if file is not None and not file.lower().endswith(ENDINGS):
        raise click.BadParameter("The name of a sheet ends in .html, .md or .pdf.")
    return file
