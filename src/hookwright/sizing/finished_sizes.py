"""Which printed measurements change with the size, and what do they say then?

A measurement changes by what the repeats and rows that come or go measure: at the stated
gauge, or, where none serves, as the printed measurement itself shows. It is rounded as it was
printed. What is measured otherwise than across or along the piece is left to the designer.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from hookwright.checking import Checked
from hookwright.design.facts import Along, Finished, Gauge, Measure
from hookwright.design.lengths import MM
from hookwright.finding import Edit
from hookwright.sizing.facts import PartMultiple
from hookwright.source import Span

_NUMBER = re.compile(r"\d+(?:\.\d+|,\d+(?!\d*\s*\())?(?:[ -]\d+/\d+)?|\d+/\d+|\d*[¼½¾]")
_SIGNS = {Fraction(1, 4): "¼", Fraction(1, 2): "½", Fraction(3, 4): "¾"}


def finished_edits(
    checked: Checked,
    part: PartMultiple,
    repeats: Sequence[int],
    sets: Sequence[int],
) -> Iterator[Edit]:
    """The printed measurements of the piece, with so many repeats and sets in each size."""
    for found in checked.design.finished:
        by = _changes(checked, part, found, repeats, sets)
        if by is None or not any(by):
            continue
        measures = [found.measure]
        if found.measure.also is not None:
            measures.append(found.measure.also)
        for measure in measures:
            edit = _edit(checked.source.text, measure, part.size, by)
            if edit is not None:
                yield edit


def _changes(
    checked: Checked,
    part: PartMultiple,
    found: Finished,
    repeats: Sequence[int],
    sets: Sequence[int],
) -> list[Fraction] | None:
    """By how much a measurement changes, one a size; None where it is of something else."""
    mm = found.measure.at(part.size)
    if found.to_fit or mm is None or part.stitches is None:
        return None
    across = Along.AROUND if part.is_round else Along.WIDTH
    if found.along is across:
        stitches = part.stitches.at(part.repeats)
        each = _repeat_mm(checked, part) or mm * part.stitches.each / stitches
        return [each * (number - part.repeats) for number in repeats]
    if found.along is Along.LENGTH and part.rows is not None:
        rows = part.rows.at(part.set_repeats)
        each = (_row_mm(checked) or mm / rows) * part.rows.each
        return [each * (number - part.set_repeats) for number in sets]
    return None


def _repeat_mm(checked: Checked, part: PartMultiple) -> Fraction | None:
    """How wide a repeat is at the gauge; None where no gauge is of this piece."""
    assert part.stitches is not None
    for gauge in checked.design.gauges:
        one = _one_mm(gauge)
        if one is None:
            continue
        if gauge.of == "st":
            return one * part.stitches.each
        if gauge.in_one:
            return one * part.stitches.each / gauge.in_one
        return one
    return None


def _one_mm(gauge: Gauge) -> Fraction | None:
    width = gauge.width.mm[0] if gauge.width is not None else None
    return width / gauge.stitches if width and gauge.stitches else None


def _row_mm(checked: Checked) -> Fraction | None:
    for gauge in checked.design.gauges:
        height = gauge.height.mm[0] if gauge.height is not None else None
        if height and gauge.rows:
            return height / gauge.rows
    return None


def _edit(text: str, measure: Measure, size: int, by: Sequence[Fraction]) -> Edit | None:
    """A measurement with its new value, or a list of them, in the words it stands in."""
    numbers = list(_NUMBER.finditer(text, measure.span.start, measure.span.end))
    if len(numbers) != len(measure.mm):
        return None
    found = numbers[size if len(numbers) > 1 else 0]
    mm = measure.at(size)
    assert mm is not None
    said = [_said(mm, mm + more, measure.unit, found[0]) for more in by]
    if len(measure.mm) > 1 and len(said) == len(measure.mm):
        return None
    first, *others = dict.fromkeys(said) if len(set(said)) == 1 else said
    words = f"{first} ({', '.join(others)})" if others else first
    span = Span(found.start(), found.end())
    return Edit(span, words) if words != found[0] else None


def _said(old: Fraction, new: Fraction, unit: str, words: str) -> str:
    """A length as the old one is told: in whole units, halves or tenths."""
    step = _step(old / MM[unit])
    number = round(new / MM[unit] / step) * step
    whole, part = divmod(number, 1)
    if not part:
        return str(whole)
    if step.denominator in (2, 4) and "." not in words:
        sign = _SIGNS[part] if any(mark in words for mark in "¼½¾") else f" {part}"
        return f"{whole or ''}{sign}".strip()
    return f"{float(number):.{len(words.partition('.')[2]) or 1}f}"


def _step(number: Fraction) -> Fraction:
    return Fraction(1, number.denominator) if number.denominator <= 16 else Fraction(1, 10)
