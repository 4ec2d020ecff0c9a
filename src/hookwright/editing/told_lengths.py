"""Lengths as a finding tells them, and how far a printed one may have been rounded."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from hookwright.design.facts import Along, Finished, Measure
from hookwright.design.lengths import MM

_SIGNS = {Fraction(1, 4): "1/4", Fraction(1, 2): "1/2", Fraction(3, 4): "3/4"}


def in_unit(mm: Fraction, unit: str) -> str:
    """A length in a unit, as a designer writes it: "4 1/2 in", "11.5 cm"."""
    number = mm / MM[unit]
    if unit == "yd":
        return f"{round(number)} yd"
    if unit in ("in", "ft"):
        return f"{_with_fraction(number)} {unit}"
    return f"{short(number)} {unit}"


def _with_fraction(number: Fraction) -> str:
    if number.denominator in (3, 8, 16):
        whole, part = divmod(number, 1)
        return f"{whole} {part}" if whole else str(part)
    quarters = Fraction(round(number * 4), 4)
    whole, part = divmod(quarters, 1)
    if not part:
        return str(whole)
    return f"{whole} {_SIGNS[part]}" if whole else _SIGNS[part]


def short(number: Fraction) -> str:
    """A number with one decimal where it needs one."""
    tenths = round(number * 10)
    return str(tenths // 10) if tenths % 10 == 0 else f"{tenths / 10:.1f}"


def grain_mm(mm: Fraction, unit: str) -> Fraction:
    """The step in which a length was told: 104 cm in whole ones, 4 1/2 in in halves."""
    number = mm / MM[unit]
    step = Fraction(1, number.denominator) if number.denominator <= 16 else Fraction(1, 10)
    return step * MM[unit]


def sizes_named(names: Sequence[str]) -> str:
    """ "size S", "sizes S and M": nothing where there is one size."""
    if not names:
        return ""
    if len(names) == 1:
        return f"size {names[0]}"
    return f"sizes {', '.join(names[:-1])} and {names[-1]}"


def what_is_told(finished: Finished) -> str:
    """What a measurement is called: "chest", "width", "size" where no way is told."""
    if finished.of in _BODIES:
        return finished.of
    return _WAYS.get(finished.along, "size")


_BODIES = frozenset("chest bust waist hip hips head neck wrist ankle calf brim".split())
_WAYS = {
    Along.WIDTH: "width",
    Along.LENGTH: "length",
    Along.AROUND: "girth",
    Along.ACROSS: "diameter",
}


def telling(measure: Measure, size: int, *, twice: bool = False) -> str:
    """A measure of one size, in the unit or units it is printed in."""
    mm = measure.at(size)
    own = in_unit(mm, measure.unit) if mm is not None else ""
    if not twice or measure.also is None or (other := measure.also.at(size)) is None:
        return own
    return f"{own} ({in_unit(other, measure.also.unit)})"
