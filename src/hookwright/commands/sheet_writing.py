"""A sheet in a file of its own: a page, Markdown, or a PDF."""

from __future__ import annotations

from pathlib import Path

from hookwright.commands.writing import write_new, write_over
from hookwright.sheets.facts import Sheet
from hookwright.sheets.markdown import as_markdown
from hookwright.sheets.page import MARK, as_page
from hookwright.sheets.paper import as_pdf
from hookwright.terminal import say_aside

ENDINGS = (".html", ".md", ".pdf")
"""What the name of a sheet may end in."""


def write_sheet(sheet: Sheet, file: str, paper: str = "a4") -> None:
    """Write a sheet; a page is written over an earlier one, other files never.

    Raises:
        NotWritten: If something else is there, or it cannot be written.
    """
    path = Path(file)
    if file.lower().endswith(".html"):
        write_over(path, as_page(sheet).encode(), MARK.encode())
    elif file.lower().endswith(".pdf"):
        write_new(path, as_pdf(sheet, paper))
    else:
        write_new(path, as_markdown(sheet).encode())
    say_aside(f"{sheet.kind} is in {file}.")
