"""From a pattern and the reports of its testers to what they come to."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from math import ceil

from hookwright.answers.main_piece import main_part, sized_as
from hookwright.checking import Checked
from hookwright.sizing.placed import PartSized
from hookwright.sizing.sized import Request
from hookwright.trials.facts import Analysis, Missing, Spread, Trial, Unclear
from hookwright.trials.normalising import colour_uses, reckoned_by_size, total_use
from hookwright.trials.spreads import spread_of

SKILLS = ("beginner", "intermediate", "advanced")
_SKILL_WORDS = {
    "beginner": ("begin", "new", "basic", "easy", "first"),
    "intermediate": ("inter", "some", "medium", "average"),
    "advanced": ("adv", "exper", "expert", "complex"),
}
_EACH = 2
"""Reports wanted of each size and of each skill; common practice, no source."""
_DROP_OUT = 0.25
"""How many leave off where no trial tells it; common practice, no source."""
_FEWEST = 4


def analysis_of(checked: Checked, trials: Sequence[Trial]) -> Analysis:
    """All that the reports come to."""
    part = main_part(sized_as(checked, Request()).parts)
    stitch = _own(part, "stitch")
    reckoned = reckoned_by_size(checked)
    whole = [trial for trial in trials if not trial.dropped]
    dropped = len(trials) - len(whole)
    return Analysis(
        len(whole),
        dropped,
        total_use(whole, reckoned, stitch) if whole else None,
        colour_uses(whole, reckoned, stitch),
        tuple(_gauges(checked, part, whole)),
        spread_of([trial.hours for trial in whole if trial.hours]),
        tuple(_unclear(checked, whole)),
        tuple(_missing(checked, whole, dropped)),
        tuple(_said(whole, dropped)),
    )


def _own(part: PartSized | None, what: str) -> float | None:
    """What a stitch or a row takes at the gauge of the pattern, in millimetres.

    Where the gauge is told by the repeat, testers count repeats as well.
    """
    if part is None:
        return None
    gauge = part.gauge
    pitch = gauge.row if what == "row" else gauge.repeat or gauge.stitch
    return float(pitch.mm) if pitch is not None else None


def _gauges(
    checked: Checked, part: PartSized | None, trials: Sequence[Trial]
) -> Iterator[tuple[str, Spread]]:
    """Gauge and size as parts of what the pattern says, 1 for the very same."""
    for name, own, values in (
        ("stitch", _own(part, "stitch"), [trial.stitch_mm for trial in trials]),
        ("row", _own(part, "row"), [trial.row_mm for trial in trials]),
    ):
        spread = spread_of([value / own for value in values if value and own])
        if spread is not None:
            yield name, spread
    for name in ("width", "height"):
        spread = spread_of(list(_sizes(checked, part, trials, name)))
        if spread is not None:
            yield name, spread


def _sizes(
    checked: Checked, part: PartSized | None, trials: Sequence[Trial], name: str
) -> Iterator[float]:
    for trial in trials:
        at = checked.sizes.index(trial.size) if trial.size in checked.sizes else 0
        made = part.now[at] if part is not None and at < len(part.now) else None
        if made is None or (checked.sizes and not trial.size):
            continue
        pitch = made.width if name == "width" else made.height
        told = trial.width_mm if name == "width" else trial.height_mm
        if pitch is not None and pitch.mm and told:
            yield told / float(pitch.mm)


def _unclear(checked: Checked, trials: Sequence[Trial]) -> Iterator[Unclear]:
    """Rows that testers name, the most named first; of a number that is no row too."""
    counts = Counter(number for trial in trials for number in trial.unclear)
    rounds = any(o.step.is_round for o in checked.worked.sizes[0].outcomes)
    called = "Round" if rounds else "Row"
    for number, testers in sorted(counts.items(), key=lambda one: (-one[1], one[0])):
        yield Unclear(f"{called} {number}", testers, len(trials))


def _missing(checked: Checked, trials: Sequence[Trial], dropped: int) -> Iterator[Missing]:
    """Sizes and skills with fewer reports than wanted, and how many to invite for them."""
    rate = drop_out(len(trials), dropped)
    for name in checked.sizes:
        have = sum(trial.size == name for trial in trials)
        if have < _EACH:
            yield Missing(f"size {name}", _EACH - have, invited(_EACH - have, rate))
    for skill in SKILLS:
        have = sum(_skill(trial.skill) == skill for trial in trials)
        if have < _EACH:
            yield Missing(f"{skill} makers", _EACH - have, invited(_EACH - have, rate))


def drop_out(reported: int, dropped: int) -> float:
    """The share of testers that leave off, as this trial tells, or as usual."""
    whole = reported + dropped
    return dropped / whole if whole >= _FEWEST else _DROP_OUT


def invited(wanted: int, rate: float) -> int:
    """How many to invite so that so many report."""
    return ceil(wanted / (1 - rate)) if rate < 1 else wanted * 4


def _skill(words: str) -> str:
    low = words.lower()
    return next(
        (name for name, found in _SKILL_WORDS.items() if any(w in low for w in found)), ""
    )


def _said(trials: Sequence[Trial], dropped: int) -> Iterator[str]:
    without = [trial.tester for trial in trials if not trial.stitch_mm]
    if without:
        listed = ", ".join(without[:6])
        yield (
            f"No gauge from {listed}: their yarn is held against the gauge of the pattern."
        )
    if len(trials) + dropped >= _FEWEST:
        rate = drop_out(len(trials), dropped)
        yield f"{dropped} of {len(trials) + dropped} left off ({rate:.0%}).".replace(
            "%", " %"
        )
