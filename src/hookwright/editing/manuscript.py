"""What a rule of the tech edit may look at."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from msgspec import Struct

from hookwright.design.facts import Design
from hookwright.finding import Finding
from hookwright.notation.tree import Pattern
from hookwright.source import Source
from hookwright.working.outcome import WorkedPattern


class Manuscript(Struct, frozen=True):
    """A pattern that has been read and worked, with all that is known of it.

    Attributes:
        source: Its text.
        pattern: Its tree.
        worked: Its rows in every size.
        design: What it says beside the rows.
        terms: The terms it was read in; None where nothing tells them.
        only_words: Whether it is known to hold no pictures.
    """

    source: Source
    pattern: Pattern
    worked: WorkedPattern
    design: Design
    terms: str | None
    only_words: bool = False


Rule = Callable[[Manuscript], Iterator[Finding]]
"""What looks over a manuscript, and says what is wrong with it."""
