"""The way to a named place: the next one, the last, the centre, the 3rd dc of a shell."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.tree import Target, Which
from hookwright.source import Span
from hookwright.working import ahead
from hookwright.working.ahead import Ahead
from hookwright.working.begun_place import comes_back, starts_here
from hookwright.working.conventions import Choice
from hookwright.working.corner_spaces import corner_space
from hookwright.working.corners import is_corner
from hookwright.working.count import Count
from hookwright.working.fabric import GAP, RING, Place, PlaceKind
from hookwright.working.gaps import (
    as_space_over_chain,
    go_to_gap,
    in_group,
    only_gaps,
    stand_in_gap,
)
from hookwright.working.hook import (
    Hook,
    Wanted,
    come_round,
    is_stitch,
    just_skipped,
    lies_before,
    pass_over,
    reach,
)
from hookwright.working.nodes import is_space_at_edge
from hookwright.working.sequence import Group, Repeat, Run
from hookwright.working.to_groups import (
    go_between_in_group,
    group_called,
    pass_stitches,
    seek_group,
    to_middle,
)
from hookwright.working.wanted import (
    cut_before,
    is_chain,
    is_group_name,
    number_of,
    on_ring,
    only_spaces,
    space_wanted,
    wanted_by,
)

LONGEST_PASS = 6
"""Stitches that may lie in silence before the last place of a lace row: a group's half."""


def go_to(hook: Hook, target: Target, span: Span) -> bool:
    """Brings one named place to the front, or makes it the place the hook is in."""
    target = _whole_space(hook, as_space_over_chain(hook, target))
    noun = target.noun
    if noun == "ring" or (noun == "sp" and on_ring(hook)):
        hook.put_back(RING)
        return True
    if noun in ("made", "front"):
        return noun == "front" or _into_made(hook)
    if target.which is Which.SAME or noun in ("base", "here"):
        return _stay(hook, target, span)
    if noun == "gap" or only_gaps(hook, target):
        nth = target.which is Which.NTH and target.of is not None
        go = go_between_in_group if nth else go_to_gap
        return go(hook, target, span)
    if target.which is Which.BEHIND:
        return _go_behind(hook, target, span)
    if target.of is not None:
        return _go_within(hook, target, span)
    if noun == "tch":
        return _go_to_turning_chain(hook, target, span)
    at_space = noun == "corner" and bool(corner_space(hook.edge_line))
    if noun == "group" or (is_group_name(hook, noun) and not at_space):
        return _go_to_group(hook, target, span)
    if noun == "corner" and not at_space:
        return _go_to_corner(hook, target, span)
    return _go_along(hook, target, span)


def _go_to_corner(hook: Hook, target: Target, span: Span) -> bool:
    """To the middle stitch of a corner, or between the side that is done and the next."""
    if hook.worked and not ahead.stitches(hook.ahead):
        hook.put_back(GAP)
        return True
    return _go_to_centre(hook, replace(target, noun="st"), span)


def _whole_space(hook: Hook, target: Target) -> Target:
    """ "3rd ch of next ch-5 loop": a place in a space, which is used with it."""
    space = target.of
    if space is None or space.noun != "sp" or target.noun not in ("ch", "st"):
        return target
    counted = target.which is Which.NTH or target.which is Which.CENTRE
    chained = target.noun == "ch" or not hook.edge_holds_group(bool)
    return space if counted and chained else target


def _into_made(hook: Hook) -> bool:
    """Into the stitch just made, or the space that the row has begun with."""
    last = hook.last
    begins = last is not None and not hook.worked and last.kind is PlaceKind.SPACE
    hook.put_back(last if begins and last is not None else GAP)
    return True


