"""How much of each colour does a size take, and a width of a maker's own?

Only what a weighed swatch tells is printed; where nothing was weighed there are the balls
that the text itself names, and no lengths.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.design.facts import Measure, SizeWanted
from hookwright.source import Span
from hookwright.yarn.facts import Basis, ColourNeed, SizeNeed
from hookwright.yarn.planning import yarn_plan

_NOWHERE = Span(0, 0)


class Amount(Struct, frozen=True):
    """What one colour takes in one size.

    Attributes:
        balls: Whole balls; None where a ball has no length.
        metres: The length with what is to spare, in whole metres.
    """

    balls: int | None
    metres: int


Amounts = Mapping[str, Amount]
"""What each colour takes, by its letter or name."""


def amounts_as_written(checked: Checked) -> tuple[Amounts, ...]:
    """What each of the text's sizes takes; empty where that was not measured."""
    needs = yarn_plan(_with_sizes(checked, ())).sizes
    if len(needs) != max(1, len(checked.sizes)) or not all(map(_is_measured, needs)):
        return ()
    return tuple(_amounts(need.colours) for need in needs)


def balls_for_widths(
    checked: Checked, widths: Sequence[tuple[int, Fraction]]
) -> Mapping[int, Amounts]:
    """What pieces of so many repeats take, each with its width in millimetres."""
    if checked.sizes or not widths:
        return {}
    wanted = tuple(
        SizeWanted(str(repeats), _NOWHERE, width=Measure((mm,), "mm", _NOWHERE))
        for repeats, mm in widths
    )
    needs = yarn_plan(_with_sizes(checked, wanted)).sizes
    if not all(map(_is_measured, needs)):
        return {}
    return {
        need.counted.repeats: _amounts(need.colours)
        for need in needs
        if need.counted.repeats is not None
    }


def _with_sizes(checked: Checked, sizes: tuple[SizeWanted, ...]) -> Checked:
    """The pattern with other wishes for its sizes in the worksheet."""
    noted = checked.design.noted
    if noted is None:
        return checked
    design = replace(checked.design, noted=replace(noted, sizes=sizes))
    return replace(checked, design=design)


def _is_measured(need: SizeNeed) -> bool:
    return need.basis is Basis.SWATCH and bool(need.colours)


def _amounts(colours: Sequence[ColourNeed]) -> Amounts:
    return {one.yarn.label: Amount(one.balls, _metres(one.bought)) for one in colours}


def _metres(mm: Fraction) -> int:
    """A length to be had, rounded up to whole metres: a maker must not run out."""
    return -(-mm.numerator // (mm.denominator * 1000))
