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
@click.option(
    "--terms",
    type=click.Choice(["us", "uk"], case_sensitive=False),
    help="Read the pattern in these terms, whatever it says of itself.",
)
@click.option(
    "--write",
    "file",
    metavar="FILE",
    help="Write the pattern with the edging in it to FILE.md or FILE.txt, a new file.",
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
        as_json=as_json,
    )
    sys.exit(edge_pattern(path, options))


@main.command()
@click.argument("path", metavar="PATH")
@click.option(
    "--gauge",
    metavar="GAUGE",
    default="",
    help='Another gauge: "14 sts and 8 rows = 4 in", "1 repeat = 3 1/2 in, 4 rows = 2 in".',
)
@click.option(
    "--terms",
    type=click.Choice(["us", "uk"], case_sensitive=False),
    help="Read the pattern in these terms, whatever it says of itself.",
)
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


@main.command()
@click.argument("path", metavar="PATH")
@click.option("--width", metavar="LENGTH", help='How wide: 45in, 45", 114cm.')
@click.option("--height", metavar="LENGTH", help="How high or long: 60in, 1.5 m.")
@click.option(
    "--size",
    "sizes",
    metavar="NAME",
    multiple=True,
    help='A size by name (throw, cot, "hat child"), a kind (blankets), or "50 x 60 in".',
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
@click.option(
    "--terms",
    type=click.Choice(["us", "uk"], case_sensitive=False),
    help="Read the pattern in these terms, whatever it says of itself.",
)
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
