"""What one movement makes: stitches in places of their own, in one, or drawn together."""

from __future__ import annotations

from collections.abc import Mapping

from msgspec.structs import replace

from hookwright.notation.tree import Amount, Definition, Make
from hookwright.working import ahead
from hookwright.working.count import Count
from hookwright.working.fabric import Foot, Into, Place, PlaceKind, Stitch, is_space
from hookwright.working.hook import (
    LOOPS,
    MANY_RUNS,
    POSTS,
    Hook,
    Wanted,
    beside,
    grouped,
    is_stitch,
    onto,
    reach,
    tops,
    use,
)
from hookwright.working.sequence import Group, Line, Piece, Run
from hookwright.working.sequence import Repeat as Repeated
from hookwright.working.stitches import Facts
from hookwright.working.wanted import on_ring

Own = Mapping[str, Definition]


def number_at(hook: Hook, amount: Amount | None) -> int | None:
    """A written number at the size worked; None where none is written."""
    if amount is None:
        return None
    hook.lacks = hook.lacks or 1 < len(amount.values) <= hook.task.size
    return amount.at(hook.task.size) or 0


def insertion(hook: Hook, node: Make) -> Into:
    """The part of a place that the words send the hook under."""
    if node.post:
        return POSTS[node.post]
    loop = node.loop or (node.target.loop if node.target else "") or hook.loop
    return LOOPS.get(loop, Into.BOTH_LOOPS)


def _down(node: Make) -> int:
    return node.target.rows_below if node.target else 0


def kind_of(hook: Hook, node: Make) -> str:
    """The stitch that is made, where "inc" only says how many."""
    return hook.task.main if node.stitch in _OF_ROW else node.stitch


_OF_ROW = ("inc", "st")
"""Names that say nothing of the stitch: it is the one that the row is in."""


def in_here(hook: Hook, node: Make, facts: Facts, number: int) -> None:
    """More stitches in the place of a group."""
    heads = tops(kind_of(hook, node), facts.heads)
    hook.emit(beside(node.stitch, heads, insertion(hook, node)), number, node.span)


def in_each_of(
    hook: Hook,
    node: Make,
    facts: Facts,
    places: Count,
    each: int,
    wanted: Wanted,
    *,
    by_space: bool = False,
) -> None:
    """`each` stitches in each of the next `places` places of a kind.

    A space that counts as two of them takes two, unless spaces are what is told.
    """
    if facts.family == "together":
        together_over(hook, node, facts, places, wanted)
        return
    done: Count = 0
    for place, taken in use(hook, wanted, places, node.span, by_space=by_space):
        worth = 1 if by_space else max(1, place.counts)
        in_one = each * worth if is_space(place) else each
        hook.made.extend(stack(hook, node, facts, place, taken, in_one))
        done = done + taken * worth
    if done < places:
        want(hook, node, facts, places - done, each)


def stack(
    hook: Hook, node: Make, facts: Facts, place: Place, places: Count, each: int
) -> Line[Stitch]:
    """The stitches made in some like places."""
    into = insertion(hook, node)
    heads = tops(kind_of(hook, node))
    number = each * facts.heads
    in_space = is_space(place) > 0
    again = place.kind is PlaceKind.SPENT and hook.used_space  # once more in the same one
    hook.used_space = in_space or again or place.stitch == "gap"
    if in_space:
        hook.worked_spaces = True
        hook.lengths = hook.lengths | {place.chains}
    hook.worked = True
    first = onto(place, node.stitch, heads, into, _down(node))
    if place.kind is PlaceKind.SPENT:
        first = beside(node.stitch, heads, into)
        side_by_side = not hook.task.lacy and on_ring(hook)
        if place.stitch == "gap" and not side_by_side:
            return (grouped((Run(first, number, node.span, hook.yarn),)),)
        return (Run(first, number, node.span, hook.yarn),)
    if number == 1:
        return (Run(first, places, node.span, hook.yarn),)
    more = Run(beside(node.stitch, heads, into), number - 1, node.span, hook.yarn)
    group = grouped((Run(first, 1, node.span, hook.yarn), more))
    return (Repeated((group,), places),)


def want(hook: Hook, node: Make, facts: Facts, places: Count, each: int) -> None:
    """Stitches the words ask for when no place is left."""
    hook.missing = hook.missing + places * max(1, facts.passes)
    heads = tops(kind_of(hook, node))
    hook.emit(
        beside(node.stitch, heads, insertion(hook, node)),
        places * each * facts.heads,
        node.span,
    )


