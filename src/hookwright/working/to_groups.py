"""The way to a group of stitches, to its middle, and between two of its stitches."""

from __future__ import annotations

from collections.abc import Callable

from msgspec.structs import replace

from hookwright.notation.tree import Target, Which
from hookwright.source import Span
from hookwright.working import ahead
from hookwright.working.ahead import Ahead
from hookwright.working.corners import is_corner
from hookwright.working.count import Count
from hookwright.working.fabric import Place, PlaceKind
from hookwright.working.gaps import (
    stand_in_gap,
)
from hookwright.working.hook import (
    Hook,
    is_stitch,
    pass_over,
    reach,
)
from hookwright.working.sequence import Group, Run, reverse, turned_round
from hookwright.working.stitches import is_called


def stitches_of_group(hook: Hook, group: Target, span: Span) -> int | None:
    """How many stitches the group that a target names holds; the hook stands before it."""
    found = seek_group(hook, group)
    body = found.rest[0] if found is not None else None
    number = ahead.stitches(body.body) if isinstance(body, Group) else None
    if found is None or not isinstance(number, int):
        return None
    pass_over(hook, found.line, span)
    hook.ahead = found.rest
    return number


def seek_group(hook: Hook, target: Target) -> ahead.Passed | None:
    """The next or last group of a name; of any name where the edge knows none."""
    named = group_called(target.noun)
    wanted = named if hook.edge_holds_group(named) else bool
    if target.which is not Which.LAST:
        return ahead.seek_group(hook.ahead, wanted)
    back = ahead.seek_group(reverse(hook.ahead), lambda group: wanted(turned_round(group)))
    if back is None:
        return None
    return ahead.Passed(reverse(back.rest[1:]), reverse((*back.line, back.rest[0])))


def group_called(name: str) -> Callable[[Group[Place]], bool]:
    """Tells the groups that a noun means."""
    if name == "group":
        return bool
    return is_corner if name == "corner" else lambda group: is_called(group.name, name)


def to_middle(hook: Hook, rest: Ahead, span: Span) -> bool:
    """To the middle of the group that comes next: its space, or its middle stitch."""
    group = rest[0]
    if not isinstance(group, Group):
        return False
    if ahead.holds(group.body, lambda place: place.kind is PlaceKind.SPACE):
        hook.ahead = rest
        return reach(hook, lambda place: place.kind is PlaceKind.SPACE, span)
    number = ahead.stitches(group.body)
    hook.ahead = rest
    if isinstance(number, int):
        pass_stitches(hook, number // 2 if number == _PAIR else (number - 1) // 2, span)
    if number == _PAIR:
        stand_in_gap(hook)
    return True


_PAIR = 2
"""A group of two stitches has nothing in its middle but the gap between them."""


def pass_stitches(hook: Hook, number: int, span: Span) -> None:
    """Passes so many stitches in silence."""
    left: Count = number
    while left > 0:
        found = ahead.seek(hook.ahead, is_stitch)
        if found is None:
            return
        pass_over(hook, found.line, span)
        taken = ahead.take(found.rest, left)
        if taken is None:
            return
        pass_over(hook, (Run(taken.place, taken.number),), span)
        hook.ahead = taken.rest
        left = left - taken.number * max(1, taken.place.counts)


def go_between_in_group(hook: Hook, target: Target, span: Span) -> bool:
    """Reads "between the 2nd and 3rd dc of next shell", then "of the same shell"."""
    group, number = target.of, target.ordinal or 1
    if group is None:
        return False
    if group.which is Which.SAME:
        number -= hook.passed_in_group
    else:
        found = seek_group(hook, replace(group, which=Which.NEXT))
        if found is None:
            return False
        pass_over(hook, found.line, span)
        hook.ahead = found.rest
    pass_stitches(hook, number, span)
    hook.passed_in_group = target.ordinal or 1
    stand_in_gap(hook)
    return True
