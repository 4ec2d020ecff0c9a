"""Worksheets and patterns that the tests of colours are made of."""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.checking import Checked, check
from hookwright.colour.facts import ColourPlan
from hookwright.colour.planning import colour_plan
from hookwright.reading.markdown import markdown_draft
from hookwright.source import Source

PATTERN = """# Eider Strip

US terms. Ch 1 does not count as a stitch.

Ch 21.
Row 1: Sc in 2nd ch from hook and in each ch across, turn until it is long enough. (20 sc)
"""
FIVE = ("#5B7C99", "#A1442A", "#F4F1E6", "#556B2F", "#202A44")


def worksheet(codes: Sequence[str] = FIVE, stripes: str = "", more: str = "") -> str:
    """A worksheet with a yarn for each colour, lettered from A, and the wishes."""
    yarns = [
        f'[[yarn]]\nletter = "{chr(ord("A") + at)}"\nhex = "{code}"\n'
        for at, code in enumerate(codes)
    ]
    return f"{more}{''.join(yarns)}[stripes]\n{stripes}"


def checked(sheet: str, pattern: str = PATTERN) -> Checked:
    """A pattern as read with a worksheet."""
    return check(
        markdown_draft(pattern, "pattern.md"), None, Source(sheet, "worksheet.toml")
    )


def planned(
    sheet: str, pattern: str = PATTERN, orders: int = 6, seed: int = 1
) -> ColourPlan:
    """The orders for a worksheet."""
    return colour_plan(checked(sheet, pattern), orders, seed)
