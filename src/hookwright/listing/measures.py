"""A pattern measured, for people: how large each piece lies, and whether it lies flat."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from hookwright.listing.columns import in_a_line, padded, wrapped
from hookwright.shape.facts import Measured, Measures, PartMeasured
from hookwright.sizing.lengths import in_both, small
from hookwright.terminal import Ink

_INDENT = "  "
_LABEL = 12
_ROOM = 24


def measure_listing(measures: Measures, unit: str, width: int, ink: Ink) -> str:
    """The measures of a pattern.

    Args:
        measures: The measures.
        unit: "in" or "cm", the unit to tell first.
        width: Columns to write in.
        ink: The colours.
    """
    if measures.refused:
        return "\n".join(wrapped(measures.refused, width))
    if not measures.parts:
        return "There is no row to measure."
    blocks = ["\n".join(_part(part, unit, width, ink)) for part in measures.parts]
    return "\n\n".join(blocks)


def _part(part: PartMeasured, unit: str, width: int, ink: Ink) -> Iterator[str]:
    yield ink.strong(in_a_line(part.part) or "Piece")
    for size in part.sizes:
        if size.size:
            yield f"{_INDENT}{ink.strong(in_a_line(size.size))}"
        for label, words in _facts(size, unit):
            yield from _labelled(label, words, width)
    told = part.sizes[-1].how if part.sizes else ()
    for number, sentence in enumerate(told):
        yield from _labelled("how" if not number else "", sentence, width)
    if part.reason:
        whole = "not measured" if not part.sizes else "not all"
        yield from _labelled(whole, part.reason, width)


def _facts(size: Measured, unit: str) -> Iterator[tuple[str, str]]:
    yield "wide", _length(size.width_mm, unit)
    yield "high", _length(size.height_mm, unit)
    if size.repeat_width_mm is not None:
        yield "repeat", f"{_length(size.repeat_width_mm, unit)} wide"
    if size.row_pitch_mm is not None:
        yield "row", small(Fraction(round(size.row_pitch_mm * 100), 100), unit)
    if size.angle_deg >= 1:
        yield "slope", f"its rows climb at {size.angle_deg:.0f} degrees"
    verdict = size.verdict
    surplus = f" ({verdict.surplus:+.0%} at the rim)".replace("%", " %")
    yield "lies", f"{verdict.lie}{surplus}: {verdict.advice}"


def _length(mm: float, unit: str) -> str:
    return in_both(Fraction(round(mm * 100), 100), unit)


def _labelled(label: str, words: str, width: int) -> Iterator[str]:
    """A fact behind its label, further lines under the words."""
    room = max(_ROOM, width - _LABEL - len(_INDENT))
    first, *others = wrapped(words, room) or [""]
    yield f"{_INDENT}{padded(label, _LABEL)}{first}"
    yield from (f"{_INDENT}{' ' * _LABEL}{line}" for line in others)
