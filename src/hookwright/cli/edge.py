"""`hookwright edge`: its options."""

from __future__ import annotations

import sys

import click

from hookwright.cli.options import read_in_terms


@click.command()
@click.argument("path", metavar="PATH")
@click.option(
    "--side",
    "sides",
    multiple=True,
    type=click.Choice(["top", "foundation", "left", "right", "all"]),
    help="The side to edge; several are worked one behind the other on one piece.",
)
@click.option(
    "--stitch",
    type=click.Choice(["sc", "hdc", "dc"]),
    default="sc",
    help="The stitch of plain rows, by its US name.",
)
@click.option(
    "--kind",
    type=click.Choice(["plain", "crab", "picot", "scallop", "shell"]),
    default="plain",
    help="The kind of edging; a border's repeat is fitted with the smallest change.",
)
@click.option(
    "--rows",
    type=click.IntRange(1, 40),
    default=2,
    help="How many rows or rounds, a border's own among them.",
)
@click.option(
    "--repeat",
    metavar="6+1",
    help="Fit the edge to the repeat of a border of your own, stitches + edge stitches.",
)
@click.option(
    "--shape",
    type=click.Choice(["straight", "wave"]),
    help="On a wave, close it straight or follow it; both where nothing is said.",
)
@read_in_terms
@click.option(
    "--write",
    "file",
    metavar="FILE",
    help="Write the pattern with the edging in it to FILE.md or FILE.txt, a new file.",
)
@click.option(
    "--draw",
    "drawing",
    metavar="FILE",
    default="",
    help="Draw the outline before and after, to FILE.svg.",
)
@click.option(
    "--json", "as_json", is_flag=True, help="Print an object for programs, one a line."
)
def edge(
    path: str,
    *,
    sides: tuple[str, ...],
    stitch: str,
    kind: str,
    rows: int,
    repeat: str | None,
    shape: str | None,
    terms: str | None,
    file: str | None,
    drawing: str,
    as_json: bool,
) -> None:
    """Write edgings that fit a piece, each proven together with it.

    PATH is what `check` takes. Without --side every side is told by itself; with --write
    and no side the edging all round is written, or those that there are.

    The exit status is 0 where an edging is offered, 1 where none is, 2 where the draft
    could not be read or the file not written.
    """
    if file == "":
        raise click.UsageError("--write takes the name of a file, FILE.md or FILE.txt.")
    from hookwright.commands.edge import EdgeOptions, edge_pattern  # noqa: PLC0415

    options = EdgeOptions(
        sides=sides,
        stitch=stitch,
        kind=kind,
        rows=rows,
        repeat=repeat,
        shape=shape or "plain",
        terms=terms.upper() if terms else None,
        file=file or "",
        drawing=drawing,
        as_json=as_json,
    )
    sys.exit(edge_pattern(path, options))
