"""A project folder made anew: its pattern.md and worksheet.toml, nothing written over."""

from __future__ import annotations

import shlex
from pathlib import Path

from hookwright.commands.project import PATTERN_FILE, WORKSHEET_FILE
from hookwright.commands.writing import NotWritten, cannot_be_written, write_new
from hookwright.design.worksheet.template import Template
from hookwright.listing.columns import writable


def refuse_what_is_there(folder: Path) -> None:
    """Looks whether a project can be made in a folder, which need not be there yet.

    Raises:
        NotWritten: If it holds one already, or is a file.
    """
    for name in (PATTERN_FILE, WORKSHEET_FILE):
        if (folder / name).exists():
            raise NotWritten(
                f"There is a {name} in {folder} already, and nothing was written over it."
                " Choose another folder."
            )
    if folder.exists() and not folder.is_dir():
        raise NotWritten(f"{folder} is a file. Choose a folder.")


def write_project(folder: Path, text: str, sheet: Template) -> None:
    """Write a pattern and its worksheet; the folder is made if it is not there.

    Raises:
        NotWritten: If one of them is there, or cannot be written.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        raise NotWritten(cannot_be_written(folder, error)) from error
    write_new(folder / PATTERN_FILE, text.encode("utf-8", "replace"))
    write_new(folder / WORKSHEET_FILE, sheet.text.encode("utf-8", "replace"))


def worksheet_told(folder: Path, sheet: Template) -> str:
    """A sentence on what the worksheet holds already."""
    filled = ", ".join(sheet.filled) or "nothing yet"
    return (
        f"{folder / WORKSHEET_FILE}: filled in from the pattern: {filled}. All else stands"
        ' there as an example behind a "#".'
    )


def called_for(folder: Path) -> str:
    """A folder as it is named in a command."""
    return writable(shlex.quote(str(folder)))
