"""`hookwright check`: its options."""

from __future__ import annotations

import sys

import click

from hookwright.cli.options import read_in_terms


@click.command()
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
@read_in_terms
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
