"""A pattern measured, for people: how large each piece lies, and whether it lies flat."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import groupby

from hookwright.listing.columns import in_a_line, padded, wrapped
from hookwright.shape.facts import Measured, Measures, PartMeasured, RoundMeasured
from hookwright.sizing.lengths import in_both, small
from hookwright.terminal import Ink

_INDENT = "  "
_LABEL = 12
_ROOM = 24
_FLAT, _DOWN = 25, 90
"""Degrees: so near the plane the rounds of a disc lie, whose counts are whole numbers."""


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
    double = ", laid double" if size.standing is not None else ""
    yield "wide", _length(size.width_mm, unit) + double
    yield "high", _length(size.height_mm, unit) + double
    if size.standing is not None:
        across = _length(size.standing.across_mm, unit)
        yield "stands", f"{across} across, {_length(size.standing.tall_mm, unit)} tall"
    if size.repeat_width_mm is not None:
        yield "repeat", f"{_length(size.repeat_width_mm, unit)} wide"
    if size.row_pitch_mm is not None:
        yield "row", small(Fraction(round(size.row_pitch_mm * 100), 100), unit)
    if size.angle_deg >= 1:
        yield "slope", f"its rows climb at {size.angle_deg:.0f} degrees"
    verdict = size.verdict
    surplus = f" ({verdict.surplus:+.0%} at the rim)".replace("%", " %")
    yield "lies", f"{verdict.lie}{surplus}: {verdict.advice}"
    if size.wave_mm:
        yield "waves", f"about {_length(size.wave_mm, unit)} high, give or take a half"
    for number, line in enumerate(_rounds(size.rounds, unit)):
        yield "" if number else "rounds", line


def _rounds(rounds: Sequence[RoundMeasured], unit: str) -> Iterator[str]:
    """The rounds, those that come to the same after one another together."""
    for _, alike in groupby(rounds, _told_alike):
        several = list(alike)
        first, last = several[0], several[-1]
        name = first.label
        if len(several) > 1:
            name = f"{name} and {len(several) - 1} more"
        yield (
            f"{name}: {last.stitches} sts, {_length(last.around_mm, unit)} around, "
            f"{_length(last.across_mm, unit)} across, {_falls(last)}"
        )


def _told_alike(one: RoundMeasured) -> tuple[int, str]:
    """What two rounds have in common that are told in one line."""
    return one.stitches, _falls(one)


def _falls(one: RoundMeasured) -> str:
    """How the fabric falls to a round."""
    if one.slope_deg is None:
        return "too long to lie flat"
    if one.slope_deg < _FLAT:
        return "flat"
    if abs(one.slope_deg - _DOWN) < _FLAT / 2:
        return "straight down"
    if one.slope_deg < _DOWN:
        return f"falling at {one.slope_deg:.0f} degrees"
    return f"drawing in at {180 - one.slope_deg:.0f} degrees"


def _length(mm: float, unit: str) -> str:
    return in_both(Fraction(round(mm * 100), 100), unit)


def _labelled(label: str, words: str, width: int) -> Iterator[str]:
    """A fact behind its label, further lines under the words."""
    room = max(_ROOM, width - _LABEL - len(_INDENT))
    first, *others = wrapped(words, room) or [""]
    yield f"{_INDENT}{padded(label, _LABEL)}{first}"
    yield from (f"{_INDENT}{' ' * _LABEL}{line}" for line in others)
