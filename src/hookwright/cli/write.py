"""`hookwright write`: its options."""

from __future__ import annotations

import sys

import click


@click.command()
@click.argument("path", metavar="PATH")
@click.option(
    "--terms",
    type=click.Choice(["us", "uk"], case_sensitive=False),
    help="Write it in these terms; its own if none are told.",
)
@click.option(
    "--form",
    type=click.Choice(["short", "long", "spoken"], case_sensitive=False),
    default="short",
    help="With abbreviations, with every word in full, or to be heard.",
)
@click.option(
    "--size",
    metavar="NAME",
    default="all",
    help="Only the numbers of this size; all of them if none is told.",
)
@click.option(
    "--left-handed", is_flag=True, help="For a maker who holds the hook in the left hand."
)
@click.option(
    "--one-a-line", is_flag=True, help="Each action of a row on a line of its own."
)
@click.option(
    "--read-as",
    type=click.Choice(["us", "uk"], case_sensitive=False),
    help="The terms the pattern is in, whatever it says of itself.",
)
@click.option(
    "-o",
    "--output",
    "file",
    metavar="FILE",
    help="Write it to FILE.md or FILE.txt, a new file, and do not print it.",
)
def write(
    path: str,
    *,
    terms: str | None,
    form: str,
    size: str,
    left_handed: bool,
    one_a_line: bool,
    read_as: str | None,
    file: str | None,
) -> None:
    """Write the pattern in other terms, in full, to be heard, or in one size.

    PATH is a draft or a project folder, as for check. What is written is read again and
    held against the pattern, row for row and stitch for stitch; a row that would be read
    otherwise keeps its own words, and that is told.

    The exit status is 0 where all of it is the same fabric, 1 where a row has to be looked
    at, 2 where the draft could not be read, or the file not written.
    """
    if file is not None and not file.lower().endswith((".md", ".txt")):
        raise click.UsageError("The name of a text to write ends in .md or .txt.")
    from hookwright.commands.write import WriteOptions  # noqa: PLC0415
    from hookwright.commands.write import write as write_draft  # noqa: PLC0415

    options = WriteOptions(
        terms=terms.upper() if terms else None,
        form=form.lower(),
        size=size,
        left_handed=left_handed,
        one_a_line=one_a_line,
        read_as=read_as.upper() if read_as else None,
        file=file or "",
    )
    sys.exit(write_draft(path, options))
