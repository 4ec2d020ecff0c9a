"""A stitch worked back into a place that was skipped just before.

"Sk next st, dc in next st, dc in skipped st" makes two stitches that cross.
The skip has used the place up, so the stitch uses none; its foot stands behind the hook.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from hookwright.notation.tree import Make, Target, Which
from hookwright.working.count import Count
from hookwright.working.fabric import Foot, Stitch
from hookwright.working.hook import Hook, tops
from hookwright.working.making import insertion, kind_of, number_at
from hookwright.working.sequence import Line, Run, total


class _Skipped(Struct, frozen=True):
    """Places skipped by word, none of which has been worked back into.

    Attributes:
        number: How many.
        back: How many places behind the hook the first of them lies.
    """

    number: int
    back: int


def worked_back(hook: Hook, node: Make, target: Target) -> bool:
    """Works stitches into the places skipped last; false where so many are not there."""
    if target.which is not Which.SKIPPED or target.rows_below or target.of is not None:
        return False
    number, places = (number_at(hook, told) or 1 for told in (node.amount, target.amount))
    skipped = _skipped_last(hook)
    if skipped is None or places > skipped.number:
        return False
    for place in range(places):
        if hook.task.effort.spent():
            hook.trouble("period", node.span, "no end of skipped places")
            break
        foot = Foot(place - skipped.back, 0, insertion(hook, node))
        stitch = Stitch(node.stitch, 0, (foot,), tops(kind_of(hook, node)))
        hook.emit(stitch, number, node.span)
    return True


def _skipped_last(hook: Hook) -> _Skipped | None:
    """What the last skip of this working of the group has left; None for nothing."""
    moved: Count = 0
    taken, number, words = 0, 0, None
    for run in _from_the_end(tuple(hook.made)):
        stitch, far = run.item, run.item.along * run.times
        if stitch.kind == "skip" and (not number or run.span == words):
            if not isinstance(far, int):
                return None
            number, words = number + far, run.span
        elif number:
            break
        else:
            moved = moved + far
            back = stitch.passes == 0 and any(foot.step < -1 for foot in stitch.feet)
            taken += int(back)
    free = number - taken
    return _Skipped(free, moved + free) if free > 0 and isinstance(moved, int) else None


def _from_the_end(line: Line[Stitch]) -> Iterator[Run[Stitch]]:
    """Runs from the last to the first; a repeat among them is one run that moves as far."""
    for piece in reversed(line):
        if isinstance(piece, Run):
            yield piece
        else:
            far = total((piece,), lambda stitch: stitch.along)
            yield Run(Stitch("", 0, (), (), 0, 1), far)
