"""`hookwright measure`: its options."""

from __future__ import annotations

import sys

import click

from hookwright.cli.options import read_in_terms


@click.command()
@click.argument("path", metavar="PATH")
@click.option(
    "--gauge",
    metavar="GAUGE",
    default="",
    help='Another gauge: "14 sts and 8 rows = 4 in", "1 repeat = 3 1/2 in, 4 rows = 2 in".',
)
@read_in_terms
@click.option("--json", "as_json", is_flag=True, help="Print an object for programs.")
def measure(path: str, *, gauge: str, terms: str | None, as_json: bool) -> None:
    """Lay out every stitch and tell how large each piece lies, and whether flat.

    PATH is a draft or a project folder, as for check. Width, height, the width of a repeat,
    what a row takes up, how steeply rows climb; flat, cups or ruffles, and by how much.

    The exit status is 0 where all was measured, 1 where something has to be mended or could
    not be measured, 2 where the draft could not be read, or holds no rows.
    """
    from hookwright.commands.measure import MeasureOptions  # noqa: PLC0415
    from hookwright.commands.measure import measure as measure_draft  # noqa: PLC0415

    options = MeasureOptions(
        gauge=gauge, terms=terms.upper() if terms else None, as_json=as_json
    )
    sys.exit(measure_draft(path, options))