def _go_along(hook: Hook, target: Target, span: Span) -> bool:
    """To a stitch or space by its place in the row: the first, the last, the 3rd."""
    which = target.which
    if starts_here(hook, target):
        return _stay(hook, target, span)
    if _is_of_turning_chain(hook, target):
        return _go_to_turning_chain(hook, target, span)
    if covers_space(hook, target):
        return True
    leave_group(hook, target, span)
    stands = hook.stands_on_first and not hook.worked
    beside = target.noun == "sp" and hook.last is not None and is_stitch(hook.last)
    if which is Which.FIRST and stands and not beside:
        return _stay(hook, target, span)
    if which is Which.FIRST and comes_back(hook, target):
        return True
    if which is Which.LAST:
        return go_to_last(hook, target, span, 1)
    if target.ordinal and which is Which.NTH:
        return _go_to_nth(hook, target, span)
    if which is Which.CENTRE:
        return _go_to_centre(hook, target, span)
    return reach(hook, wanted_by(hook, target), span)


def _is_of_turning_chain(hook: Hook, target: Target) -> bool:
    """ "Last dc in 3rd ch": of the chain the row below begins with, where that is next."""
    told = target.noun == "ch" and target.which is Which.NTH and not target.from_hook
    if not told or not hook.worked or ahead.holds(hook.ahead, is_chain):
        return False
    found = ahead.seek(hook.ahead, ahead.is_beginning)
    taken = ahead.take(found.rest) if found is not None else None
    if taken is None or taken.place.kind is not PlaceKind.TURNING_CHAIN:
        return False
    return taken.place.chains >= (target.ordinal or 0)


def covers_space(hook: Hook, target: Target) -> bool:
    """Whether a stitch goes in front of the chain over a stitch skipped rows below."""
    if not target.rows_below or target.which is not Which.SKIPPED:
        return False
    front = ahead.take(hook.ahead)
    return front is not None and front.place.kind is PlaceKind.SPACE


def leave_group(hook: Hook, target: Target, span: Span) -> None:
    """Passes what is left of a group, where the next stitches are meant to be outside."""
    if target.alone or (target.which is Which.NEXT and _leaves_group(hook, target)):
        _pass_groups(hook, span, whole=target.alone)


def _leaves_group(hook: Hook, target: Target) -> bool:
    """Whether the next stitch is one outside the group that was worked into."""
    inside = (
        in_group(hook) and hook.used_space and target.noun not in ("sp", "ch", "corner")
    )
    return inside and hook.asks(Choice.PAST_GROUP)


def _pass_groups(hook: Hook, span: Span, *, whole: bool) -> None:
    """Passes what is left of a group, and with `whole` those that follow it."""
    while hook.ahead:
        piece = hook.ahead[0]
        if isinstance(piece, Repeat):
            hook.ahead = ahead.opened(hook.ahead)
        elif isinstance(piece, Group) and (whole or not piece.whole):
            pass_over(hook, piece.body, span)
            hook.ahead = hook.ahead[1:]
        else:
            return


def _stay(hook: Hook, target: Target, span: Span) -> bool:
    """In the place just used: it is put back in front, used up already."""
    if target.noun == "gap":
        stand_in_gap(hook)
        hook.beside_chain = hook.chained and not hook.worked
        return True
    if hook.last is None:
        return reach(hook, _stitch_or_ring, span)
    if _begins_in_space(hook, target):
        return reach(hook, wanted_by(hook, target), span)
    hook.put_back(hook.last)
    if hook.last == GAP and not on_ring(hook):
        hook.beside_chain = hook.chained and not hook.worked
    return True


def _go_behind(hook: Hook, target: Target, span: Span) -> bool:
    """To the stitch that follows a space or a corner, which is passed."""
    beside = target.of
    if beside is None or not reach(hook, wanted_by(hook, beside), span):
        return False
    taken = ahead.take(hook.ahead)
    if taken is None:
        return False
    pass_over(hook, (Run(taken.place),), span)
    hook.ahead = taken.rest
    return reach(hook, wanted_by(hook, replace(target, of=None)), span)


