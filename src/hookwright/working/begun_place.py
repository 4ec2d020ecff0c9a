"""The place a round begins in: is it worked into at its start, at its end, or both?"""

from __future__ import annotations

from hookwright.notation.tree import Target, Which
from hookwright.working import ahead
from hookwright.working.conventions import Choice
from hookwright.working.fabric import Place, PlaceKind, Stitch
from hookwright.working.hook import Hook, is_stitch
from hookwright.working.sequence import Run
from hookwright.working.wanted import (
    wanted_by,
)


def starts_here(hook: Hook, target: Target) -> bool:
    """Reads "sl st in first ch-2 sp, ch 1, *sc in ch-2 sp": no word says the same one.

    The first one is always the one that the round has begun in.
    """
    first = target.which is Which.FIRST
    told = first or target.which is Which.NEXT
    if not told or target.noun not in ("sp", "corner"):
        return False
    in_space = hook.last is not None and hook.last.kind is PlaceKind.SPACE
    begun = hook.chained or target.begun
    begins = hook.task.is_round and begun and not hook.worked
    if not (in_space and begins) or hook.last is None:
        return False
    if not wanted_by(hook, target)(hook.last):
        return False
    if first or target.begun or hook.asks(Choice.START_WORKED_FIRST):
        return True
    if hook.begun_in is not None and not hook.stands_in_start:
        hook.oddness += _LEFT_EMPTY
        hook.start_left = True
    return False


_LEFT_EMPTY = 8
"""What it costs to begin in a space and work nothing into it: more than any reading in
which something is."""


def comes_back(hook: Hook, target: Target) -> bool:
    """Reads "3 dc in first sp" at the end of a round that was begun in that space.

    So does "3 dc in first sc" of one that was begun on that stitch.
    """
    begun = hook.begun_in
    if target.noun not in ("sp", "corner"):
        begun = _first_place(hook) if target.amount is None else None
    if begun is None or not hook.worked:
        return False
    if ahead.holds(hook.ahead, wanted_by(hook, target)):
        return False
    hook.put_back(begun)
    if hook.start_left:
        hook.oddness -= _LEFT_EMPTY
        hook.start_left = False
    return True


def _first_place(hook: Hook) -> Place | None:
    """The stitch that a round has begun on with a chain that stands for one."""
    if not (hook.task.is_round and hook.stands_on_first):
        return None
    found = ahead.seek(hook.edge_line, is_stitch)
    first = ahead.take(found.rest) if found is not None else None
    return first.place if first is not None else None


def take_start_too(hook: Hook, target: Target) -> None:
    """Reads "sl st in first lp, ch 1, 3 sc in each lp around": the first is one of them."""
    begun = hook.begun_in
    every = target.which is Which.EACH and target.amount is None and target.noun == "sp"
    if begun is None or not every or hook.worked or hook.inside is not None:
        return
    stands = _stands_in_it(hook)
    last = Choice.START_WORKED_LAST in hook.task.readings  # then it comes at the end
    if not stands and not last and wanted_by(hook, target)(begun):
        hook.ahead, hook.begun_in = (Run(begun), *hook.ahead), None


def uses_up_start(hook: Hook, target: Target, *, whole: bool) -> None:
    """Reads "sl st in lp, ch 1, (2 sc, ch 3, 2 sc) in same lp": nothing is left for later.

    A counting chain and some stitches are half of a corner, which the round ends with.
    """
    if hook.begun_in is None or hook.worked or target.which is not Which.SAME:
        return
    stands = _stands_in_it(hook)
    if (whole or not stands) and Choice.START_WORKED_LAST in hook.task.readings:
        hook.ahead, hook.begun_in = hook.ahead[:-1], None


def _stands_in_it(hook: Hook) -> bool:
    """Whether the beginning chain is a stitch, in the place that the round begins in."""
    return any(isinstance(made, Run) and _counts(made) for made in hook.made)


def _counts(made: Run[Stitch]) -> bool:
    return any(head.counts for head in made.item.heads)
