"""Which printed measurements change with the size, and what do they say then?

A measurement changes by what the repeats and rows that come or go measure: at the gauge
that sizes are worked out at, or, where nothing was measured, as the printed measurement
itself shows. It is rounded as it was printed. What is measured otherwise than across or
along the piece is left to the designer.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction
from math import ceil, floor, lcm

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.facts import Along, Finished, Holds, Measure
from hookwright.design.lengths import MM, lengths_in
from hookwright.finding import Edit
from hookwright.regex import regex
from hookwright.sizing.fabric_gauge import FabricGauge
from hookwright.sizing.facts import PartMultiple
from hookwright.sizing.lengths import in_both
from hookwright.sizing.pitch import Pitch
from hookwright.sizing.placed import placed_parts
from hookwright.sizing.slots import Unwritten
from hookwright.source import Span

_NUMBER = regex(r"\d*[¼½¾]|\d+/\d+|\d+(?:[.,]\d+)?(?:[ -]\d+/\d+)?")
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
        Unwritten: If a piece that is told as square would be so no more.
    """
    known: dict[Span, list[Fraction]] = {}
    for found, changes in _changes(checked, wanted):
        first = known.setdefault(found.measure.span, changes)
        if first is not changes:
            _still_square(found, wanted, first, changes)
            continue
        if not any(changes):
            continue
        sources = [one.part.size for one in wanted]
        for measure in _told(found):
            yield from _edits(checked.source.text, measure, sources, changes)


def _still_square(
    found: Finished,
    wanted: Sequence[SizeMeasured],
    across: Sequence[Fraction],
    up: Sequence[Fraction],
) -> None:
    """A length that is told for both ways stays one, if both are nearly as long.

    Raises:
        Unwritten: If another set of rows would come nearer.
    """
    for one, wide, high in _sides(found, wanted, across, up):
        if abs(wide - high) <= max(_NEARLY * max(wide, high), _half_a_set(found, one)):
            continue
        said = (
            "One length is told for both ways, and the piece would be "
            f"{in_both(wide, found.measure.unit)} one way and "
            f"{in_both(high, found.measure.unit)} the other."
        )
        raise Unwritten(found.measure.span, said)


_NEARLY = Fraction(1, 20)
"""Which part of its side a square may be longer one way than the other."""


def _sides(
    found: Finished,
    wanted: Sequence[SizeMeasured],
    across: Sequence[Fraction],
    up: Sequence[Fraction],
) -> Iterator[tuple[SizeMeasured, Fraction, Fraction]]:
    """Both sides of what is told as square, in each size."""
    for one, wider, higher in zip(wanted, across, up, strict=True):
        mm = found.measure.at(one.part.size)
        if mm is not None:
            yield one, mm + wider, mm + higher


def _half_a_set(found: Finished, one: SizeMeasured) -> Fraction:
    """How far a square may be off where rows come in whole sets, and stay odd or even."""
    rows = one.part.rows
    if rows is None:
        return Fraction(0)
    mm = found.measure.at(one.part.size) or Fraction(0)
    return mm * lcm(rows.each, 2) / rows.at(one.part.set_repeats) / 2


def sides_unlike(checked: Checked, wanted: Sequence[SizeMeasured]) -> Iterator[str]:
    """Both sides of what the text calls square and whole sets of rows leave unlike."""
    known: dict[Span, list[Fraction]] = {}
    for found, changes in _changes(checked, wanted):
        across = known.setdefault(found.measure.span, changes)
        if across is changes:
            continue
        for _, wide, high in _sides(found, wanted, across, changes):
            if abs(wide - high) > _NEARLY * max(wide, high):
                unit = found.measure.unit
                yield f"{in_both(wide, unit)} one way and {in_both(high, unit)} the other"


def lengths_left(
    checked: Checked, wanted: Sequence[SizeMeasured], edits: Sequence[Edit]
) -> Iterator[Span]:
    """Lengths that tell a size and stand as they were, though the size is another."""
    settled = [edit.span for edit in edits]
    old: set[tuple[Fraction | None, ...]] = set()
    for found, changes in _changes(checked, wanted):
        if not any(changes):
            settled += [measure.span for measure in _told(found)]
            continue
        old |= {measure.mm for measure in _told(found)}
    settled += [found.span for found in checked.design.finished if found.to_fit]
    settled += [gauge.span for gauge in checked.design.gauges]
    text = checked.source.text
    sections = [s for s in checked.design.sections if s.holds in _OF_SIZE]
    for told in lengths_in(text, 0, len(text)):
        of_size = any(_touch(told.span, section.body) for section in sections)
        is_old = any(measure.mm in old for measure in told.measures)
        if (of_size or is_old) and not any(_touch(told.span, s) for s in settled):
            yield told.span


