"""The commands and their options; what each does stands in `commands/`.

A command's module is imported when it is called, so that `--help` answers at once.
"""

from __future__ import annotations

import gc
import sys

import click

from hookwright import __version__


def run() -> None:
    """The program from the shell.

    A check makes frozen values, which hold no cycles, and then the program ends: to look
    for cycles among them would take a tenth of its time.
    """
    gc.disable()
    try:
        main(prog_name="hookwright")
    finally:
        gc.freeze()


@click.group(context_settings={"help_option_names": ["-h", "--help"]})
@click.version_option(__version__, message="%(prog)s %(version)s")
def main() -> None:
    """Read written crochet patterns and prove their counts."""


@main.command()
@click.argument("paths", nargs=-1, metavar="PATH...")
@click.option("--quiet", is_flag=True, help="Findings and summary, without the rows.")
@click.option(
    "--all-rows", is_flag=True, help="A line for every row, also where rows are alike."
)
@click.option(
    "--advice", is_flag=True, help="Advice too, of which otherwise only the number is told."
)
@click.option(
    "--explain",
    metavar="RULE",
    help="Print what a rule is about, with a bad and a better example; no PATH is needed.",
)
@click.option(
    "--fix",
    is_flag=True,
    help="Make the changes that are safe unread (.md, .txt); the earlier file is kept.",
)
@click.option(
    "--report",
    metavar="FILE",
    help="Write a report to hand on, as FILE.html or FILE.md.",
)
@click.option(
    "--terms",
    type=click.Choice(["us", "uk"], case_sensitive=False),
    help="Read the pattern in these terms, whatever it says of itself.",
)
@click.option(
    "--text", "as_text", is_flag=True, help="Print the text as it is read, and stop."
)
@click.option(
    "--json", "as_json", is_flag=True, help="Print an object for programs, one a line."
)
def check(
    paths: tuple[str, ...],
    *,
    quiet: bool,
    all_rows: bool,
    advice: bool,
    explain: str | None,
    fix: bool,
    report: str | None,
    terms: str | None,
    as_text: bool,
    as_json: bool,
) -> None:
    """Work every stitch of a pattern and say whether its counts add up.

    PATH is a draft (.md .txt .html .docx .pdf), a project folder with its pattern.md, or a
    dash for what is piped in. A worksheet.toml beside a pattern.md is read with it.

    The exit status is 0 for a clean pattern, 1 where something has to be mended, 2 where a
    draft could not be read, or holds no rows.
    """
    if explain is not None:
        from hookwright.commands.explain import explain as explain_rule  # noqa: PLC0415

        sys.exit(0 if explain_rule(explain) else 2)
    _refuse_what_does_not_go_together(paths, report, fix=fix, as_text=as_text)
    from hookwright.commands.check import CheckOptions, check_each  # noqa: PLC0415

    options = CheckOptions(
        terms=terms.upper() if terms else None,
        quiet=quiet,
        all_rows=all_rows,
        advice=advice,
        fix=fix,
        report=report or "",
        as_text=as_text,
        as_json=as_json,
    )
    sys.exit(check_each(paths, options))


def _refuse_what_does_not_go_together(
    paths: tuple[str, ...], report: str | None, *, fix: bool, as_text: bool
) -> None:
    if not paths:
        raise click.UsageError("Missing argument 'PATH...'.")
    if as_text and (fix or report):
        raise click.UsageError("--text only prints the text: it takes no other work.")
    if report is None:
        return
    if len(paths) > 1:
        raise click.UsageError("A report is of one pattern: give one PATH with --report.")
    if not report.lower().endswith((".html", ".md")):
        raise click.UsageError("The name of a report ends in .html or .md.")


@main.command()
@click.argument("draft", metavar="DRAFT")
@click.argument("folder", metavar="FOLDER")
def bring(draft: str, folder: str) -> None:
    """Make a project folder of a draft: its pattern.md, and a worksheet.toml.

    DRAFT is a file (.md .txt .html .docx .pdf), or a dash for what is piped in. FOLDER is
    made if it is not there; a pattern.md or worksheet.toml in it is never written over.

    The exit status is 0 if the draft was brought in, 2 if it could not be.
    """
    from hookwright.commands.bring import bring as bring_in  # noqa: PLC0415

    sys.exit(bring_in(draft, folder))


@main.command()
@click.argument("folder", required=False, metavar="FOLDER")
@click.option(
    "--fabric",
    metavar="NAME",
    help="The fabric to begin from; plain rows if none is named.",
)
@click.option(
    "--terms",
    type=click.Choice(["us", "uk"], case_sensitive=False),
    default="us",
    help="Write the pattern in these terms; US if none are told.",
)
@click.option(
    "--list", "listed", is_flag=True, help="Print the fabrics to choose from, and stop."
)
def new(folder: str | None, *, fabric: str | None, terms: str, listed: bool) -> None:
    """Make a project folder with a pattern to begin from: the sample of a fabric.

    The pattern.md in it is whole, with every count proven; beside it stands a
    worksheet.toml. FOLDER is made if it is not there; a pattern.md or worksheet.toml in it
    is never written over.

    The exit status is 0 if the folder was made, 2 if it could not be.
    """
    if listed == (folder is not None):
        raise click.UsageError(
            "--list only prints the fabrics: it takes no FOLDER."
            if listed
            else "Missing argument 'FOLDER'."
        )
    from hookwright.commands.new import list_fabrics, new_project  # noqa: PLC0415

    if folder is None:
        sys.exit(list_fabrics(terms.upper()))
    sys.exit(new_project(folder, fabric, terms.upper()))


@main.command()
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
