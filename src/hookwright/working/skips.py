"""Places passed by word: "sk 2 sts", "miss next ch-1 sp"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.tree import Skip, Target, Which
from hookwright.working import ahead
from hookwright.working.beginnings import from_hook, is_from_hook
from hookwright.working.conventions import Choice
from hookwright.working.count import Count
from hookwright.working.each_place import reach_of
from hookwright.working.fabric import Place, PlaceKind
from hookwright.working.gaps import is_gap, pass_one_foot
from hookwright.working.hook import Hook, pass_over, use
from hookwright.working.making import number_at
from hookwright.working.sequence import Run
from hookwright.working.to_groups import seek_group
from hookwright.working.wanted import is_group_name, wanted_by


def _is_slip(place: Place) -> bool:
    return place.stitch == "sl st"


def skip(hook: Hook, node: Skip) -> None:
    """Places passed by word."""
    target = node.target
    number = number_at(hook, target.amount)
    if target.noun == "sl st" and not hook.edge_holds(_is_slip):
        return  # they went into another piece, and lie on no edge of this one
    if _skips_from_hook(hook, node, number):
        return
    if _skips_under_chain(hook, target, number):
        hook.stands_on_first = False
        if number in (None, 1):
            return
        number -= 1
    hook.skipped = True
    if number is not None and number > 1 and is_gap(hook, target):
        _skip_places(hook, replace(node, target=replace(target, noun="st")), number)
    elif target.noun == "gap" or is_gap(hook, target):
        pass_one_foot(hook, node.span)
    elif target.noun == "group" or is_group_name(hook, target.noun):
        _skip_groups(hook, node, number or 1)
    elif target.which is Which.EACH and number is None:
        reach, hook.ahead = reach_of(hook, target, node.span)
        pass_over(hook, reach, node.span, "skip")
    else:
        _skip_places(hook, node, number or 1)


def _skips_from_hook(hook: Hook, node: Skip, number: int | None) -> bool:
    """Passes chains counted from the hook, where such are meant: "sk first 3 ch"."""
    target = node.target
    if target.from_hook:
        from_hook(hook, target, node.span)
        return True
    beginning = target.which is Which.FIRST or target.noun == "ch"
    beginning = beginning and not hook.stands_on_first
    if beginning and is_from_hook(hook, replace(target, noun="ch", ordinal=number or 1)):
        from_hook(hook, replace(target, ordinal=(number or 1) + 1), node.span)
        return True
    return False


def _skips_under_chain(hook: Hook, target: Target, number: int | None) -> bool:
    """Whether the first stitch skipped is the one a counting chain stands on already."""
    if hook.worked or hook.skipped:
        return False
    only = number in (None, 1)
    if only and target.noun == "base" and hook.last is not None:
        return True  # it stands where the last slip stitch went
    if not hook.stands_on_first:
        return False
    if target.which is Which.FIRST or target.noun == "base":
        return only
    return (
        (only or hook.task.is_round or number == _edge_chains(hook) + 1)
        and target.which is Which.NEXT
        and target.noun != "sp"
        and hook.asks(Choice.SKIP_UNDER_CHAIN)
    )


def _edge_chains(hook: Hook) -> int:
    """The chains of the space that the row begins with: "ch 4 (tr and ch 1), miss 2".

    So many stitches are missed under it, and the one that the chain stands on.
    """
    last = hook.made[-1] if hook.made else None
    heads = last.item.heads if isinstance(last, Run) else ()
    spaces = [place.chains for place in heads if place.kind is PlaceKind.SPACE]
    return spaces[0] if spaces else -1


def _skip_places(hook: Hook, node: Skip, number: int) -> None:
    """Passes the next places of a kind; spaces may be fewer than the words say."""
    target = node.target
    wanted = wanted_by(hook, target)
    left: Count = number
    if target.which is Which.FIRST and hook.stands_on_first and not hook.worked:
        left = left - 1
    if number > 1 and _is_one_space(hook, target, number):
        left = 1
    by_space = target.noun == "sp"
    for place, taken in use(hook, wanted, left, node.span, by_space=by_space):
        pass_over(hook, (Run(place, taken),), node.span, "skip")
        left = left - taken * (1 if by_space else max(1, place.counts))
    if left > 0 and target.noun != "sp":
        hook.missing = hook.missing + left
    elif left > 0:
        hook.vain = hook.vain + left


def _is_one_space(hook: Hook, target: Target, number: int) -> bool:
    """Whether chains skipped are those of the space that lies next: "sk 2 ch" of ch-2."""
    front = ahead.take(hook.ahead) if target.noun == "ch" else None
    if front is None or front.place.kind is not PlaceKind.SPACE:
        return False
    return front.place.chains == number and not front.place.counts


def _skip_groups(hook: Hook, node: Skip, number: int) -> None:
    for _ in range(number):
        if hook.task.effort.spent():
            return
        found = seek_group(hook, replace(node.target, which=Which.NEXT))
        if found is None:
            return
        pass_over(hook, (*found.line, found.rest[0]), node.span, "skip")
        hook.ahead = found.rest[1:]
    hook.began = True
