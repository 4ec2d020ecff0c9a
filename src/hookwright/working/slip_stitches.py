"""Slip stitches: travel at the start of a row, a join at its end, fabric between."""

from __future__ import annotations

from hookwright.notation.tree import Make, Node, Target, Which
from hookwright.working import ahead
from hookwright.working.conventions import Choice
from hookwright.working.count import Count
from hookwright.working.fabric import Into, Place, PlaceKind, is_space
from hookwright.working.going import go_to
from hookwright.working.hook import Hook, Wanted, is_stitch, onto, use
from hookwright.working.making import number_at
from hookwright.working.sequence import Run
from hookwright.working.wanted import number_of, wanted_by


def slip(hook: Hook, node: Make) -> Node | None:
    """Works a slip stitch as what it is at this place in the row."""
    target = node.target
    number = number_at(hook, node.amount)
    if target is not None and _joins(hook, target):
        return None
    travels = not hook.worked
    counts = 0 if travels else 1
    head = Place(PlaceKind.STITCH, "sl st", 0, counts)
    if target is None:
        _slip_over(hook, node, number or 1, head, is_stitch)
        return None
    places = number_at(hook, target.amount)
    if target.which is Which.EACH and places is None:
        places = number_of(hook.ahead, is_stitch)
    if hook.inside is not None:
        return None
    if places and places > 1:
        _slip_over(hook, node, places, head, wanted_by(hook, target))
        return None
    if (travels and target.noun in ("sp", "gap", "here")) or target.which is Which.CENTRE:
        if go_to(hook, target, node.span):
            taken = ahead.take(hook.ahead)
            if taken is not None:
                hook.ahead, hook.last, hook.began = taken.rest, taken.place, True
                hook.emit(onto(taken.place, "sl st", (), Into.BOTH_LOOPS), 1, node.span)
                hook.worked_spaces = True
                if hook.task.is_round and hook.asks(Choice.START_WORKED_LAST):
                    hook.ahead = (*hook.ahead, Run(taken.place))
        return None
    if go_to(hook, target, node.span):
        taken = ahead.take(hook.ahead)
        if taken is not None:
            hook.ahead, hook.last, hook.began = taken.rest, taken.place, True
            hook.used_space = is_space(taken.place) > 0
            heads = (head,) if is_stitch(taken.place) or counts else ()
            hook.emit(onto(taken.place, "sl st", heads, Into.BOTH_LOOPS), 1, node.span)
    return None


def _slip_over(hook: Hook, node: Make, number: Count, head: Place, wanted: Wanted) -> None:
    done: Count = 0
    for place, taken in use(hook, wanted, number, node.span):
        hook.emit(onto(place, "sl st", (head,), Into.BOTH_LOOPS), taken, node.span)
        done = done + taken
    if done < number and head.counts:
        hook.missing = hook.missing + (number - done)


def _joins(hook: Hook, target: Target) -> bool:
    """Whether a slip stitch closes the round: into its first stitch or beginning chain."""
    if not hook.worked and not hook.stands_on_first:
        return False
    if target.noun in ("tch", "ring"):
        return True
    if target.which is Which.FIRST or target.noun == "base":
        return True
    return target.noun == "ch" and target.ordinal is not None
