"""Patterns and worksheets that the tests of yarn are made of."""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.checking import Checked, check
from hookwright.reading.markdown import markdown_draft
from hookwright.source import Source
from hookwright.yarn.facts import YarnPlan
from hookwright.yarn.planning import Request, yarn_plan


def plain(stitches: int, rows: int, stripes: str = "", stitch: str = "sc") -> str:
    """A rectangle in sc or dc, with a line of stripes where one is wanted."""
    skip, turn = (2, 1) if stitch == "sc" else (3, 2)
    return f"""# Eider Strip

US terms. The ch at the start of a row does not count as a stitch.

{stripes}

## Strip

With A, ch {stitches + skip - 1}.
Row 1: {stitch.capitalize()} in {"2nd" if skip == 2 else "3rd"} ch from hook and in each ch across. Turn. ({stitches} {stitch})
Rows 2-{rows}: Ch {turn}, {stitch} in each st across. Turn. ({stitches} {stitch})
"""


def yarn(letter: str, more: str = "") -> str:
    """A yarn of 200 m in 100 g."""
    return f'[[yarn]]\nletter = "{letter}"\nball_m = 200\nball_g = 100\n{more}\n'


SWATCH = """[[swatch]]
stitch = "sc"
stitches = 20
rows = 24
width = "10 cm"
height = "10 cm"
weight_g = 12.3
"""
"""21 + 20 x 24 x 2 + 23 = 1,004 loops in 24.6 m: 24.5 mm a loop."""


def sheet(letters: Sequence[str] = "A", more: str = "", swatch: str = SWATCH) -> str:
    """A worksheet with a weighed swatch and a yarn for each letter."""
    return swatch + "".join(map(yarn, letters)) + more


def checked(pattern: str, worksheet: str | None = None) -> Checked:
    """A pattern as read with a worksheet."""
    source = None if worksheet is None else Source(worksheet, "worksheet.toml")
    return check(markdown_draft(pattern, "pattern.md"), None, source)


def planned(
    pattern: str, worksheet: str | None = None, request: Request | None = None
) -> YarnPlan:
    """The yarn of a pattern."""
    return yarn_plan(checked(pattern, worksheet), request or Request())
