"""Slip stitches: travel at the start of a row, a join at its end, fabric between."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.tree import Chain, Make, Target, Which
from hookwright.working import ahead
from hookwright.working.beginnings import from_hook
from hookwright.working.conventions import Choice
from hookwright.working.count import Count
from hookwright.working.fabric import Into, Place, PlaceKind, Stitch, is_space
from hookwright.working.going import go_to
from hookwright.working.hook import (
    Hook,
    Wanted,
    beside,
    come_round,
    is_stitch,
    onto,
    pass_over,
    use,
)
from hookwright.working.making import number_at
from hookwright.working.sequence import Run
from hookwright.working.wanted import number_of, on_ring, wanted_by


def slip(hook: Hook, node: Make) -> None:
    """Works a slip stitch as what it is at this place in the row."""
    target = node.target
    hooked = target is not None and target.from_hook
    told = hook.task.conventions.slips_count and (hooked or not hook.task.is_round)
    counts = (
        hook.worked or told or hook.task.of_slips
    ) and not hook.task.conventions.loops_at_hook
    head = Place(PlaceKind.STITCH, "sl st", 0, int(counts))
    if target is None and hook.inside is not None:
        hook.emit(
            beside(node.stitch, (head,), Into.WHOLE),
            number_at(hook, node.amount) or 1,
            node.span,
        )
    elif target is not None and target.from_hook and hook.chains > (target.ordinal or 0):
        _slip_down_chain(hook, node, target)
    elif target is not None and target.from_hook and _is_from_start(hook):
        from_hook(hook, target, node.span)
        _slip_over(hook, node, 1, head, is_stitch)
    elif target is not None and target.from_hook and hook.worked:
        hook.emit(Stitch("picot", 0, (), ()), 1, node.span)
    elif target is None and not _ends_round(hook, node):
        _slip_over(hook, node, number_at(hook, node.amount) or 1, head, is_stitch)
    elif target is not None and not _joins(hook, target) and hook.inside is None:
        _slip_to(hook, node, target, head)


def _is_from_start(hook: Hook) -> bool:
    """Whether nothing is worked yet on a chain that lies ahead."""
    front = ahead.take(hook.ahead)
    on_chain = front is not None and front.place.kind is PlaceKind.CHAIN
    return on_chain and not hook.began


def _slip_down_chain(hook: Hook, node: Make, target: Target) -> None:
    """ "Ch 5, sl st in 2nd ch from hook, sc in next ch": the tip of a point."""
    from_hook(hook, target, node.span)
    head = Place(PlaceKind.STITCH, "sl st")
    for place, taken in use(hook, is_stitch, 1, node.span):
        hook.emit(onto(place, "sl st", (head,), Into.BOTH_LOOPS), taken, node.span)
        hook.worked = True


def _slip_to(hook: Hook, node: Make, target: Target, head: Place) -> None:
    """Slips into the places named: along several of them, or into one."""
    if _is_there(hook, target):
        return
    told, target = target, _into_loop(hook, target)
    hook.along_chains = target is not told
    _go_on_from_join(hook, node, target)
    places = number_at(hook, target.amount)
    if target.which is Which.EACH and places is None:
        places = number_of(hook.ahead, is_stitch)
    if places and places > 1:
        _slip_over(hook, node, places, head, wanted_by(hook, target))
        return
    travels = not hook.worked and target.noun in ("sp", "corner", "gap", "here")
    taken = ahead.take(hook.ahead) if go_to(hook, target, node.span) else None
    if taken is None:
        if _ends_in_start(hook, target):
            hook.last = None
        elif _is_into_next_block(hook, target):
            hook.missing = hook.missing + 1
        return
    hook.ahead, hook.last, hook.began = taken.rest, taken.place, True
    if travels or target.which is Which.CENTRE:
        _travel_into(hook, node, taken.place)
        return
    hook.used_space = is_space(taken.place) > 0
    heads = (head,) if is_stitch(taken.place) or head.counts else ()
    _emit(hook, taken.place, heads, 1, node)


def _is_there(hook: Hook, target: Target) -> bool:
    """ "Sl st in first 2 ch of loop and into the loop": the one slipped along."""
    in_space = target.noun == "sp" and target.which in (Which.NEXT, Which.SAME)
    return hook.along_chains and in_space and not (hook.worked or hook.chained)


def _go_on_from_join(hook: Hook, node: Make, target: Target) -> None:
    """ "Join. Rnd 2: sl st in next sc": the hook is in the first one, which comes last."""
    begins = hook.task.is_round and not (hook.began or hook.chained or hook.before)
    first = ahead.seek(hook.ahead, is_stitch) if begins else None
    front = ahead.take(first.rest) if first is not None else None
    if front is None or target.which is not Which.NEXT:
        return
    if wanted_by(hook, target)(front.place) and hook.asks(Choice.ON_FROM_JOIN):
        pass_over(hook, (Run(front.place),), node.span)
        hook.ahead = front.rest


def _into_loop(hook: Hook, target: Target) -> Target:
    """ "Sl st in each of next 2 ch": along the first loop, where the round then begins."""
    loops = hook.task.is_round and not hook.worked and target.noun == "ch"
    if not loops or target.amount is None or ahead.holds(hook.ahead, _is_single_chain):
        return target
    return replace(target, noun="sp", which=Which.NEXT, amount=None, chains=None)


def _is_single_chain(place: Place) -> bool:
    """Whether a place is a chain that is worked into by itself."""
    return place.kind in (PlaceKind.CHAIN, PlaceKind.UNDERSIDE) or place.counts > 1


def _ends_in_start(hook: Hook, target: Target) -> bool:
    """ "*Ch 4, 2 tr in same sc, ch 4, sl st in next sc; rep": the last petal ends there.

    So it does where the place that the round began in holds the first petal.
    """
    again = hook.last is not None and hook.last.kind is PlaceKind.SPENT
    again = again or (hook.task.ends_on_first and hook.last is not None)
    round_ = hook.task.is_round and hook.worked and not hook.left()
    return again and round_ and target.which is Which.NEXT


def _is_into_next_block(hook: Hook, target: Target) -> bool:
    """ "*Ch 3, 3 dc in same sp, sl st in sp of next block; rep": there has to be one."""
    of_blocks = bool(hook.task.conventions.loops_at_hook) and not hook.task.is_round
    return of_blocks and target.noun == "sp" and target.which is Which.NEXT


def _travel_into(hook: Hook, node: Make, place: Place) -> None:
    """The round starts in a space, which may be worked into at its end as well."""
    hook.emit(onto(place, "sl st", (), Into.BOTH_LOOPS), 1, node.span)
    _leave_start(hook, None, 0)
    hook.worked_spaces, hook.begun_in = True, place
    if hook.task.is_round and hook.asks(Choice.START_WORKED_LAST):
        come_round(hook)  # what was slipped over lies before it
        hook.ahead = (*hook.ahead, Run(place))


def _emit(
    hook: Hook, place: Place, heads: tuple[Place, ...], number: Count, node: Make
) -> None:
    """Slip stitches; those before the first stitch of a round use nothing up yet."""
    made = onto(place, "sl st", heads, Into.BOTH_LOOPS)
    travels = hook.task.is_round and not hook.worked and not hook.task.of_slips
    hooked = (
        node.target is not None and node.target.from_hook
    )  # round a chain it is a stitch
    if travels and not hooked and is_stitch(place):
        _leave_start(hook, place, number)
        made = replace(made, passes=0, places=0)
    hook.emit(made, number, node.span)
    hook.worked = hook.worked or any(head.counts for head in heads)


def _leave_start(hook: Hook, place: Place | None, number: Count) -> None:
    """The round starts further on: places slipped over come last, but for the newest."""
    if hook.start is not None:
        hook.before = (*hook.before, Run(hook.start))
    if place is not None and number > 1:
        hook.before = (*hook.before, Run(place, number - 1))
    hook.start, hook.start_free = place, place is not None


def _slip_over(hook: Hook, node: Make, number: Count, head: Place, wanted: Wanted) -> None:
    done: Count = 0
    for place, taken in use(hook, wanted, number, node.span):
        _emit(hook, place, (head,), taken, node)
        done = done + taken
    if done < number and head.counts:
        hook.missing = hook.missing + (number - done)


def _ends_round(hook: Hook, node: Make) -> bool:
    """Whether a bare "sl st" closes a round: every stitch has been worked into.

    At the end of a round that a chain began it does so where several are left as well.
    """
    round_ = hook.task.is_round or on_ring(hook)
    closes = round_ and hook.worked and node.amount is None
    left = number_of(hook.ahead, is_stitch)
    if left > 1 and hook.inside is None and node.span == hook.task.closing:
        return closes
    return closes and (hook.in_gaps or not left)


def _is_beginning(hook: Hook, noun: str) -> bool:
    """ "Ss to top of beg cluster": a stitch that is told to begin with a chain."""
    definition = hook.task.own.get(noun)
    body = definition.body if definition is not None and definition.in_one_place else ()
    return bool(body) and isinstance(body[0], Chain) and hook.worked


def _joins(hook: Hook, target: Target) -> bool:
    """Whether a slip stitch closes the round: into its first stitch or beginning chain."""
    if not hook.worked and not hook.stands_on_first:
        return False
    if target.noun in ("tch", "ring") or _is_beginning(hook, target.noun):
        return True
    if target.which is Which.FIRST or target.noun == "base":
        return True
    return target.noun == "ch" and target.ordinal is not None