def together_over(
    hook: Hook, node: Make, facts: Facts, number: Count, wanted: Wanted
) -> None:
    """`number` stitches, each drawn together over as many places as it has legs."""
    legs = max(2, facts.passes)
    left, runs = number, 0
    while left > 0:
        runs += 1
        if runs > MANY_RUNS and hook.task.effort.spent():
            return
        if not reach(hook, wanted, node.span):
            want(hook, node, facts, left, 1)
            return
        many = _together_in_run(hook, node, legs, left)
        left = left - many
        if not many:
            _together_one(hook, node, legs, wanted)
            left = left - 1


def _together_in_run(hook: Hook, node: Make, legs: int, most: Count) -> Count:
    """As many as fit in the run of like places that is next."""
    taken = ahead.take(hook.ahead, most * legs)
    if taken is None or not isinstance(taken.number, int):
        return 0
    whole = taken.number // legs
    again = ahead.take(hook.ahead, whole * legs) if whole else None
    if again is None:
        return 0
    hook.ahead, hook.last, hook.began = again.rest, again.place, True
    hook.used_space = False
    stitch = Stitch(node.stitch, legs, _feet(hook, node, legs), tops(node.stitch))
    hook.emit(stitch, whole, node.span)
    return whole


def _feet(hook: Hook, node: Make, legs: int) -> tuple[Foot, ...]:
    into = insertion(hook, node)
    return tuple(Foot(step, _down(node), into) for step in range(min(legs, 99)))


def _together_one(hook: Hook, node: Make, legs: int, wanted: Wanted) -> None:
    """One stitch over places that are not all alike."""
    passes = places = spaces = 0
    for place, taken in use(hook, wanted, legs, node.span):
        number = taken if isinstance(taken, int) else 0
        passes += place.counts * number
        spaces += is_space(place) * number
        places += number
    hook.used_space = False
    stitch = Stitch(
        node.stitch, passes, _feet(hook, node, places), tops(node.stitch), spaces, places
    )
    hook.emit(stitch, 1, node.span)
    if places < legs:
        hook.missing = hook.missing + (legs - places)


def in_next(
    hook: Hook, node: Make, facts: Facts, number: int, *, gone: bool = False
) -> None:
    """So many stitches in one place: the one gone to, or else the next."""
    if not gone and not reach(hook, is_stitch, node.span):
        want(hook, node, facts, 1, number)
        return
    if facts.family == "together":
        together_over(hook, node, facts, number, is_stitch)
        return
    if hook.inside is not None:
        in_here(hook, node, facts, number)
        return
    taken = ahead.take(hook.ahead)
    if taken is None:
        want(hook, node, facts, 1, number)
        return
    hook.in_gaps = hook.in_gaps or taken.place.stitch == "gap"
    hook.ahead, hook.last, hook.began = taken.rest, taken.place, True
    beside_chain, hook.beside_chain = hook.beside_chain, False
    made = stack(hook, node, facts, taken.place, 1, number)
    if taken.place.kind is PlaceKind.SPENT and (
        taken.place.stitch != "gap" or beside_chain
    ):
        _join_group(hook, made)
    else:
        hook.made.extend(made)


def _is_chain(piece: Piece[Stitch]) -> bool:
    return isinstance(piece, Run) and piece.item.kind == "ch"


def _join_group(hook: Hook, made: Line[Stitch]) -> None:
    """Stitches in the place just used share a foot with those before them.

    Chains between them belong to the group: "dc in next sp, ch 2, dc in same sp".
    """
    made = ahead.ungrouped(made)
    while hook.made and _is_chain(hook.made[-1]):
        made = (hook.made.pop(), *made)
    before = hook.made.pop() if hook.made else None
    if before is None:  # what stands there already was made before this repeat
        hook.made.append(grouped(made))
    elif isinstance(before, Group) and not before.name:
        hook.made.append(grouped((*before.body, *made)))
    elif isinstance(before, Run) and before.item.heads:
        if before.times != 1:
            hook.made.append(replace(before, times=before.times - 1))
        hook.made.append(grouped((replace(before, times=1), *made)))
    else:
        hook.made.extend((before, *made))
