"""Words of the other terms in a pattern: "sc" in UK terms, "htr" in US ones."""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.finding import Edit, Finding, Severity
from hookwright.notation.tree import InOnePlace, Make, Node, Pattern, Repeat, Tail
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
    own = {name for definition in pattern.definitions for name in definition.names}
    seen: set[str] = set()
    for part in pattern.parts:
        for row in part.rows:
            for node in _makes(row.body):
                base = base_of(node.stitch)
                if base not in only or base in seen or base in own:
                    continue
                seen.add(base)
                numbers = row.label.numbers if row.label else ()
                meant = _meant(base, terms)
                yield Finding(
                    "mixed-terms", Severity.ERROR, node.span,
                    f'"{base}" is a {only[base]} word, but the pattern is in {terms} terms.',
                    f'Write "{meant}" if that is meant.' if meant else "Use one set of terms.",
                    edit=Edit(node.span, source.slice(node.span).replace(base, meant))
                    if meant else None,
                    row=row.label.text if row.label else None, part=part.name or None,
                    numbers=(numbers[0], numbers[-1]) if numbers else None,
                )  # fmt: skip


_OTHER = {
    "UK": {"sc": "dc", "hdc": "htr", "esc": "exdc"},
    "US": {"htr": "hdc", "trtr": "dtr"},
}


def _meant(base: str, terms: str) -> str:
    return _OTHER[terms].get(base, "")


def _makes(nodes: tuple[Node, ...]) -> Iterator[Make]:
    for node in nodes:
        if isinstance(node, Make):
            yield node
        elif isinstance(node, (Repeat, InOnePlace, Tail)):
            yield from _makes(node.body)
