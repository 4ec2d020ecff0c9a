"""`hookwright colours`: its options."""

from __future__ import annotations

import sys

import click


@click.command()
@click.argument("path", metavar="PATH")
@click.option(
    "--orders",
    type=click.IntRange(1, 24),
    default=6,
    help="How many orders to look for; 6 if nothing is told.",
)
@click.option(
    "--seed",
    type=click.IntRange(0, 999_999),
    default=1,
    help="Another number gives other orders, the same number the same ones.",
)
@click.option(
    "--table",
    type=click.IntRange(1, 24),
    metavar="N",
    help="Print only the rows of order N with their colours, as a table for the pattern.",
)
@click.option(
    "--json", "as_json", is_flag=True, help="Print an object for programs, on one line."
)
def colours(path: str, *, orders: int, seed: int, table: int | None, as_json: bool) -> None:
    """Put the colours of a worksheet in several good orders of stripes.

    PATH is a project folder, or the pattern.md in it. The worksheet.toml beside it has the
    colours, [[yarn]] with its hex, and the wishes, [stripes]. Stripes that the pattern
    tells itself are judged the same way.

    The exit status is 0 if the best order holds every rule, 1 if it does not or a stripe of
    the pattern is in no colour of the worksheet, 2 if there is nothing to arrange.
    """
    from hookwright.commands.colours import colours as order_colours  # noqa: PLC0415

    if table is not None and as_json:
        raise click.UsageError("--table prints a table for people: it takes no --json.")
    sys.exit(order_colours(path, orders, seed, table=table, as_json=as_json))
