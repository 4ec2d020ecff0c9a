"""Which piece of the fabric stands on the cover?

Of a piece that is worked in repeats a sample is enough: so many repeats and rows of it,
with its own edges, that single stitches are seen. It is the pattern with other numbers,
worked again as any text is. Whatever is no such piece is shown whole.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.design.stripes import StripePlan, stripe_plans
from hookwright.release.shades import striped_part, times_worked
from hookwright.sizing.facts import Multiple, PartMultiple
from hookwright.sizing.multiples import multiples_of
from hookwright.sizing.placed import PartSized
from hookwright.sizing.rewriting import SizeWritten, rewritten
from hookwright.sizing.sized import size_pattern
from hookwright.sizing.wishes import Request

_ACROSS = 84
"""Stitches of a row of the sample, about: more are too small to be seen."""
_PROPORTION = 0.78
"""How high it is for its width."""
_USUAL_ROWS = 26
_TRIES = 5


def sample_of(checked: Checked) -> Checked | None:
    """A sample of the piece that a pattern begins with; None where it is shown whole."""
    multiples = multiples_of(checked)
    parts = size_pattern(checked, multiples, Request()).parts
    part = next((part for part in parts if _is_in_repeats(part.multiple)), None)
    if part is None or part.multiple.stitches is None or part.multiple.rows is None:
        return None
    stitches, rows = part.multiple.stitches, part.multiple.rows
    wanted = max(stitches.least, 2, round(_ACROSS / stitches.each))
    repeats = min(part.multiple.repeats, wanted)
    plan = next(iter(stripe_plans(checked.source, checked.reading.pattern)), None)
    for sets in _sets(rows, _rows_wanted(part, repeats), plan, part.multiple.set_repeats):
        found = rewritten(checked, [SizeWritten("", repeats, sets)])
        worked = found.checked or found.tried
        if worked is not None and all(line.agrees for line in worked.lines):
            return _with_colours(worked, checked)
    return None


def _is_in_repeats(part: PartMultiple) -> bool:
    return part.stitches is not None and part.chains is not None and not part.is_round


def _rows_wanted(part: PartSized, repeats: int) -> float:
    """How many rows make the sample as high as is wanted."""
    stitches = part.multiple.stitches
    assert stitches is not None
    width = part.gauge.width(stitches.at(repeats), repeats, stitches.extra)
    row = part.gauge.height(1)
    if width is None or row is None or not row.mm:
        return _USUAL_ROWS
    return float(width.mm / row.mm) * _PROPORTION


def _sets(
    rows: Multiple, wanted: float, plan: StripePlan | None, written: int
) -> Iterator[int]:
    """Sets of rows to try, the nearest first, in whole sequences of its stripes."""
    numbers = list(_heights(rows, wanted, plan))
    seen: set[int] = set()
    for number in sorted(numbers, key=lambda one: abs(one - wanted)):
        sets, rest = divmod(number - rows.extra, rows.each)
        if not rest and rows.least <= sets <= written and sets not in seen:
            seen.add(sets)
            yield sets
        if len(seen) >= _TRIES:
            return


def _heights(rows: Multiple, wanted: float, plan: StripePlan | None) -> Iterator[int]:
    if plan is not None:
        yield from (plan.rows(times) for times in range(1, 9))
        return
    around = round((wanted - rows.extra) / rows.each)
    yield from (rows.at(max(1, around + step)) for step in (0, 1, -1, 2, -2))


def _with_colours(worked: Checked, source: Checked) -> Checked:
    """A text worked again, with the colours that the worksheet tells."""
    return replace(worked, design=replace(worked.design, noted=source.design.noted))


def in_stripes(shown: Checked, source: Checked) -> Checked:
    """A pattern, or a sample of it, whose rows have the yarns of its stripe sequence.

    Args:
        shown: The pattern or the sample.
        source: The pattern, which tells the sequence in a sentence.
    """
    plan = next(iter(stripe_plans(source.source, source.reading.pattern)), None)
    pattern = shown.worked.pattern
    if plan is None or pattern.stripes:
        return shown
    part = striped_part(source.lines, plan.rows(times_worked(plan)))
    rows = [line.last[0] or 0 for line in shown.lines if line.part == part]
    stripes = tuple(enumerate(_colours(plan, max(rows, default=0)), 1))
    return replace(
        shown, worked=replace(shown.worked, pattern=replace(pattern, stripes=stripes))
    )


def _colours(plan: StripePlan, rows: int) -> list[str]:
    """The colour of each of so many rows: the sequence over and over, then its end."""
    once = [stripe.colour for stripe in plan.stripes for _ in range(stripe.rows)]
    after = [stripe.colour for stripe in plan.after for _ in range(stripe.rows)]
    over = max(0, rows - len(after))
    return [*(once * (over // len(once) + 1))[:over], *after][:rows]
