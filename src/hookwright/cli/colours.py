"""`hookwright colours`: its options."""

from __future__ import annotations

import sys

import click


@click.command()
@click.argument("path", required=False, metavar="PATH")
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
    "--prove",
    is_flag=True,
    help="Look longer for a proof; the solver comes with pip install 'hookwright[plan]'.",
)
@click.option(
    "--photo",
    metavar="FILE",
    help="Find the colours in a photo of the balls (.jpg .png .webp); no orders are made.",
)
@click.option(
    "-n",
    "number",
    type=click.IntRange(1, 24),
    default=8,
    help="How many colours to find in a photo; 8 if nothing is told.",
)
@click.option(
    "--json", "as_json", is_flag=True, help="Print an object for programs, on one line."
)
def colours(
    path: str | None,
    *,
    orders: int,
    seed: int,
    table: int | None,
    prove: bool,
    photo: str | None,
    number: int,
    as_json: bool,
) -> None:
    """Put the colours of a worksheet in several good orders of stripes.

    PATH is a project folder, or the pattern.md in it. The worksheet.toml beside it has the
    colours, [[yarn]] with its hex, and the wishes, [stripes]. Stripes that the pattern
    tells itself are judged the same way. With --photo no PATH is needed: the colours of
    the photo are printed as yarns for a worksheet, to be named.

    The exit status is 0 if the best order holds every rule, 1 if it does not or a stripe of
    the pattern is in no colour of the worksheet, 2 if there is nothing to arrange.
    """
    if table is not None and as_json:
        raise click.UsageError("--table prints a table for people: it takes no --json.")
    if photo is not None:
        from hookwright.commands.photo import colours_of_photo  # noqa: PLC0415

        sys.exit(colours_of_photo(photo, number, as_json=as_json))
    if path is None:
        raise click.UsageError("Missing argument 'PATH'.")
    from hookwright.commands.colours import colours as order_colours  # noqa: PLC0415

    sys.exit(order_colours(path, orders, seed, table=table, prove=prove, as_json=as_json))
