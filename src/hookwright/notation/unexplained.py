"""Which stitches that are made in many ways does a list of abbreviations leave out?

A cluster, a puff or a shell is of so many stitches as the pattern says. Where a pattern
lists its abbreviations, down to the chain, and says nothing of such a stitch, nobody can
work it.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator

from hookwright.finding import Finding, Severity
from hookwright.notation.collected import Collected
from hookwright.notation.outside import outside_rows
from hookwright.notation.tree import (
    Definition,
    InOnePlace,
    Make,
    Node,
    Repeat,
    RowText,
    Tail,
)
from hookwright.notation.vocabulary import singular, standard_words
from hookwright.source import Span

_LISTS_ALL = re.compile(r"\bch(?:s|\(s\))?\s*(?:[-–—=:]|\bis\b)\s*chain", re.IGNORECASE)
_MADE_IN_MANY_WAYS = ("cluster", "group")


def unexplained(draft: Collected, definitions: Iterable[Definition]) -> Iterator[Finding]:
    """A finding for each stitch that a full list of abbreviations leaves out."""
    if not _LISTS_ALL.search(draft.source.text):
        return
    own = {name for definition in definitions for name in definition.names}
    told = {
        form
        for line in outside_rows(draft)
        for token in line
        for form in singular(token.text)
    }
    open_stitches = {
        stitch: words for stitch, words in _spellings().items()
        if stitch not in own and not words & told
    }  # fmt: skip
    for part in draft.parts:
        for row in part.rows:
            for make in _makes(row.body):
                words = open_stitches.pop(make.stitch, None)
                if words:
                    span = _word_in(draft, row.place(make.span), words)
                    yield _finding(draft.source.slice(span), span, row, part.name)


def _spellings() -> dict[str, set[str]]:
    """The stitches that are made in many ways, with the words each may begin with."""
    found: dict[str, set[str]] = {}
    for first, phrases in standard_words().items():
        for _, stitch in phrases:
            if stitch.family in _MADE_IN_MANY_WAYS:
                found.setdefault(stitch.id, set()).add(first)
    return found


def _makes(nodes: Iterable[Node]) -> Iterator[Make]:
    for node in nodes:
        if isinstance(node, Make):
            yield node
        elif isinstance(node, (Repeat, InOnePlace, Tail)):
            yield from _makes(node.body)


def _word_in(draft: Collected, span: Span, words: set[str]) -> Span:
    """Where a stitch is named within the words of an instruction."""
    named = re.search(
        rf"\b(?:{'|'.join(sorted(words))})\w*", draft.source.slice(span), re.IGNORECASE
    )
    if named is None:
        return span
    return Span(span.start + named.start(), span.start + named.end())


def _finding(word: str, span: Span, row: RowText, part: str) -> Finding:
    label = row.label
    return Finding(
        "undefined-abbreviation",
        Severity.WARNING,
        span,
        f'"{word}" is not among the abbreviations, and it is made in many ways.',
        "Say how it is worked, with the other stitches.",
        row=label.text if label else None,
        part=part or None,
        numbers=(label.numbers[0], label.numbers[-1]) if label and label.numbers else None,
    )
