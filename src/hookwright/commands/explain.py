"""`hookwright check --explain`: the page of a rule.

The pages stand in `docs/findings/`; an installed program has a copy of them.
"""

from __future__ import annotations

import re
from contextlib import suppress
from difflib import get_close_matches
from pathlib import Path

from hookwright.regex import regex
from hookwright.terminal import Ink, ReaderGone, ink, say, say_aside

_INSTALLED = Path(__file__).parents[1] / "pages"
_IN_THE_REPOSITORY = Path(__file__).parents[3] / "docs" / "findings"
_HEADING = regex(r"^#{1,2} +(.*)$", re.MULTILINE)


def explain(rule: str) -> bool:
    """Print the page of a rule; of an unknown one say which there are, and return false."""
    pages = pages_by_rule()
    asked = rule.strip().lower()
    if asked in pages:
        with suppress(ReaderGone):
            say(page_told(pages[asked].read_text(encoding="utf-8"), ink()))
        return True
    near = get_close_matches(asked, pages, 1, 0.5)
    likely = f' Is "{near[0]}" meant?' if near else ""
    say_aside(f'There is no rule "{rule}".{likely}')
    say_aside(f"The rules are: {', '.join(pages)}.")
    return False


def pages_by_rule() -> dict[str, Path]:
    """Every page by the name of its rule, in the order of the alphabet."""
    folder = _INSTALLED if _INSTALLED.is_dir() else _IN_THE_REPOSITORY
    pages = sorted(folder.glob("*.md"))
    return {page.stem: page for page in pages if page.stem != "README"}


def page_told(page: str, colours: Ink) -> str:
    """A page as it is printed: on a terminal its headings are strong."""
    if not colours.on:
        return page.rstrip("\n")
    return _HEADING.sub(lambda found: colours.strong(found[0]), page).rstrip("\n")
