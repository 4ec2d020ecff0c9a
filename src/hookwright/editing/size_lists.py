"""Has every list one number a size, and do the lists grow as the sizes do?

Lists stand in the rows, among the measurements, in the gauge and in the materials. Numbers
of rows or repeats may stay or fall from one size to the next; a chest that falls is a slip.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from hookwright.design.facts import Along, Finished, Holds, Measure
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.same_length import disagrees
from hookwright.editing.told_lengths import in_unit, what_is_told
from hookwright.finding import Finding, Severity
from hookwright.notation.tree import Amount, Chain, Label, Make, RowText
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
    yield from _in_measures(manuscript, sizes)
    yield from _in_materials(manuscript, sizes)
    yield from _falling(manuscript)
    yield from _chains(manuscript)


def _in_rows(manuscript: Manuscript, sizes: int) -> Iterator[Finding]:
    """Lists in the rows.

    Numbers that stand in brackets alone may be anything: they are not looked at.
    """
    lists: dict[object, list[Amount]] = {}  # rows written alike are looked at once
    for part in manuscript.pattern.parts:
        for row in part.rows:
            words = (row.body, row.claims)
            if words not in lists:
                lists[words] = list(lists_by_size(words))
            for amount in lists[words]:
                alone = manuscript.source.slice(row.place(amount.span))[:1] in "([{"
                numbers = len(amount.values)
                if numbers != sizes and not alone:
                    span = row.place(amount.span)
                    yield _told(str(amount), numbers, span, row, part.name, sizes)


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


def _list_of(manuscript: Manuscript, label: Label) -> Span:
    """Where the list stands in what a row is called."""
    found = _LIST.search(manuscript.source.text, label.span.start, label.span.end)
    return label.span if found is None else Span(*found.span())


def _in_measures(manuscript: Manuscript, sizes: int) -> Iterator[Finding]:
    """Lists among the measurements and in the gauge, each unit by itself."""
    design = manuscript.design
    measures = [finished.measure for finished in design.finished]
    measures += [m for gauge in design.gauges for m in (gauge.width, gauge.height) if m]
    told: set[Span] = set()
    for measure in measures:
        for own in (measure, measure.also):
            if own is None or len(own.mm) in (1, sizes) or own.span in told:
                continue
            told.add(own.span)
            yield _too_few_or_many(manuscript, own.span, len(own.mm), sizes)


_BRACKET = r"[(\[][^()\[\]\n]{1,80}[)\]]"
_LIST = re.compile(
    r"(?<![\d.,/(])\d{1,5}(?:[.,]\d{1,2}|[¼½¾]|[ \t]\d/\d)?"
    rf"(?P<rest>(?:[ \t]?{_BRACKET}){{1,4}})"
)
_IN_BRACKETS = re.compile(r"[(\[]([^()\[\]]+)")
_NUMBER = re.compile(r"[ \t]*(?:\d{1,5}(?:\.\d{1,2}|[¼½¾]|[ \t]\d/\d)?|[-–—])[ \t]*")


def _in_materials(manuscript: Manuscript, sizes: int) -> Iterator[Finding]:
    """Lists of balls, metres or hooks: "3 (4, 4, 5) balls", "5 (6, 6, 7) [8, 9] skeins"."""
    source = manuscript.source
    done = 0
    for section in manuscript.design.sections:
        if section.holds is not Holds.MATERIALS:
            continue
        for found in _LIST.finditer(
            source.text, max(done, section.body.start), section.body.end
        ):
            numbers, end = _numbers_in(found)
            if numbers not in (0, sizes):
                span = Span(found.start(), end)
                yield _too_few_or_many(manuscript, span, numbers, sizes)
        done = max(done, section.body.end)


def _numbers_in(found: re.Match[str]) -> tuple[int, int]:
    """How many numbers a list has, and where it ends; none where it is no list.

    A bracket behind it that holds words is none of its own: "3 (4, 5) (50 g each)".
    """
    numbers, end = 1, found.start("rest")
    for bracket in _IN_BRACKETS.finditer(found["rest"]):
        own = re.split(r"[,:;/]", bracket[1])
        if not all(map(_NUMBER.fullmatch, own)):
            break
        numbers += len(own)
        end = found.start("rest") + bracket.end() + 1
    return (numbers, end) if numbers > _FEWEST else (0, end)


_FEWEST = 2
"""What may be no list: one number in brackets behind another is a hook or a weight."""


def _too_few_or_many(
    manuscript: Manuscript, span: Span, numbers: int, sizes: int
) -> Finding:
    words = " ".join(manuscript.source.slice(span).split())
    return Finding(
        "size-list",
        Severity.ERROR,
        span,
        f"{words} has {numbers} numbers for {sizes} sizes.",
        "Give one number a size, with a dash for a size that has none.",
    )


def _falling(manuscript: Manuscript) -> Iterator[Finding]:
    """Widths and girths that fall from one size to the next, and rise elsewhere."""
    names = manuscript.pattern.sizes
    for finished in manuscript.design.finished:
        falls = _fall(finished.measure, len(names)) if _grows(finished) else None
        if falls is None:
            continue
        at, before, after = falls
        unit, what = finished.measure.unit, what_is_told(finished)
        yield Finding(
            "size-list",
            Severity.WARNING,
            finished.measure.span,
            f"The {what} falls from {in_unit(before, unit)} in size {names[at - 1]} to "
            f"{in_unit(after, unit)} in size {names[at]}.",
            "Look at the order of the numbers.",
            sizes=(names[at],),
        )


_MAY_FALL = frozenset("sleeve armhole yoke shoulder neck cuff strap border edging".split())


def _grows(finished: Finished) -> bool:
    """Whether a measurement is one that grows with the sizes."""
    return finished.along in (Along.WIDTH, Along.AROUND) and not _MAY_FALL & set(
        finished.of.split()
    )


def _fall(measure: Measure, sizes: int) -> tuple[int, Fraction, Fraction] | None:
    """The size at which a list falls that rises elsewhere, with both lengths."""
    if len(measure.mm) != sizes or any(disagrees(measure, at) for at in range(sizes)):
        return None
    known = [value for value in measure.mm if value is not None]
    if len(known) != sizes:
        return None
    steps = list(pairwise(known))
    falling = [at for at, (a, b) in enumerate(steps) if b < a]
    if len(falling) != 1 or not any(b > a for a, b in steps):
        return None
    return falling[0] + 1, *steps[falling[0]]


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
    sizes = [f.measure.mm for f in manuscript.design.finished if _grows(f)]
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
