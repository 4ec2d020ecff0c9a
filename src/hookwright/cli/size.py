"""`hookwright size`: its options."""

from __future__ import annotations

import sys

import click

from hookwright.cli.options import read_in_terms


@click.command()
@click.argument("path", metavar="PATH")
@click.option("--width", metavar="LENGTH", help='How wide: 45in, 45", 114cm.')
@click.option("--height", metavar="LENGTH", help="How high or long: 60in, 1.5 m.")
@click.option(
    "--size",
    "sizes",
    metavar="NAME",
    multiple=True,
    help='A size by name (throw, "hat child", M of the text), a kind (blankets), or '
    '"50 x 60 in".',
)
@click.option(
    "--gauge",
    metavar="GAUGE",
    help='Another gauge: "14 sts and 8 rows = 4 in", "1 repeat = 3 1/2 in, 4 rows = 2 in".',
)
@click.option("--how", is_flag=True, help="Say of every number how it came about.")
@click.option(
    "--write",
    metavar="FILE",
    help="Write the text with the numbers of the size into FILE.md or FILE.txt.",
)
@read_in_terms
@click.option("--json", "as_json", is_flag=True, help="Print an object for programs.")
def size(
    path: str,
    *,
    width: str | None,
    height: str | None,
    sizes: tuple[str, ...],
    gauge: str | None,
    how: bool,
    write: str | None,
    terms: str | None,
    as_json: bool,
) -> None:
    """Work out chains, repeats and rows for a wanted size.

    PATH is a draft or a project folder, as for check. Without a wish the multiples, the
    gauge, the present size and a swatch are told, and the sizes of the worksheet.

    The exit status is 0 where all can be made, 1 where something has to be mended or cannot
    be made, 2 where the draft could not be read, or holds no rows.
    """
    if write is not None and not write.lower().endswith((".md", ".txt")):
        raise click.UsageError("The name of a text to write ends in .md or .txt.")
    from hookwright.commands.size import SizeOptions  # noqa: PLC0415
    from hookwright.commands.size import size as size_draft  # noqa: PLC0415

    options = SizeOptions(
        width=width,
        height=height,
        sizes=sizes,
        gauge=gauge,
        terms=terms.upper() if terms else None,
        how=how,
        write=write or "",
        as_json=as_json,
    )
    sys.exit(size_draft(path, options))
