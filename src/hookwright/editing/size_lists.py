"""Has every list of numbers in the rows one number a size?"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Severity
from hookwright.notation.tree import Amount, RowText
from hookwright.source import Span


def size_lists(manuscript: Manuscript) -> Iterator[Finding]:
    """Lists that have a number too few or too many, each at its place.

    Numbers that stand in brackets alone may be anything: they are not looked at.
    """
    pattern, source = manuscript.pattern, manuscript.source
    sizes = len(pattern.sizes)
    if sizes < 2:
        return
    for part in pattern.parts:
        for row in part.rows:
            for amount in _lists_in((row.body, row.claims)):
                alone = source.slice(row.place(amount.span))[:1] in "([{"
                if len(amount.values) != sizes and not alone:
                    yield _told(amount, row, part.name, sizes)


def _lists_in(value: object) -> Iterator[Amount]:
    """Every list with a number a size among some instructions and counts."""
    if isinstance(value, Amount):
        if len(value.values) > 1:
            yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from _lists_in(item)
    elif isinstance(value, Struct) and not isinstance(value, Span):
        for name in value.__struct_fields__:
            inner = getattr(value, name)
            if isinstance(inner, (tuple, Struct)):
                yield from _lists_in(inner)


def _told(amount: Amount, row: RowText, part: str, sizes: int) -> Finding:
    numbers = row.label.numbers if row.label else ()
    return Finding(
        "size-list",
        Severity.ERROR,
        row.place(amount.span),
        f"{amount} has {len(amount.values)} numbers for {sizes} sizes.",
        "Give one number a size, with a dash for a size that has none.",
        row=row.label.text if row.label else None,
        part=part or None,
        numbers=(numbers[0], numbers[-1]) if numbers else None,
    )