def _begins_in_space(hook: Hook, target: Target) -> bool:
    """ "Ch 3, dc in same sp, 2 dc in each sp": the chain is meant to stand in the first."""
    stands = hook.stands_on_first and not hook.worked and hook.task.is_round
    if target.noun != "sp" or not stands or hook.last is None or hook.used_space:
        return False
    return hook.last.kind in (PlaceKind.STITCH, PlaceKind.TURNING_CHAIN)


def _stitch_or_ring(place: Place) -> bool:
    return bool(is_stitch(place)) or place.kind is PlaceKind.RING


def _go_to_group(hook: Hook, target: Target, span: Span) -> bool:
    """Reads "in next shell": its middle space, or its middle stitch."""
    found = seek_group(hook, target)
    if found is None:
        return False
    pass_over(hook, found.line, span)
    return to_middle(hook, found.rest, span)


def _go_within(hook: Hook, target: Target, span: Span) -> bool:
    """Reads "3rd dc of next shell", "centre sc of corner", "last dc of fan"."""
    inner = target.of
    assert inner is not None
    if is_space_at_edge(target):
        return _go_to_edge(hook, target, span)
    of_stitches = inner.noun not in ("group", "corner", "sp")
    if inner.amount is not None and of_stitches and not is_group_name(hook, inner.noun):
        return _go_to_one_of(hook, target, inner, span)
    return _go_into_group(hook, target, inner, span)


def _go_into_group(hook: Hook, target: Target, inner: Target, span: Span) -> bool:
    """To a place of the next group, or of the last one."""
    counted = target.noun != "sp" and bool(target.ordinal or target.which is Which.CENTRE)
    skipped_to = in_group(hook) and just_skipped(hook) and counted
    at_corner = inner.noun == "corner" and target.which is Which.CENTRE
    if skipped_to or (at_corner and _before_centre(hook)):
        return reach(hook, is_stitch, span)
    if target.noun == "sp" and in_group(hook) and (not hook.worked or _holds_space(hook)):
        return _go_along(hook, _in_row(target, inner), span)  # on the way along this group
    group = replace(inner, noun=inner.noun if inner.noun not in ("st", "sp") else "group")
    if inner.which is not Which.LAST:
        group = replace(group, which=Which.NEXT)
    begun = _begun(hook) if inner.which is Which.FIRST else 0
    if not begun:
        found = seek_group(hook, group)
        if found is None and target.ordinal:
            used_up = _means_groups(hook, inner)
            return not used_up and _go_to_one_of(hook, target, inner, span)
        if found is None:
            return _is_in_row(hook, target, group) and _go_along(
                hook, _in_row(target, inner), span
            )
        pass_over(hook, found.line, span)
        hook.ahead = found.rest
    if target.noun == "sp" and hook.edge_holds(_is_hole):
        return reach(hook, _is_hole, span)
    if target.noun == "sp":
        target = _middle_instead(hook, target, span)
    pass_stitches(hook, _before_within(hook, target, begun) - begun, span)
    return not _is_before_space(hook, target) or reach(hook, is_stitch, span)


def _means_groups(hook: Hook, inner: Target) -> bool:
    """Whether "next petal" is one of the edge's groups, of which none is left whole."""
    return inner.noun == "group" and hook.edge_holds_group(bool)


def _is_before_space(hook: Hook, target: Target) -> bool:
    """Whether a space of a fan lies before the stitch wanted: "3rd dc of next fan"."""
    front = ahead.take(hook.ahead)
    stitch = target.noun not in ("sp", "ch", "gap", "corner")
    return stitch and front is not None and front.place.kind is PlaceKind.SPACE


def _go_to_one_of(hook: Hook, target: Target, several: Target, span: Span) -> bool:
    """To "the centre sc of next 3 sc", "the 2nd of next 4 sts"."""
    found = ahead.seek(hook.ahead, wanted_by(hook, several))
    if found is None:
        return False
    pass_over(hook, found.line, span)
    hook.ahead = found.rest
    number = (several.amount.at(hook.task.size) if several.amount else None) or 1
    before = (target.ordinal or 1) - 1
    if target.which in (Which.CENTRE, Which.LAST):
        before = (number - 1) // 2 if target.which is Which.CENTRE else number - 1
    pass_stitches(hook, before, span)
    return reach(hook, is_stitch, span)


