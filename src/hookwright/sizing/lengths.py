"""Which one length do some words tell, and how is one printed in inches and centimetres?

Read are inches with fractions and centimetres as a pattern writes them: "45in", '45"',
"3 1/2 in", "3½ in", "150cm", "1.5 m", "5 ft 3 in", 5' 3". What is printed is read as the
same length.
"""

from __future__ import annotations

from fractions import Fraction

from msgspec import Struct

from hookwright.design.facts import Measure
from hookwright.design.lengths import MM, lengths_in, number_at
from hookwright.regex import regex

LONGEST_MM = 100_000
"""A hundred metres: longer is nothing that is crocheted, a finger has slipped."""
_SIGN = regex(r"[ \t]*[-−–+][ \t]*(?=[\d.¼½¾⅓⅔⅛⅜⅝⅞])")
_FEET = regex(r"(?<=[\d¼½¾])[ \t]*['’′](?!['’′])[ \t]*")
_EIGHTHS_BELOW = 4
"""Inches below which eighths are told; quarters from there on."""


class NoLength(Struct, frozen=True):
    """Why some words tell no length that can be used.

    Attributes:
        message: What is wrong with them.
        why: What to write.
    """

    message: str
    why: str


def length_told(words: str) -> Fraction | NoLength:
    """The one length that some words tell, in millimetres; above 0 and at most 100 m."""
    measures = measures_told(words)
    if isinstance(measures, NoLength):
        return measures
    if len(measures) > 1:
        return NoLength(
            f'"{_shown(words)}" tells two lengths, not one.', "Write one of them."
        )
    return measures[0]


def measures_told(words: str) -> tuple[Fraction, ...] | NoLength:
    """One length, or width and length told together: "50 x 60 in"."""
    sign = _SIGN.match(words)
    found = _lengths(words[sign.end() :] if sign else words)
    if found is None:
        return _not_read(words)
    if (sign and sign[0].strip() != "+") or not all(found):
        return _none(words)
    if max(found) > LONGEST_MM:
        return NoLength(
            f'"{_shown(words)}" is longer than 100 m, and nothing is crocheted so long.',
            "Look at the number and its unit.",
        )
    return found


def _lengths(words: str) -> tuple[Fraction, ...] | None:
    """All lengths, if the words are nothing but one length or two ways of a piece."""
    words = _FEET.sub(" ft ", words.strip().removesuffix(".")).strip()
    told = list(lengths_in(words, 0, len(words)))
    measures = [measure for one in told for measure in one.measures]
    if not told or any(measure.ranged or len(measure.mm) > 1 for measure in measures):
        return None
    covered = sum(one.span.end - one.span.start for one in told)
    values = tuple(measure.mm[0] for measure in measures)
    known = tuple(value for value in values if value is not None)
    if covered == len(words) and len(told) == 1 and len(known) == len(values):
        return known if len(known) < 3 else None
    return _feet_and_inches(words, measures, covered)


def _feet_and_inches(
    words: str, measures: list[Measure], covered: int
) -> tuple[Fraction, ...] | None:
    units = [measure.unit for measure in measures]
    between = len(words.replace(" ", "")) <= covered + 1
    values = [measure.mm[0] for measure in measures]
    if units != ["ft", "in"] or not between or None in values:
        return None
    return (sum((value for value in values if value is not None), Fraction(0)),)


_DIGITS = regex(r"(\d+)(?:[.,](\d+))?")
_MOST_DIGITS = 6
"""Of millimetres 100 m have as many."""


def _none(words: str) -> NoLength:
    return NoLength(
        f'A length of "{_shown(words)}" is none: it has to be more than 0.',
        "Write what the piece is to measure, as 45 in or 114 cm.",
    )


def _not_read(words: str) -> NoLength:
    number = number_at(words.strip(), 0, len(words.strip()))
    shown = _shown(words)
    if number is not None and not number[0] and number[1] == len(words.strip()):
        return _none(words)
    digits = _DIGITS.search(words)
    if digits is not None and max(map(len, digits.groups(""))) > _MOST_DIGITS:
        return NoLength(
            f'"{shown}" has more figures than a length can be measured to.',
            "Look at the number and its unit.",
        )
    if number is not None and number[1] == len(words.strip()):
        return NoLength(
            f'"{shown}" has no unit, so it is no length.',
            f"Write {shown} in or {shown} cm.",
        )
    return NoLength(
        f'"{shown}" cannot be read as a length.',
        'Write a number and its unit: 45 in, 45", 3 1/2 in, 150 cm or 1.5 m.',
    )


def _shown(words: str) -> str:
    words = " ".join(words.split())
    return words if len(words) <= 40 else words[:36] + " ..."


def in_inches(mm: Fraction) -> str:
    """In inches to the nearest quarter, below 4 in to the nearest eighth: "4 1/2 in"."""
    inches = mm / MM["in"]
    parts = 8 if abs(inches) < _EIGHTHS_BELOW else 4
    nearest = Fraction(round(inches * parts), parts)
    whole, part = divmod(abs(nearest), 1)
    sign = "-" if nearest < 0 else ""
    number = f"{whole} {part}" if whole and part else str(part or whole)
    return f"{sign}{number} in"


def in_cm(mm: Fraction) -> str:
    """In centimetres to the nearest millimetre: "114.3 cm"."""
    tenths = round(mm)
    whole, part = divmod(abs(tenths), 10)
    sign = "-" if tenths < 0 else ""
    return f"{sign}{whole}.{part} cm" if part else f"{sign}{whole} cm"


def in_both(mm: Fraction, first: str = "in") -> str:
    """In both units, that of the designer first: "45 in (114.3 cm)"."""
    told = (in_inches(mm), in_cm(mm))
    own, other = told if first == "in" else told[::-1]
    return f"{own} ({other})"


def small(mm: Fraction, first: str = "in") -> str:
    """What one stitch or row takes, in millimetres and in inches: "7.26 mm (0.286 in)"."""
    told = (f"{float(mm / MM['in']):.3f} in", f"{float(mm):.2f} mm")
    own, other = told if first == "in" else told[::-1]
    return f"{own} ({other})"
