"""What is told beside the rows anew: the terms, the list of abbreviations, the level."""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.checking import Checked
from hookwright.finding import Edit
from hookwright.source import Span
from hookwright.wording.asked import Asked
from hookwright.wording.edits import Layered
from hookwright.wording.told_terms import saying_terms


def beside(
    checked: Checked, asked: Asked, text: Layered, *, tells_terms: bool
) -> Iterator[Edit]:
    """The changes beside the rows, in the text that is in its terms already."""
    if tells_terms:
        said = saying_terms(checked, str(asked.terms))
        at = text.on(said.span.start, last=True)
        yield Edit(Span(at, at), said.replacement)
