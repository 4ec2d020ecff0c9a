"""Words of the other terms in a pattern: "sc" in UK terms, "htr" in US ones."""

from __future__ import annotations

from collections.abc import Iterator
from typing import NamedTuple

from hookwright.finding import Edit, Finding, Severity
from hookwright.notation.tree import InOnePlace, Make, Node, Pattern, Repeat, RowText, Tail
from hookwright.notation.vocabulary import standard_words
from hookwright.source import Source
from hookwright.working.stitches import base_of


def mixed_terms(pattern: Pattern, source: Source, terms: str | None) -> Iterator[Finding]:
    """Words that exist only in the other terms, each once."""
    if terms is None:
        return
    only = {
        stitch.id: stitch.terms
        for rows in standard_words().values()
        for _, stitch in rows
        if stitch.terms and stitch.terms != terms
    }
    seen = {name for definition in pattern.definitions for name in definition.names}
    known: set[int] = set()
    for part in pattern.parts:
        for row in part.rows:
            if id(row.body) in known:  # rows written alike share their instructions
                continue
            known.add(id(row.body))
            for node in _makes(row.body):
                base = base_of(node.stitch)
                if base in only and base not in seen:
                    seen.add(base)
                    word = _Word(base, only[base], _OTHER[terms].get(base, ""))
                    yield _finding(word, terms, node, row, part.name, source)


_OTHER = {
    "UK": {"sc": "dc", "hdc": "htr", "esc": "exdc"},
    "US": {"htr": "hdc", "trtr": "dtr"},
}


class _Word(NamedTuple):
    """A word of the other terms, and the one that may be meant; "" for none."""

    word: str
    of: str
    meant: str


def _finding(
    found: _Word, terms: str, node: Make, row: RowText, part: str, source: Source
) -> Finding:
    word, of, meant = found
    span = row.place(node.span)
    numbers = row.label.numbers if row.label else ()
    corrected = source.slice(span).replace(word, meant)
    return Finding(
        "mixed-terms",
        Severity.ERROR,
        span,
        f'"{word}" is a {of} word, but the pattern is in {terms} terms.',
        f'Write "{meant}" if that is meant.' if meant else "Use one set of terms.",
        edit=Edit(span, corrected) if meant else None,
        row=row.label.text if row.label else None,
        part=part or None,
        numbers=(numbers[0], numbers[-1]) if numbers else None,
    )


def _makes(nodes: tuple[Node, ...]) -> Iterator[Make]:
    for node in nodes:
        if isinstance(node, Make):
            yield node
        elif isinstance(node, (Repeat, InOnePlace, Tail)):
            yield from _makes(node.body)
