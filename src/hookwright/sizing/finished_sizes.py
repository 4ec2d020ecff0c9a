"""Which printed measurements change with the size, and what do they say then?

A measurement changes by what the repeats and rows that come or go measure: at the stated
gauge, or, where none serves, as the printed measurement itself shows. It is rounded as it
was printed. What is measured otherwise than across or along the piece is left to the
designer.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.facts import Along, Finished, Gauge, Measure
from hookwright.design.lengths import MM
from hookwright.finding import Edit
from hookwright.sizing.facts import PartMultiple
from hookwright.sizing.slots import Unwritten
from hookwright.source import Span

_NUMBER = re.compile(r"\d*[¼½¾]|\d+/\d+|\d+(?:[.,]\d+)?(?:[ -]\d+/\d+)?")
_SIGNS = {Fraction(1, 4): "¼", Fraction(1, 2): "½", Fraction(3, 4): "¾"}


class SizeMeasured(Struct, frozen=True):
    """A size whose measurements are wanted.

    Attributes:
        part: The piece as it is written in the size it is made from.
        repeats: How many repeats it is to have.
        sets: How many sets of rows.
    """

    part: PartMultiple
    repeats: int
    sets: int


def finished_edits(checked: Checked, wanted: Sequence[SizeMeasured]) -> Iterator[Edit]:
    """The printed measurements of the piece, in the sizes wanted.

    Raises:
        Unwritten: If a piece that is told as square is square no more.
    """
    known: dict[Span, list[Fraction]] = {}
    for found in checked.design.finished:
        by = [_change(checked, found, one) for one in wanted]
        changes = [more for more in by if more is not None]
        if len(changes) < len(by):
            continue
        if known.setdefault(found.measure.span, changes) != changes:
            said = "One length is told for both ways, and the piece is no longer square."
            raise Unwritten(found.measure.span, said)
        if not any(changes):
            continue
        measures = [found.measure]
        if found.measure.also is not None:
            measures.append(found.measure.also)
        sources = [one.part.size for one in wanted]
        for measure in measures:
            yield from _edits(checked.source.text, measure, sources, changes)


def _change(checked: Checked, found: Finished, one: SizeMeasured) -> Fraction | None:
    """By how much a measurement changes in a size; None where it is of something else."""
    part = one.part
    mm = found.measure.at(part.size)
    if found.to_fit or mm is None or part.stitches is None:
        return None
    across = Along.AROUND if part.is_round else Along.WIDTH
    if found.along is across:
        stitches = part.stitches.at(part.repeats)
        each = _repeat_mm(checked, part) or mm * part.stitches.each / stitches
        return each * (one.repeats - part.repeats)
    if found.along is Along.LENGTH and part.rows is not None:
        rows = part.rows.at(part.set_repeats)
        each = (_row_mm(checked) or mm / rows) * part.rows.each
        return each * (one.sets - part.set_repeats)
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


def _edits(
    text: str, measure: Measure, sources: Sequence[int], by: Sequence[Fraction]
) -> Iterator[Edit]:
    """A measurement with its new values, in the words it stands in."""
    numbers = list(_NUMBER.finditer(text, measure.span.start, measure.span.end))
    if len(numbers) != len(measure.mm):
        return
    said = []
    for source, more in zip(sources, by, strict=True):
        mm = measure.at(source)
        words = numbers[source if len(numbers) > 1 else 0][0]
        said.append("-" if mm is None else _said(mm + more, measure.unit, words))
    if len(numbers) == len(said):
        lists = zip(numbers, said, strict=True)
    elif len(numbers) == 1:
        first, *others = said
        one = first if set(others) <= {first} else f"{first} ({', '.join(others)})"
        lists = zip(numbers, [one], strict=True)
    else:
        return
    for found, words in lists:
        if words != found[0]:
            yield Edit(Span(found.start(), found.end()), words)


def _said(new: Fraction, unit: str, words: str) -> str:
    """A length in the manner of the old one, in whole units, fractions or decimals.

    What was told in halves is told in halves again, and not in whole units where it comes
    near to them: else nobody could tell how finely it had been measured.
    """
    number = new / MM[unit]
    if "." in words or "," in words:
        digits = len(re.split("[.,]", words)[1])
        said = f"{float(round(number * 10**digits) / 10**digits):.{digits}f}"
        return said.replace(".", ",") if "," in words else said
    parts = _parts_told(words)
    nearest = round(number * parts)
    if parts > 1 and Fraction(nearest, parts).denominator != parts:
        nearest += 1 if number * parts >= nearest else -1
    whole, part = divmod(Fraction(nearest, parts), 1)
    if not part:
        return str(whole)
    sign = _SIGNS.get(part) if any(mark in words for mark in "¼½¾") else None
    if sign is not None:
        return f"{whole or ''}{sign}"
    return f"{whole} {part}" if whole else str(part)


def _parts_told(words: str) -> int:
    """The parts of a unit that a length is told in: 4 for "8 3/4"."""
    for part, sign in _SIGNS.items():
        if sign in words:
            return part.denominator
    found = re.search(r"/(\d+)", words)
    return int(found[1]) if found is not None else 1
