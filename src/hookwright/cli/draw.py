"""`hookwright draw`: its options."""

from __future__ import annotations

import sys

import click

from hookwright.cli.options import read_in_terms


@click.command()
@click.argument("path", metavar="PATH")
@click.option("--chart", "kind", flag_value="chart", help="Symbol charts in true shape.")
@click.option(
    "--fabric", "kind", flag_value="fabric", help="The fabric as if it lay on a table."
)
@click.option(
    "--schematic",
    "kind",
    flag_value="schematic",
    help="Outlines with their measures, in every size and in both units.",
)
@click.option(
    "--stripes", "kind", flag_value="stripes", help="Stripes as worked, and as offered."
)
@click.option(
    "--repeat", is_flag=True, help="One repeat with its edges, instead of the whole."
)
@click.option("--part", metavar="NAME", default="", help="Only the piece that begins so.")
@click.option("--size", metavar="NAME", default="", help="This size, not the first.")
@click.option("--left-handed", is_flag=True, help="As a left-handed maker works it.")
@click.option("--wrong-side", is_flag=True, help="The wrong side of the fabric.")
@click.option(
    "-o",
    "--output",
    "file",
    metavar="FILE",
    default="",
    help="Write to FILE.svg or FILE.png; several sheets have their names behind it.",
)
@click.option(
    "--pixels",
    type=click.IntRange(100, 20_000),
    default=1600,
    show_default=True,
    help="How wide a .png is.",
)
@read_in_terms
def draw(
    path: str,
    *,
    kind: str | None,
    repeat: bool,
    part: str,
    size: str,
    left_handed: bool,
    wrong_side: bool,
    file: str,
    pixels: int,
    terms: str | None,
) -> None:
    """Draw symbol charts, the fabric, outlines with measures, and stripes.

    PATH is a draft or a project folder, as for check. Without -o the drawing is written to
    a file in this folder, which is told.

    The exit status is 0 where it was drawn, 2 where the draft could not be read, nothing in
    it can be drawn, or a file could not be written.
    """
    if kind is None:
        raise click.UsageError(
            "Say what to draw: --chart, --fabric, --schematic or --stripes."
        )
    from hookwright.commands.draw import DrawOptions  # noqa: PLC0415
    from hookwright.commands.draw import draw as draw_draft  # noqa: PLC0415

    options = DrawOptions(
        kind=kind,
        repeat=repeat,
        part=part,
        size=size,
        left_handed=left_handed,
        wrong_side=wrong_side,
        pixels=pixels,
        file=file,
        terms=terms.upper() if terms else None,
    )
    sys.exit(draw_draft(path, options))
