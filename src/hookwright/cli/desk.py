"""`hookwright desk`: its options."""

from __future__ import annotations

import sys

import click


@click.command()
@click.argument("path", metavar="PATH")
@click.option(
    "--port",
    type=click.IntRange(0, 65_535),
    default=0,
    help="The port on this machine; a free one if nothing is told.",
)
@click.option("--no-browser", is_flag=True, help="Print the address and open no browser.")
def desk(path: str, *, port: int, no_browser: bool) -> None:
    """Open the desk: write, see and decide everything in one page.

    PATH is a project folder, also one that is not there yet. The page is served to this
    machine alone, and every change is saved as it is made; earlier versions are kept in the
    folder "earlier" beside the pattern.

    The exit status is 0 when it is ended, 2 if it could not be opened.
    """
    from hookwright.desk.opening import open_desk  # noqa: PLC0415

    sys.exit(open_desk(path, port, browser=not no_browser))
