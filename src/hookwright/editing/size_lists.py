"""Has every list of the rows one number a size, and does the first chain grow with them?

Numbers of rows or repeats may stay or fall from one size to the next; the chain of a piece
whose sizes grow does not.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from hookwright.design.facts import Along, Finished
from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Severity
from hookwright.notation.tree import Amount, Chain, Label, Make, RowText
from hookwright.regex import regex
from hookwright.source import Span
from hookwright.working.lists_by_size import lists_by_size
from hookwright.working.multiple import fits
from hookwright.working.problems import problems_of


def size_lists(manuscript: Manuscript) -> Iterator[Finding]:
    """Lists with a number too few or too many, or that do not grow, each at its place."""
    sizes = len(manuscript.pattern.sizes)
    if sizes < 2:
        return
    yield from _in_rows(manuscript, sizes)
    yield from _in_labels(manuscript, sizes)
    yield from _chains(manuscript)


def _in_rows(manuscript: Manuscript, sizes: int) -> Iterator[Finding]:
    """Lists in the rows.

    Numbers that stand in brackets alone may be anything, save in a text of such lists.
    """
    found = list(_lists_of_rows(manuscript))
    whole = sum(_stands_alone(manuscript, span) for _, _, span, n in found if n == sizes)
    for part, row, span, numbers in found:
        alone = _stands_alone(manuscript, span)
        if numbers != sizes and (not alone or whole >= _FEWEST_ALONE):
            words = " ".join(manuscript.source.slice(span).split())
            yield _told(words, numbers, span, row, part, sizes)


_FEWEST_ALONE = 3
"""So many whole lists in brackets alone, "ch (52, 58, 64)", are a manner of writing."""


def _lists_of_rows(manuscript: Manuscript) -> Iterator[tuple[str, RowText, Span, int]]:
    """Every list with its part, its row, its place, and how many numbers it has."""
    lists: dict[object, list[Amount]] = {}  # rows written alike are looked at once
    for part in manuscript.pattern.parts:
        for row in part.rows:
            words = (row.body, row.claims)
            if words not in lists:
                lists[words] = list(lists_by_size(words))
            for amount in lists[words]:
                yield part.name, row, row.place(amount.span), len(amount.values)


def _stands_alone(manuscript: Manuscript, span: Span) -> bool:
    """Whether a list begins with its bracket: no number stands before it."""
    return manuscript.source.slice(span)[:1] in "([{"


def _told(
    words: str, count: int, span: Span, row: RowText, part: str, sizes: int
) -> Finding:
    numbers = row.label.numbers if row.label else ()
    return Finding(
        "size-list",
        Severity.ERROR,
        span,
        f"{words} has {count} numbers for {sizes} sizes.",
        "Give one number a size, with a dash for a size that has none.",
        row=row.label.text if row.label else None,
        part=part or None,
        numbers=(numbers[0], numbers[-1]) if numbers else None,
    )


def _in_labels(manuscript: Manuscript, sizes: int) -> Iterator[Finding]:
    """Lists in what rows are called: "Next 9 (9, 10) rnds", "Rows 5-8 (9, 10)".

    A row that is only for some sizes may have a number for each of those.
    """
    for part in manuscript.pattern.parts:
        for row in part.rows:
            label = row.label
            if label is None or len(label.sizes or manuscript.pattern.sizes) != sizes:
                continue
            amount = label.next_rows
            numbers = len(amount.values if amount is not None else label.by_size)
            if numbers not in (0, 1, sizes):
                span = amount.span if amount is not None else _list_of(manuscript, label)
                words = " ".join(manuscript.source.slice(span).split())
                yield _told(words, numbers, span, row, part.name, sizes)


_BRACKET = r"[(\[{][^()\[\]{}\n]{1,80}[)\]}]"
LIST_OF_NUMBERS = regex(
    r"(?<![\d.,/(])\d{1,5}(?:[.,]\d{1,2}|[¼½¾]|[ \t]\d/\d)?"
    rf"(?P<rest>(?:[ \t]?{_BRACKET}){{1,12}})"
)


def _list_of(manuscript: Manuscript, label: Label) -> Span:
    """Where the list stands in what a row is called."""
    found = LIST_OF_NUMBERS.search(manuscript.source.text, label.span.start, label.span.end)
    return label.span if found is None else Span(*found.span())


def _chains(manuscript: Manuscript) -> Iterator[Finding]:
    """The first chain of a piece whose sizes grow, and whose multiple has one parity."""
    found = _first_chain(manuscript)
    if found is None or any(
        problems_of(working, outcome)
        for working in manuscript.worked.sizes
        for outcome in working.outcomes
    ):
        return
    amount, span = found
    numbers = [value for value in amount.values if value is not None]
    if len(numbers) != len(manuscript.pattern.sizes):
        return
    yield from _shrinking(manuscript, span, numbers)
    yield from _both_odd_and_even(manuscript, amount, span, numbers)


def _first_chain(manuscript: Manuscript) -> tuple[Amount, Span] | None:
    """The chain that the pattern begins with, where it has one number a size."""
    for part in manuscript.pattern.parts:
        for row in part.rows:
            for node in row.body:
                if isinstance(node, Chain):
                    several = len(node.amount.values) == len(manuscript.pattern.sizes)
                    return (node.amount, row.place(node.amount.span)) if several else None
                if isinstance(node, Make):
                    return None
    return None


def _shrinking(
    manuscript: Manuscript, span: Span, numbers: Sequence[int]
) -> Iterator[Finding]:
    names = manuscript.pattern.sizes
    sizes = [f.measure.mm for f in manuscript.design.finished if grows_with_size(f)]
    growing = sizes and all(_rises(mm, len(names)) for mm in sizes)
    falls = [at for at, (a, b) in enumerate(pairwise(numbers), 1) if b < a]
    if not growing or len(falls) != 1 or numbers[-1] <= numbers[0]:
        return
    at = falls[0]
    yield Finding(
        "size-list",
        Severity.WARNING,
        span,
        f"The chain falls from {numbers[at - 1]} in size {names[at - 1]} to {numbers[at]} "
        f"in size {names[at]}, though the sizes grow.",
        "Look at the order of the numbers.",
        sizes=(names[at],),
    )


_MAY_FALL = frozenset("sleeve armhole yoke shoulder neck cuff strap border edging".split())


def grows_with_size(finished: Finished) -> bool:
    """Whether a measurement is one that grows with the sizes."""
    return finished.along in (Along.WIDTH, Along.AROUND) and not _MAY_FALL & set(
        finished.of.split()
    )


def _rises(mm: Sequence[Fraction | None], sizes: int) -> bool:
    known = [value for value in mm if value is not None]
    return len(known) == sizes and all(a < b for a, b in pairwise(known))


def _both_odd_and_even(
    manuscript: Manuscript, amount: Amount, span: Span, numbers: Sequence[int]
) -> Iterator[Finding]:
    """Where every repeat takes an even number, all sizes are odd or all are even."""
    stated = manuscript.pattern.multiples
    if len(stated) != 1 or stated[0].each % 2 or len({n % 2 for n in numbers}) < 2:
        return
    if not all(
        fits(stated[0], working, chains)
        for working, chains in zip(manuscript.worked.sizes, numbers, strict=False)
    ):
        return
    yield Finding(
        "size-list",
        Severity.ADVICE,
        span,
        f"{amount} is odd in some sizes and even in others, over a multiple of "
        f"{stated[0].each}.",
        "Take the edge stitches alike in every size.",
    )