_OF_SIZE = frozenset((Holds.SIZES, Holds.FINISHED))


def _touch(one: Span, other: Span) -> bool:
    return one.start < other.end and other.start < one.end


def _told(found: Finished) -> Iterator[Measure]:
    """A measurement, and the same in the other units."""
    yield found.measure
    if found.measure.also is not None:
        yield found.measure.also


def _changes(
    checked: Checked, wanted: Sequence[SizeMeasured]
) -> Iterator[tuple[Finished, list[Fraction]]]:
    """By how much each measurement of the piece changes, one number a size."""
    placed = list(placed_parts(checked, [wanted[0].part], (), "in"))
    gauge = placed[0].gauge if placed else None
    around = next((f for f in checked.design.finished if f.along is Along.AROUND), None)
    for found in checked.design.finished:
        by = [_change(found, one, gauge, around) for one in wanted]
        changes = [more for more in by if more is not None]
        if len(changes) == len(by):
            yield found, changes


def _change(
    found: Finished, one: SizeMeasured, gauge: FabricGauge | None, around: Finished | None
) -> Fraction | None:
    """By how much a measurement changes in a size; None where it is of something else."""
    part = one.part
    mm = found.measure.at(part.size)
    if found.to_fit or mm is None or part.stitches is None:
        return None
    across = Along.AROUND if part.is_round else Along.WIDTH
    if found.along is across:
        each = part.stitches.each
        pitch = gauge.width(each, 1) if gauge is not None else None
        repeat = _measured(pitch) or mm * each / part.stitches.at(part.repeats)
        return repeat * (one.repeats - part.repeats)
    if (
        found.along is Along.WIDTH
        and around is not None
        and _lies_half(found, around, part)
    ):
        girth = _change(around, one, gauge, None)
        return girth / 2 if girth is not None else None
    if found.along is Along.LENGTH and part.rows is not None:
        row = gauge.row if gauge is not None else None
        high = _measured(row) or mm / part.rows.at(part.set_repeats)
        return high * part.rows.each * (one.sets - part.set_repeats)
    return None


def _measured(pitch: Pitch | None) -> Fraction | None:
    """What a swatch shows; None for a guess."""
    return pitch.mm if pitch is not None and pitch.measured else None


_HALF = Fraction(1, 20)
"""How far a width may be from half of the girth, for rounding, and still be meant so."""


def _lies_half(width: Finished, around: Finished, part: PartMultiple) -> bool:
    """Whether a width is that of a tube that lies flat."""
    wide, girth = width.measure.at(part.size), around.measure.at(part.size)
    if width.along is not Along.WIDTH or not part.is_round:
        return False
    return bool(wide and girth and abs(2 * wide / girth - 1) <= _HALF)


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
        said.append("-" if mm is None else _said(mm, more, measure.unit, words))
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


def _said(mm: Fraction, more: Fraction, unit: str, words: str) -> str:
    """A length in the manner of the old one, in whole units, fractions or decimals.

    What was told in halves is told in halves again, and not in whole units where it comes
    near to them: else nobody could tell how finely it had been measured.
    """
    number = (mm + more) / MM[unit]
    if "." in words or "," in words:
        digits = len(re.split("[.,]", words)[1])
        said = f"{_rounded(number * 10**digits, more) / 10**digits:.{digits}f}"
        return said.replace(".", ",") if "," in words else said
    parts = _parts_told(words)
    nearest = _rounded(number * parts, more)
    if parts > 1 and Fraction(nearest, parts).denominator != parts:
        nearest += 1 if number * parts >= nearest else -1
    whole, part = divmod(Fraction(nearest, parts), 1)
    if not part:
        return str(whole)
    sign = _SIGNS.get(part) if any(mark in words for mark in "¼½¾") else None
    if sign is not None:
        return f"{whole or ''}{sign}"
    return f"{whole} {part}" if whole else str(part)


def _rounded(number: Fraction, more: Fraction) -> int:
    """The nearest whole number; of two as near the one towards the length as written.

    So the way back comes out on the same number, whichever way was gone first.
    """
    half = Fraction(1, 2)
    return ceil(number - half) if more > 0 else floor(number + half)


def _parts_told(words: str) -> int:
    """The parts of a unit that a length is told in: 4 for "8 3/4"."""
    for part, sign in _SIGNS.items():
        if sign in words:
            return part.denominator
    found = re.search(r"/(\d+)", words)
    return int(found[1]) if found is not None else 1
