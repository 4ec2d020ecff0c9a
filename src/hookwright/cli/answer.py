"""`hookwright answer`: its options."""

from __future__ import annotations

import sys

import click

from hookwright.cli.options import as_sheet, read_in_terms


@click.command()
@click.argument("path", metavar="PATH")
@click.option(
    "--count",
    metavar="ROWS",
    default="",
    help='What is counted: "row 12: 176", or "row 12: 176, row 13: 175".',
)
@click.option("--width", metavar="LENGTH", default="", help='How wide: 45in, 45", 114cm.')
@click.option(
    "--height", metavar="LENGTH", default="", help="How high or long: 60in, 1.5 m."
)
@click.option(
    "--gauge", metavar="GAUGE", default="", help='Her gauge: "14 sts and 8 rows = 4 in".'
)
@click.option(
    "--yarn",
    metavar="BALL",
    default="",
    help='The band of her yarn: "100 g = 240 m", "90 yd".',
)
@click.option(
    "--have",
    metavar="YARN",
    default="",
    help='What yarn she has: "14 balls", "3 balls of A, 2 balls of B", "350 g".',
)
@click.option(
    "--lies",
    type=click.Choice(["ruffles", "cups", "curls", "slants"]),
    default=None,
    help="How it lies where it should lie flat.",
)
@click.option("--size", metavar="NAME", default="", help="The size she makes, by its name.")
@click.option(
    "--for",
    "her_terms",
    type=click.Choice(["us", "uk"], case_sensitive=False),
    default=None,
    help="The terms she works in; those of the pattern if none are told.",
)
@click.option("--sheet", is_flag=True, help="Print a sheet of help to go with the pattern.")
@as_sheet("Write the sheet of help to FILE.html, FILE.md or FILE.pdf.")
@read_in_terms
@click.option("--json", "as_json", is_flag=True, help="Print an object for programs.")
def answer(
    path: str,
    *,
    sheet: bool,
    write: str | None,
    paper: str,
    terms: str | None,
    her_terms: str | None,
    as_json: bool,
    **asked: str,
) -> None:
    """Write a reply to a maker's question, with the working shown.

    PATH is a draft or a project folder, as for check.

    The exit status is 0 where all is answered, 1 where something cannot be, 2 where the
    draft could not be read, or holds no rows.
    """
    words = {name: value or "" for name, value in asked.items()}
    if sheet == any(value for name, value in words.items() if name != "size"):
        raise click.UsageError(
            "--sheet takes no question."
            if sheet
            else "Ask something, as --count or --width."
        )
    if write and not sheet:
        raise click.UsageError("--write is for a sheet of help: give --sheet with it.")
    from hookwright.commands.answer import AnswerOptions  # noqa: PLC0415
    from hookwright.commands.answer import answer as answer_maker  # noqa: PLC0415

    options = AnswerOptions(
        asked=words,
        sheet=sheet,
        write=write or "",
        paper=paper,
        terms=terms.upper() if terms else None,
        as_json=as_json,
        her_terms=her_terms.upper() if her_terms else "",
    )
    sys.exit(answer_maker(path, options))