def _before_within(hook: Hook, target: Target, begun: int) -> int:
    """How many stitches of the group at the front lie before the one that is asked for."""
    group = hook.ahead[0]
    number = ahead.stitches(group.body) + begun if isinstance(group, Group) else 0
    if target.which is Which.CENTRE and isinstance(number, int):
        return (number - 1) // 2
    if target.which is Which.LAST and isinstance(number, int):
        return number - 1
    return (target.ordinal or 1) - 1


def _middle_instead(hook: Hook, target: Target, span: Span) -> Target:
    """The middle stitch of a group, where a space is asked for that no group has."""
    chains = f"ch-{target.chains} " if target.chains else ""
    hook.trouble("missing-target", span, f"{chains}space in a group")
    return replace(target, which=Which.CENTRE)


def _holds_space(hook: Hook) -> bool:
    """Whether the space of the group that was worked into still lies ahead."""
    group = hook.ahead[0]
    return isinstance(group, Group) and ahead.holds(group.body, _is_hole)


def _is_hole(place: Place) -> bool:
    """Whether a place is a space under chains."""
    return place.kind is PlaceKind.SPACE


def _begun(hook: Hook) -> int:
    """How many stitches of the first group the beginning of a row has used; 0 if none."""
    front = hook.ahead[0] if hook.ahead else None
    used = ahead.stitches(hook.edge_line) - ahead.stitches(hook.ahead)
    rest = isinstance(front, Group) and not front.whole
    return used if rest and isinstance(used, int) and used == 1 else 0


def _is_in_row(hook: Hook, target: Target, group: Target) -> bool:
    """Whether a space of a group may be any space: no group of that name is known."""
    named = group.noun != "group" and hook.edge_holds_group(group_called(group.noun))
    return target.noun == "sp" and not named


def _in_row(target: Target, inner: Target) -> Target:
    """A space of the next group, where the edge holds no groups: the next such space."""
    return replace(target, of=None, which=inner.which)


def _go_to_nth(hook: Hook, target: Target, span: Span) -> bool:
    """Reads "in 2nd sc": counted along the whole edge, or from here if that is behind."""
    wanted = wanted_by(hook, target)
    if in_group(hook) and just_skipped(hook):  # "sk 2, sc in 3rd dc" of a fan
        return reach(hook, wanted, span)
    used = number_of(hook.edge_line, wanted) - number_of(hook.ahead, wanted)
    before = target.nth(hook.task.size) - 1
    number = before - used if before >= used else before
    return _pass_wanted(hook, number, wanted, span) and reach(hook, wanted, span)


def _pass_wanted(hook: Hook, number: int, wanted: Wanted, span: Span) -> bool:
    """Passes so many places of a kind in silence; false where there are fewer."""
    most = min(number, number_of(hook.ahead, wanted))
    cut = cut_before(hook.ahead, most, wanted)
    if cut is None:
        return False
    passed, hook.ahead = cut
    pass_over(hook, passed, span)
    return most == number


def _go_to_centre(hook: Hook, target: Target, span: Span) -> bool:
    """The middle one ("in centre sp") of the edge, or of the next corner."""
    if target.noun == "sp":
        wanted = space_wanted(hook, target)
        return _to_nth_of_whole(hook, wanted, span)
    found = None if _before_centre(hook) else ahead.seek_group(hook.ahead, is_corner)
    if found is not None:
        pass_over(hook, found.line, span)
        return to_middle(hook, found.rest, span)
    return reach(hook, wanted_by(hook, target), span)


