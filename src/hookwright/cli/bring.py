"""`hookwright bring`: its options."""

from __future__ import annotations

import sys

import click


@click.command()
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
