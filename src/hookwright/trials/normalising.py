"""What did each tester use, against what is reckoned for her size at her own gauge?

The yarn of a stitch is taken in proportion to its width: who works a tenth wider takes a
tenth more. So what is left in the ratio is what gauge and size do not explain.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.trials.facts import ColourUse, Trial
from hookwright.trials.spreads import allowance_of
from hookwright.yarn.facts import SizeNeed
from hookwright.yarn.planning import yarn_plan


class Reckoned(Struct, frozen=True):
    """What is reckoned for a size, in metres: all of it, and each colour by its names."""

    total: float
    colours: Mapping[str, float]


def reckoned_by_size(checked: Checked) -> dict[str, Reckoned]:
    """The reckoned yarn of each size of a pattern, by the size's name."""
    return {need.counted.name: _reckoned(need) for need in yarn_plan(checked).sizes}


def _reckoned(need: SizeNeed) -> Reckoned:
    colours: dict[str, float] = {}
    for one in need.colours:
        metres = float(one.length.mid) / 1000
        for name in (one.yarn.label, one.yarn.told, *one.yarn.names):
            colours[name.lower()] = metres
    return Reckoned(float(need.length.mid) / 1000, colours)


def total_use(
    trials: Sequence[Trial], reckoned: Mapping[str, Reckoned], stitch_mm: float | None
) -> ColourUse:
    """All yarn together.

    Args:
        trials: The reports.
        reckoned: What is reckoned for each size.
        stitch_mm: What a stitch takes at the gauge of the pattern; None where not known.
    """
    ratios = []
    for trial in trials:
        own = _of_size(trial, reckoned)
        used = sum(one.metres for one in trial.used)
        need = _need(trial, own) if own is not None else 0.0
        if need and used:
            ratios.append((trial.tester, used / (need * _wider(trial, stitch_mm))))
    return ColourUse("all yarn", tuple(ratios), allowance_of([r for _, r in ratios]))


def _need(trial: Trial, own: Reckoned) -> float:
    """What is reckoned of the colours she tells; all of it where she tells none apart."""
    names = {one.colour.lower() for one in trial.used}
    if "" in names:
        return own.total
    return sum(own.colours.get(name, 0.0) for name in names)


def colour_uses(
    trials: Sequence[Trial], reckoned: Mapping[str, Reckoned], stitch_mm: float | None
) -> tuple[ColourUse, ...]:
    """Each colour that testers tell apart, in the order they first come."""
    names = dict.fromkeys(
        one.colour for trial in trials for one in trial.used if one.colour
    )
    found = []
    for name in names:
        ratios = []
        for trial in trials:
            own = _of_size(trial, reckoned)
            need = own.colours.get(name.lower()) if own is not None else None
            used = sum(one.metres for one in trial.used if one.colour == name)
            if need and used:
                ratios.append((trial.tester, used / (need * _wider(trial, stitch_mm))))
        if ratios:
            allowance = allowance_of([ratio for _, ratio in ratios])
            found.append(ColourUse(name, tuple(ratios), allowance))
    return tuple(found)


def _of_size(trial: Trial, reckoned: Mapping[str, Reckoned]) -> Reckoned | None:
    if trial.dropped:
        return None
    if trial.size in reckoned:
        return reckoned[trial.size]
    return next(iter(reckoned.values())) if len(reckoned) == 1 else None


def _wider(trial: Trial, stitch_mm: float | None) -> float:
    if not trial.stitch_mm or not stitch_mm:
        return 1.0
    return trial.stitch_mm / stitch_mm
