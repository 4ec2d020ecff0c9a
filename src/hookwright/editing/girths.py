"""Do the pieces of a garment come to the girths that are printed: bust, hand, foot?

A bust is told of a back and a front together, a hand of the part that is called so. Ease
is nobody's to know; but where most sizes keep to the gauge and one does not, that is wrong.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from hookwright.design.facts import Along, Finished, Gauge
from hookwright.editing.against_gauge import gauge_told
from hookwright.editing.at_gauge import Worked, is_worked_so, of_stitches
from hookwright.editing.main_piece import SIDEWAYS, are_sound, straight_rows
from hookwright.editing.manuscript import Manuscript
from hookwright.editing.same_length import disagrees
from hookwright.editing.told_lengths import grain_mm, in_unit, sizes_named, what_is_told
from hookwright.finding import Finding, Related, Severity
from hookwright.notation.tree import Pattern
from hookwright.working.outcome import Outcome, Working

_TRUNKS = frozenset("chest bust waist hip hips".split())
_LIMBS = frozenset("hand palm foot leg calf sleeve".split())
_TWO = 2
_FEWEST_ROWS = 6
_MOSTLY = Fraction(6, 10)
_WARN = Fraction(8, 100)
_STRAY = Fraction(25, 1000)
"""One size that is further off than this, where the others are not, is out of step."""


class _Size(Struct, frozen=True):
    """What a size comes to, and what is printed for it."""

    number: int
    worked: Worked
    printed: Fraction


def girths(manuscript: Manuscript) -> Iterator[Finding]:
    """A finding for each girth of a body that its pieces contradict."""
    if SIDEWAYS.search(manuscript.source.text) is not None:
        return
    for one in {f.measure.span: f for f in manuscript.design.finished}.values():
        several = any(disagrees(one.measure, n) for n in range(len(one.measure.mm)))
        if one.measure.ranged or several or not {*one.of.split()} & (_TRUNKS | _LIMBS):
            continue
        if one.along not in (Along.AROUND, Along.UNSAID) or _falls(one):
            continue
        found = [
            (gauge, sizes)
            for gauge in manuscript.design.gauges
            if (sizes := _sizes(manuscript, gauge, one))
        ]
        off = [(gauge, wrong) for gauge, sizes in found if (wrong := _wrong(one, sizes))]
        if off and len(off) == len(found):
            yield _finding(manuscript, off[0][0], one, off[0][1])


def _falls(one: Finished) -> bool:
    """Whether a list does not grow with the sizes, which is told of the list itself."""
    known = [mm for mm in one.measure.mm if mm is not None]
    return any(larger < smaller for smaller, larger in pairwise(known))


def _sizes(manuscript: Manuscript, gauge: Gauge, one: Finished) -> list[_Size]:
    """What every size comes to at a gauge; none where that cannot be told of all."""
    found = []
    for size, working in enumerate(manuscript.worked.sizes):
        printed = one.measure.at(size)
        count = _count(manuscript.pattern, working, gauge, one)
        worked = of_stitches(gauge, count) if count and gauge.of == "st" else None
        if not printed or worked is None:
            return []
        found.append(_Size(size, worked, printed))
    return found


def _count(pattern: Pattern, working: Working, gauge: Gauge, one: Finished) -> int | None:
    """The stitches around: of a back and a front together, or of the part of that name."""
    trunk = bool({*one.of.split()} & _TRUNKS)
    parts = _trunk(pattern) if trunk else _limb(pattern, one.of)
    total = 0
    for number, times in parts:
        rows = [o for o in working.outcomes if o.step.part == number and o.worked]
        count = _width(rows) if trunk else _girth(rows)
        own = straight_rows(rows)
        if count is None or not own or not is_worked_so(gauge, own):
            return None
        if not are_sound(working, rows):
            return None
        total += times * count
    return total or None


def _trunk(pattern: Pattern) -> list[tuple[int, int]]:
    """A back and a front, each with how often it is made; none where there are others."""
    named = [(n, {*_words(part.name)}) for n, part in enumerate(pattern.parts)]
    if any(words & _CLOSED for _, words in named):
        return []
    backs = [n for n, words in named if "back" in words and "front" not in words]
    fronts = [n for n, words in named if "front" in words and "back" not in words]
    both = [n for n, words in named if {"front", "back"} <= words]
    if len(both) == 1 and not backs and not fronts and pattern.parts[both[0]].make == _TWO:
        return [(both[0], _TWO)]
    single = len(backs) == len(fronts) == 1 and not both
    alone = single and all(pattern.parts[n].make == 1 for n in (*backs, *fronts))
    return [(backs[0], 1), (fronts[0], 1)] if alone else []


_CLOSED = frozenset("side sides gusset gussets panel panels placket inset yoke".split())
"""Words of parts that widen a body beside its back and front."""


def _limb(pattern: Pattern, of: str) -> list[tuple[int, int]]:
    """The one part that is called by the name of what is measured."""
    words = {*of.split()} & _LIMBS
    found = [n for n, part in enumerate(pattern.parts) if words & {*_words(part.name)}]
    return [(found[0], 1)] if len(found) == 1 else []


def _words(name: str) -> list[str]:
    return name.lower().replace("/", " ").split()


def _width(rows: Sequence[Outcome]) -> int | None:
    """How many stitches most rows of a flat piece have."""
    if len(rows) < _FEWEST_ROWS or any(outcome.step.is_round for outcome in rows):
        return None
    counts = Counter(outcome.tally.stitches for outcome in rows)
    count, often = counts.most_common(1)[0]
    return count if isinstance(count, int) and often >= _MOSTLY * len(rows) else None


def _girth(rows: Sequence[Outcome]) -> int | None:
    """The most stitches that a good part of the rounds have: the hand, and not its cuff."""
    if not rows or not all(o.step.is_round for o in rows if o.step.label):
        return None
    counts = Counter(outcome.tally.stitches for outcome in rows)
    own = [n for n, often in counts.items() if often >= max(_EVEN, len(rows) // 4)]
    whole = [number for number in own if isinstance(number, int)]
    return max(whole, default=None)


_EVEN = 3
"""Fewer rounds of one count are on the way to another."""


def _wrong(one: Finished, sizes: Sequence[_Size]) -> list[_Size]:
    """The sizes out of step with the others, or all that are far off, for their bodies."""
    within = [size for size in sizes if _apart(size) <= _rounded(one, size)]
    others = [size for size in sizes if size not in within]
    if len(within) >= _TWO and len(others) == 1:
        apart, grain = _apart(others[0]), grain_mm(others[0].printed, one.measure.unit)
        strays = apart > grain and apart > _STRAY * others[0].printed
        return others if strays else []
    trunk = {*one.of.split()} & _TRUNKS and not one.to_fit
    return list(sizes) if trunk and not within and all(map(_is_far, others)) else []


def _apart(size: _Size) -> Fraction:
    return abs(size.worked.mm - size.printed)


def _rounded(one: Finished, size: _Size) -> Fraction:
    """How far a length may be off that was rounded as it is printed."""
    return grain_mm(size.printed, one.measure.unit) * Fraction(6, 10)


def _is_far(size: _Size) -> bool:
    """Whether a size is off by more than hands, seams and the gauge's rounding explain."""
    return _apart(size) / size.printed - size.worked.slack > _WARN


def _called(one: Finished) -> str:
    """ "bust", "hand circumference"."""
    limb = next((word for word in one.of.split() if word in _LIMBS), "")
    return f"{limb} circumference" if limb else what_is_told(one)


def _finding(
    manuscript: Manuscript, gauge: Gauge, one: Finished, found: Sequence[_Size]
) -> Finding:
    worst = max(found, key=_apart)
    names, unit = manuscript.pattern.sizes, one.measure.unit
    some = len(found) < len(manuscript.worked.sizes)
    of_size = (
        f"In {sizes_named(names[worst.number : worst.number + 1])}, at" if names else "At"
    )
    others = "; the other sizes agree" if some else ""
    message = (
        f"{of_size} {gauge_told(gauge, worst.worked)}, {worst.worked.number} stitches are "
        f"{in_unit(worst.worked.mm, unit)} around, but the {_called(one)} is printed "
        f"as {in_unit(worst.printed, unit)}{others}."
    )
    return Finding(
        "measure",
        Severity.WARNING,
        one.measure.span,
        message,
        "Correct the measurement, or the number of stitches.",
        related=(Related(gauge.span, "the gauge"),),
        sizes=tuple(names[size.number] for size in found) if names and some else (),
    )
