"""`hookwright yarn`: its options."""

from __future__ import annotations

import sys

import click

from hookwright.cli.options import read_in_terms


@click.command()
@click.argument("path", metavar="PATH")
@click.option("--size", metavar="NAME", help="Only one size, by its name; all without it.")
@click.option(
    "--from-row",
    type=click.IntRange(1, 99_999),
    metavar="N",
    help="Only what is still to be worked, from row N to the end.",
)
@click.option(
    "--instead",
    metavar="LENGTH",
    help='How many balls of another yarn, by the length of its ball: "120 m", "131 yd".',
)
@click.option(
    "--gauge",
    metavar="GAUGE",
    help='Another gauge: "14 sts and 8 rows = 4 in", "1 repeat = 3 1/2 in, 4 rows = 2 in".',
)
@click.option("--how", is_flag=True, help="Say of every number how it came about.")
@read_in_terms
@click.option(
    "--json", "as_json", is_flag=True, help="Print an object for programs, on one line."
)
def yarn(
    path: str,
    *,
    size: str | None,
    from_row: int | None,
    instead: str | None,
    gauge: str | None,
    how: bool,
    terms: str | None,
    as_json: bool,
) -> None:
    """Reckon the yarn of every size by colour: metres, grams, balls, cost.

    PATH is a draft or a project folder, as for check. The worksheet.toml beside a
    pattern.md has the yarns, the swatches that were weighed, and the balls in hand; without
    a weighed swatch it is a rough guess, and told so.

    The exit status is 0 where all could be reckoned, 1 where something has to be mended or
    cannot be done, 2 where the draft could not be read, or holds no rows.
    """
    from hookwright.commands.yarn import YarnOptions  # noqa: PLC0415
    from hookwright.commands.yarn import yarn as reckon_yarn  # noqa: PLC0415

    options = YarnOptions(
        size=size,
        from_row=from_row,
        gauge=gauge,
        instead=instead,
        terms=terms.upper() if terms else None,
        how=how,
        as_json=as_json,
    )
    sys.exit(reckon_yarn(path, options))
