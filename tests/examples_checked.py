"""The example patterns, each read and worked once for all tests that look at it."""

from __future__ import annotations

from functools import cache
from pathlib import Path

from hookwright.checking import Checked, check
from hookwright.commands.project import draft_at

FOLDER = Path(__file__).parent.parent / "examples"
NAMES = tuple(
    sorted(
        path.stem
        for path in FOLDER.glob("*.md")
        if path.stem != "README" and not path.stem.endswith("-slip")
    )
)


@cache
def example(name: str) -> Checked:
    """An example by its name."""
    return check(draft_at(str(FOLDER / f"{name}.md")))