def _before_centre(hook: Hook) -> bool:
    """Whether a corner is begun and its centre is next: "sc in same st, 3 sc in centre"."""
    front = hook.ahead[0] if hook.ahead else None
    if not in_group(hook) or not isinstance(front, Group):
        return False
    return ahead.stitches(front.body) > 1


def _to_nth_of_whole(hook: Hook, wanted: Wanted, span: Span) -> bool:
    """The middle one of all wanted places of the edge, counting those already used."""
    total_line = hook.edge_line
    count = number_of(total_line, wanted)
    used = count - number_of(hook.ahead, wanted)
    middle = (count - 1) // 2
    number = max(0, middle - used)
    return _pass_wanted(hook, number, wanted, span) and reach(hook, wanted, span)


def _go_to_turning_chain(hook: Hook, target: Target, span: Span) -> bool:
    """The top of a turning chain, whether it counts or not; else the last stitch.

    Where a single chain that is no stitch lies behind the last one, that stitch is meant.
    A round that was slipped on from its chain comes to it once all else is used.
    """
    before = lies_before(hook) if hook.task.is_round and not hook.left() else ()
    if ahead.holds(before, ahead.is_beginning):
        come_round(hook)
    found = ahead.seek(hook.ahead, ahead.is_beginning)
    if found is not None and not _is_behind_last(found):
        hook.leapt = hook.leapt + _leapt(hook, found.line)
        pass_over(hook, found.line, span)
        hook.ahead = found.rest
        return True
    return go_to_last(hook, target, span, 1)


def _is_behind_last(found: ahead.Passed) -> bool:
    """Whether a chain to turn with that is no stitch has the last stitch before it."""
    front = ahead.take(found.rest)
    chain = front.place if front is not None else None
    idle = chain is not None and chain.chains == 1 and not chain.counts
    return idle and ahead.stitches(found.line) == 1


def _go_to_edge(hook: Hook, target: Target, span: Span) -> bool:
    """ "In the turning chain space": a space beside the chain, or under it."""
    plain = replace(target, of=None)
    if ahead.holds(hook.ahead, wanted_by(hook, plain)) or target.of is None:
        return _go_along(hook, plain, span)
    return _go_to_turning_chain(hook, target.of, span)


def _leapt(hook: Hook, line: Ahead) -> Count:
    """Stitches passed on the way, but for the rest of a group or beside a space."""
    number = ahead.stitches(line)
    normal = hook.used_space or hook.sought
    return 0 if normal and number <= LONGEST_PASS else number


def _past_last_chain(hook: Hook) -> bool:
    """Whether the last chain is used up and only its other side lies ahead."""
    last = hook.last
    return (
        last is not None
        and last.kind is PlaceKind.CHAIN
        and not ahead.holds(hook.ahead, is_chain)
        and ahead.holds(hook.ahead, lambda place: place.kind is PlaceKind.UNDERSIDE)
    )


def go_to_last(hook: Hook, target: Target, span: Span, number: int) -> bool:
    """Passes everything before the last `number` wanted places."""
    if target.noun == "ch" and _past_last_chain(hook):
        hook.missing = hook.missing + 1
        return _stay(hook, target, span)
    wanted = wanted_by(hook, target)
    beneath = ahead.holds(hook.ahead, lambda place: place.kind is PlaceKind.UNDERSIDE)
    if (target.noun == "ch" or beneath) and ahead.holds(hook.ahead, is_chain):
        wanted = is_chain
    elif target.noun == "st" or (target.noun == "ch" and not beneath):
        wanted = is_stitch if not only_spaces(hook) else wanted
    if number_of(hook.ahead, wanted) < number:
        come_round(hook)
    line, weight = hook.ahead, wanted
    count = number_of(line, weight)
    if count < number:
        return False
    before = cut_before(line, count - number, weight)
    if before is None:
        return reach(hook, wanted, span)
    passed, rest = before
    hook.leapt = hook.leapt + _leapt(hook, passed)
    pass_over(hook, passed, span)
    hook.ahead = rest
    return reach(hook, wanted, span)
