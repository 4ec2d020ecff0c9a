"""The commands."""

from __future__ import annotations

import json
import sys
from pathlib import Path

import click

from hookwright import __version__


@click.group()
@click.version_option(__version__)
def main() -> None:
    """Reads written crochet patterns and proves their counts."""


@main.command()
@click.argument("paths", nargs=-1, required=True)
@click.option("--json", "as_json", is_flag=True, help="One JSON object for programs.")
@click.option("--quiet", is_flag=True, help="Only the findings.")
@click.option("--all-rows", is_flag=True, help="Every row, also those alike.")
@click.option("--terms", type=click.Choice(["us", "uk"]), help="Read in these terms.")
@click.option("--text", is_flag=True, help="Print the text as it was read.")
def check(
    paths: tuple[str, ...], *, as_json: bool, quiet: bool, all_rows: bool, terms: str | None, text: bool
) -> None:
    """Read patterns, work every stitch, and say whether the counts add up."""
    from hookwright.checking import check as check_source  # noqa: PLC0415
    from hookwright.source import Source  # noqa: PLC0415

    status = 0
    for path in paths:
        source = Source(Path(path).read_text(), path)
        checked = check_source(source, terms.upper() if terms else None)
        if as_json:
            from hookwright.answer import answer  # noqa: PLC0415

            click.echo(json.dumps(answer(checked), ensure_ascii=False))
        else:
            from hookwright.listing import listing  # noqa: PLC0415

            click.echo(listing(checked, quiet=quiet, all_rows=all_rows))
        status = max(status, int(checked.has_errors()))
    del text
    sys.exit(status)
