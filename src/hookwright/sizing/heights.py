"""Which numbers of a text change where a set of rows is worked more often, or less?

The end of a range ("Rows 3-110"), or how often a set is repeated; and behind it the labels,
the rows that are named, and the sides that a border is worked along.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.stripes import stripe_plans
from hookwright.notation.lexer import NUMBER_WORDS
from hookwright.notation.tree import (
    Amount,
    Evenly,
    Make,
    Node,
    Recall,
    Repeat,
    RowText,
    Tail,
)
from hookwright.regex import regex
from hookwright.sizing.along_edges import told_along
from hookwright.sizing.growing import Growing
from hookwright.sizing.row_sets import RowSets, row_sets
from hookwright.sizing.slots import Slot, Unwritten, slot
from hookwright.source import Span
from hookwright.working.recalled import recall_in

_ROW_NAMED = regex(
    r"\b(?:rows?|rnds?|rounds?)\s+(\d+)(?:\s*(?:-|–|to|and|&)\s*(\d+))?\b", re.IGNORECASE
)

_RANGE = regex(
    r"\d\s*(?:-|–|—|to|through|thru|till|until)\s*(?:(?:row|rnd|round)s?\s*)?\d",
    re.IGNORECASE,
)


class _Place(Struct, frozen=True):
    """Where a text tells how often its set of rows is worked.

    Attributes:
        row: The row of the text.
        last: The number of the last row it stands for; None if it has none.
        recall: The words that send to other rows, if it has any.
    """

    row: RowText
    last: int | None
    recall: Recall | None


def row_slots(
    checked: Checked, growing: Growing, part: int, more: Sequence[int]
) -> Iterator[Slot]:
    """The numbers of a text that tell of its rows, with so many sets more in each size.

    Raises:
        Unwritten: If the text does not tell how often the set is worked.
    """
    at = [n for n, outcome in enumerate(growing.base) if outcome.step.part == part]
    at = [n for n in at if growing.base[n].worked is not None]
    steps = [growing.steps[n] for n in at]
    sets = row_sets(steps)
    if sets is None:
        raise Unwritten(steps[0].span, "Its rows are no set that is worked again.")
    place = _place(checked, growing, sets, at)
    by = [number * sets.each for number in more]
    text = checked.source.text
    if place.recall is not None and place.recall.times is not None:
        amount = place.recall.times.amount
        if amount is not None:
            now = [_plus(amount.at(growing.size), number) for number in more]
            yield slot(amount, place.row.place(amount.span), now, "sets of rows")
    if place.last is None:
        return
    spans = set()
    for one in _behind(checked, part, place.row):
        if one.label is not None:
            spans.add(one.label.span)
            yield from _in_label(text, one.label.span, place.last, by)
    if place.row.label is not None:
        spans.add(place.row.label.span)
        yield from _in_label(text, place.row.label.span, place.last, by)
    begun_anew = dict(_begun_anew(checked, part, place.last))
    yield from _named(text, spans, begun_anew, place.last, by)
    yield from _stripes(checked, len(steps), by)
    yield from _sides(checked, growing.size, len(steps), by)


def _plus(number: int | None, more: int) -> int | None:
    return None if number is None else number + more


def _place(checked: Checked, growing: Growing, sets: RowSets, at: Sequence[int]) -> _Place:
    """The row of the text that tells of most of the sets."""
    inside = at[sets.first : sets.first + sets.times * sets.each]
    often: dict[int, int] = {}
    texts: dict[int, RowText] = {}
    for number in inside:
        row = growing.steps[number].text
        often[id(row)] = often.get(id(row), 0) + 1
        texts[id(row)] = row
    for key in sorted(often, key=lambda key: -often[key]):
        row = texts[key]
        recall = recall_in(row.nodes_worked)
        label = row.label
        in_range = label is not None and _RANGE.search(checked.source.slice(label.span))
        if often[key] > 1 and label is not None and in_range:
            if _tells_each(checked.source.text, row, label.numbers):
                said = "Its rows are told one by one by their numbers: write them yourself."
                raise Unwritten(row.span, said)
            return _Place(row, label.numbers[-1], recall)
        if recall is not None and recall.times is not None and recall.times.amount:
            last = max((s.number or 0 for s in growing.steps if s.text is row), default=0)
            return _Place(row, last or None, recall)
    said = "The text does not say in numbers how often its rows are worked."
    raise Unwritten(growing.steps[inside[0]].span, said)


def _tells_each(text: str, row: RowText, numbers: Sequence[int]) -> bool:
    """Whether a line says what several rows of it are: "Row 5 as Row 2, Row 6 as 3"."""
    end = text.find("\n", row.at)
    line = text[row.at : end if end >= 0 else len(text)]
    named = {int(found[1]) for found in _ROW_NAMED.finditer(line)}
    return len(named & set(numbers[:-1])) > 1


def _behind(checked: Checked, part: int, row: RowText) -> Sequence[RowText]:
    """The rows of a part behind one."""
    rows = checked.reading.pattern.parts[part].rows
    place = next(at for at, one in enumerate(rows) if one.at == row.at)
    return rows[place + 1 :]


def _in_label(text: str, span: Span, last: int, by: Sequence[int]) -> Iterator[Slot]:
    """The numbers of a label from the last row of the set on."""
    for found in re.finditer(r"\d+", text[span.start : span.end]):
        yield from _shifted(found, 0, span.start, last, by)


def _begun_anew(
    checked: Checked, part: int, last: int
) -> Iterator[tuple[Span, frozenset[int]]]:
    """Where other parts count their rows anew, and the numbers that are their own there."""
    for at, own in enumerate(checked.reading.pattern.parts):
        numbers = {
            n for row in own.rows if row.label is not None for n in row.label.numbers
        }
        if at != part and numbers and min(numbers) <= last:
            told = frozenset(numbers)
            yield from ((row.span, told) for row in own.rows)


def _named(
    text: str,
    labels: set[Span],
    begun_anew: Mapping[Span, frozenset[int]],
    last: int,
    by: Sequence[int],
) -> Iterator[Slot]:
    """Rows that are named elsewhere, but not those of a part that counts its rows anew."""
    for found in _ROW_NAMED.finditer(text):
        where = Span(found.start(), found.end())
        if any(_touch(span, where) for span in labels):
            continue
        others = [own for span, own in begun_anew.items() if _touch(span, where)]
        for group in (1, 2):
            if found[group] and not any(int(found[group]) in own for own in others):
                yield from _shifted(found, group, 0, last, by)


def _touch(one: Span, other: Span) -> bool:
    return one.start < other.end and other.start < one.end


def _shifted(
    found: re.Match[str], group: int, at: int, last: int, by: Sequence[int]
) -> Iterator[Slot]:
    number = int(found[group])
    if number >= last:
        span = Span(at + found.start(group), at + found.end(group))
        yield slot(Amount((number,), span), span, [number + n for n in by], "row number")


def _sides(checked: Checked, size: int, rows: int, by: Sequence[int]) -> Iterator[Slot]:
    """How many rows a border says that a side has, and rows that are counted in all."""
    elsewhere = told_along(checked)
    for own in checked.reading.pattern.parts:
        for row in own.rows:
            for amount in _row_ends(row.body):
                if amount.at(size) == rows:
                    now = [rows + more for more in by]
                    yield slot(amount, row.place(amount.span), now, "rows of a side")
            for amount in _spread_along(row.body):
                if id(amount) in elsewhere:
                    continue
                spread = [_at_the_rate(amount.at(size), rows, rows + more) for more in by]
                span = row.place(amount.span)
                yield slot(amount, span, spread, "stitches along a side")
            for claim in row.claims:
                figures = claim.figures if claim.of_rows else ()
                for figure in figures:
                    if figure.amount.at(size) == rows:
                        now = [rows + more for more in by]
                        span = row.place(figure.amount.span)
                        yield slot(figure.amount, span, now, "rows in all")


def _stripes(checked: Checked, rows: int, by: Sequence[int]) -> Iterator[Slot]:
    """How often a stripe sequence is worked that makes up the rows, and its sum."""
    for plan in stripe_plans(checked.source, checked.reading.pattern):
        each, number = plan.rows(1) - plan.rows(0), plan.often
        times = next((times for times in plan.times if plan.rows(times) == rows), None)
        if times is None or number is None:
            continue
        new = []
        for more in by:
            sets, over = divmod(more, each)
            if over:
                near = f"{plan.rows(times + sets)} or {plan.rows(times + sets + 1)}"
                said = f"{rows + more} rows are no whole stripe sequences: {near} are."
                raise Unwritten(plan.span, said)
            new.append(sets)
        words = checked.source.slice(number)
        was = NUMBER_WORDS.get(words.lower()) or _OFTEN.get(words.lower()) or int(words)
        yield slot(Amount((was,), number), number, [was + n for n in new], "stripes")
        if plan.claim is not None and plan.claimed is not None:
            sums = [plan.number(times + n) for n in new] if plan.of_stripes else None
            digits = Span(plan.claim.start, plan.claim.start + len(str(plan.claimed)))
            now = sums or [plan.rows(times + n) for n in new]
            yield slot(Amount((plan.claimed,), digits), digits, now, "rows in all")


_OFTEN = {"once": 1, "twice": 2, "thrice": 3}


def _at_the_rate(number: int | None, rows: int, now: int) -> int | None:
    """Stitches along a side of other rows, as close as they stand; half of one is one."""
    return None if number is None else (2 * number * now + rows) // (2 * rows)


def _spread_along(nodes: Sequence[Node]) -> Iterator[Amount]:
    """How many stitches are spread evenly along the sides of the piece."""
    for node in nodes:
        if isinstance(node, (Repeat, Tail)):
            yield from _spread_along(node.body)
        elif isinstance(node, Evenly) and node.along == "side":
            yield node.amount


def _row_ends(nodes: Sequence[Node]) -> Iterator[Amount]:
    for node in nodes:
        target = node.target if isinstance(node, Make) else None
        if target is not None and target.noun == "row end" and target.amount is not None:
            yield target.amount
