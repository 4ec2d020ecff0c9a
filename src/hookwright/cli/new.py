"""`hookwright new`: its options."""

from __future__ import annotations

import sys

import click


@click.command()
@click.argument("folder", required=False, metavar="FOLDER")
@click.option(
    "--fabric",
    metavar="NAME",
    help="The fabric to begin from; plain rows if none is named.",
)
@click.option(
    "--terms",
    type=click.Choice(["us", "uk"], case_sensitive=False),
    default="us",
    help="Write the pattern in these terms; US if none are told.",
)
@click.option(
    "--list", "listed", is_flag=True, help="Print the fabrics to choose from, and stop."
)
def new(folder: str | None, *, fabric: str | None, terms: str, listed: bool) -> None:
    """Make a project folder with a pattern to begin from: the sample of a fabric.

    The pattern.md in it is whole, with every count proven; beside it stands a
    worksheet.toml. FOLDER is made if it is not there; a pattern.md or worksheet.toml in it
    is never written over.

    The exit status is 0 if the folder was made, 2 if it could not be.
    """
    if listed == (folder is not None):
        raise click.UsageError(
            "--list only prints the fabrics: it takes no FOLDER."
            if listed
            else "Missing argument 'FOLDER'."
        )
    from hookwright.commands.new import list_fabrics, new_project  # noqa: PLC0415

    if folder is None:
        sys.exit(list_fabrics(terms.upper()))
    sys.exit(new_project(folder, fabric, terms.upper()))
