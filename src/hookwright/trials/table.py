"""What each tester reports, a line for each, in one unit."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from hookwright.sheets.facts import Grid
from hookwright.sizing.lengths import in_cm, in_inches
from hookwright.trials.facts import Trial

_YARD_M = 0.9144
_NOTHING = "–"


def reports_table(trials: Sequence[Trial], units: str) -> Grid:
    """The table.

    Args:
        trials: The reports.
        units: "in" or "cm": yarn is then in yards or in metres.
    """
    return Grid(
        ("Tester", "Size", "Has made before", "Wide", "High", "Yarn", "Hours", "Unclear"),
        tuple(tuple(_cells(one, units)) for one in trials),
        "Each tester",
        numbers=(3, 4, 5, 6),
    )


def _cells(one: Trial, units: str) -> Iterator[str]:
    yield f"{one.tester}, left off" if one.dropped else one.tester
    yield one.size or _NOTHING
    yield one.skill or _NOTHING
    yield _length(one.width_mm, units)
    yield _length(one.height_mm, units)
    yield _yarn(sum(used.metres for used in one.used), units)
    yield f"{one.hours:g}" if one.hours is not None else _NOTHING
    yield ", ".join(map(str, one.unclear)) or _NOTHING


def _length(mm: float | None, units: str) -> str:
    if mm is None:
        return _NOTHING
    return in_inches(Fraction(mm)) if units == "in" else in_cm(Fraction(mm))


def _yarn(metres: float, units: str) -> str:
    if not metres:
        return _NOTHING
    return f"{metres / _YARD_M:.0f} yd" if units == "in" else f"{metres:.0f} m"
