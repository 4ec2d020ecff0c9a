"""A sheet as the page shows it, and files that she keeps: their names and their bytes."""

from __future__ import annotations

from base64 import b64encode
from collections.abc import Iterable
from typing import Any

from msgspec import structs

from hookwright.checking import Checked
from hookwright.release.copies import file_stem
from hookwright.sheets.facts import Block, Sheet
from hookwright.sheets.page import as_page
from hookwright.sheets.paper import as_pdf

PDF, PAGE = "pdf", "html"
SHEET_FILES = ({"keep": PDF, "says": "On paper (PDF)"}, {"keep": PAGE, "says": "As a page"})
"""The kinds of file that every sheet can be kept as, with what their buttons say."""


def blocks(found: Iterable[Block]) -> list[dict[str, Any]]:
    """What stands on a sheet, each with what it is."""
    return [{"is": type(block).__name__, **structs.asdict(block)} for block in found]


def sheet_file(sheet: Sheet, stem: str, kind: str, units: str) -> dict[str, Any]:
    """A sheet as a file; paper is US letter where lengths are in inches, else A4."""
    if kind == PDF:
        paper = "us-letter" if units == "in" else "a4"
        return as_file(f"{stem}.pdf", as_pdf(sheet, paper))
    return as_file(f"{stem}.html", as_page(sheet).encode())


def as_file(name: str, data: bytes) -> dict[str, Any]:
    """A file for her to keep."""
    return {"file": {"name": name, "data": b64encode(data).decode("ascii")}}


def stem_of(checked: Checked) -> str:
    """How the names of files of a design begin."""
    return file_stem(checked.design.title or checked.draft.title or "")
