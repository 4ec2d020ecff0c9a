"""Between stitches: what shares a foot is passed as one, and the hook goes in beside it."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.tree import Target, Which
from hookwright.source import Span
from hookwright.working import ahead
from hookwright.working.ahead import Ahead
from hookwright.working.conventions import Choice
from hookwright.working.count import Count
from hookwright.working.fabric import GAP, Place, PlaceKind
from hookwright.working.hook import Hook, is_stitch, just_skipped, pass_over
from hookwright.working.sequence import Group, Repeat, Run, reverse
from hookwright.working.stitches import is_group_word, is_stitch_name, may_be_called


def in_group(hook: Hook) -> bool:
    """Whether the next place is one of a group of stitches."""
    front = hook.ahead[0] if hook.ahead else None
    return isinstance(front, Group) and not front.whole


def go_to_gap(hook: Hook, target: Target, span: Span) -> bool:
    """The gap before the next group: what shares a foot is passed as one."""
    at_edge = hook.stands_on_first and not hook.worked and not in_group(hook)
    first = target.which is Which.FIRST
    if at_edge and (first or _is_beside_chain(hook, target)):
        to_group = bool(target.ordinal) and _pass_to_group(hook, span)
        stand_in_gap(hook)
        hook.beside_chain = not to_group
        return True
    if target.which is Which.LAST:
        to_group = bool(target.ordinal) and _go_behind_last_group(hook, span)
        return to_group or _go_to_last_gap(hook, span)
    if target.of is not None and target.of.which is Which.SKIPPED:
        stand_in_gap(hook)  # behind what has just been passed by word
        return True
    if not hook.left() and Choice.START_WORKED_LAST in hook.task.readings:
        stand_in_gap(hook)  # behind the space that a round begins in and ends in
        return True
    goes_on = bool(hook.left()) or hook.task.is_round
    if target.which is Which.NEXT and just_skipped(hook) and goes_on:
        stand_in_gap(hook)  # "sk 2 dc, sc in next sp between sts": beside what is skipped
        return True
    passed = _pass_one_stitch if _by_stitches(hook, target) else pass_one_foot
    if _beside_pairs(hook, target) and hook.asks(Choice.PAIRS_BETWEEN_GAPS):
        passed(hook, span)
    if not passed(hook, span) or not (hook.left() or hook.task.is_round):
        return False
    if _between_groups(hook, target) and not _group_next(hook):
        return False
    stand_in_gap(hook)
    return True


def _is_beside_chain(hook: Hook, target: Target) -> bool:
    """ "2 ch, 1 htr in each gap": whether the gap behind the chain is one of them."""
    of = target.of
    if of is None or not is_stitch_name(of.noun) or is_group_word(of.noun):
        return False
    return not hook.edge_holds_group(bool) and hook.asks(Choice.GAP_AT_EDGE)


def _beside_pairs(hook: Hook, target: Target) -> bool:
    """ "Between every 2 tr": in each gap, or in every second one."""
    of = target.of
    amount = of.amount.at(hook.task.size) if of is not None and of.amount else None
    return of is not None and of.which is Which.EACH and amount == 2


def _by_stitches(hook: Hook, target: Target) -> bool:
    """Whether there is a gap beside every stitch, also of a group or a ring."""
    of = target.of
    if of is None:
        return _number_of_feet(hook.edge_line) <= _FEET_OF_RING
    named = of.noun == "st" or (is_stitch_name(of.noun) and not is_group_word(of.noun))
    plain = of.noun == "st" or hook.edge_holds(
        lambda place: may_be_called(of.noun, place.stitch)
    )  # "between clusters" over groups of dc speaks of the groups
    each = of.amount is None and of.which in (Which.NEXT, Which.EACH)
    each = each or _beside_pairs(hook, target)
    return named and plain and each


_FEET_OF_RING = 2
"""A round into a ring stands on nothing but the ring, and its chain beside it."""


def _number_of_feet(line: Ahead) -> Count:
    return sum(
        (
            piece.times * _number_of_feet(piece.body)
            if isinstance(piece, Repeat)
            else 1
            if isinstance(piece, Group)
            else piece.times * piece.item.counts
            for piece in line
        ),
        start=0,
    )


def _pass_one_stitch(hook: Hook, span: Span) -> bool:
    found = ahead.seek(hook.ahead, is_stitch)
    taken = ahead.take(found.rest) if found is not None else None
    if found is None or taken is None:
        return False
    pass_over(hook, (*found.line, Run(taken.place, 1)), span)
    hook.ahead = taken.rest
    return True


def _between_groups(hook: Hook, target: Target) -> bool:
    """Whether a gap is said to lie between groups, and groups are what the edge has."""
    of = target.of
    if of is None or target.which is not Which.NEXT or hook.task.is_round:
        return False
    return of.noun == "group" or hook.edge_holds_group(lambda group: group.name == of.noun)


def _group_next(hook: Hook) -> bool:
    """Whether a group is what comes next, also where a lone stitch stands at the edge."""
    line = hook.ahead
    while line and isinstance(line[0], Repeat):
        line = ahead.opened(line)
    return bool(line) and (isinstance(line[0], Group) or len(line) > 1)


def stand_in_gap(hook: Hook) -> None:
    """Puts the gap after the last place in front of the hook."""
    hook.put_back(GAP)
    hook.used_space = True


_AT_EDGE = 2
"""Stitches at most that stand alone beside the groups of a row, at its beginning or end."""


def _pass_to_group(hook: Hook, span: Span) -> bool:
    """Passes what stands at the edge before the first group: "the edge pair"."""
    found = ahead.seek_group(hook.ahead, _is_inner)
    if found is None or ahead.stitches(found.line) not in range(1, _AT_EDGE + 1):
        return False
    pass_over(hook, found.line, span)
    hook.ahead = found.rest
    return True


def _is_inner(group: Group[Place]) -> bool:
    """Whether stitches are a group, and not what a row has at its edge."""
    several = ahead.stitches(group.body) != 1
    return several and not ahead.holds(group.body, ahead.is_beginning)


def _go_behind_last_group(hook: Hook, span: Span) -> bool:
    """ "Between the last group and the edge pair": what stands behind it stays free."""
    back = ahead.seek_group(reverse(hook.ahead), _is_inner)
    if back is None or hook.task.is_round:
        return False
    behind = reverse(back.line)
    if ahead.stitches(behind) not in range(1, _AT_EDGE + 1):
        return False
    pass_over(hook, reverse(back.rest), span)
    hook.ahead = behind
    stand_in_gap(hook)
    return True


def _go_to_last_gap(hook: Hook, span: Span) -> bool:
    while not hook.task.effort.spent():
        trial = hook.fork()
        if not pass_one_foot(trial, span) or not (trial.left() or hook.task.is_round):
            return False
        further = trial.fork()
        hook.become(trial)
        if not pass_one_foot(further, span) or not (further.left() or hook.task.is_round):
            stand_in_gap(hook)
            return True
    return False


def pass_one_foot(hook: Hook, span: Span) -> bool:
    """Passes the stitches that stand on the next foot: a group, or one stitch."""
    line = hook.ahead
    while line:
        piece = line[0]
        if isinstance(piece, Group):
            pass_over(hook, piece.body, span)
            hook.ahead = line[1:]
            return True
        if isinstance(piece, Run):
            if not piece.item.counts:
                pass_over(hook, (piece,), span)
                line = hook.ahead = line[1:]
                continue
            taken = ahead.take(line)
            if taken is None:
                return False
            pass_over(hook, (Run(taken.place, 1),), span)
            hook.ahead = taken.rest
            return True
        line = ahead.opened(line)
    return False


def as_space_over_chain(hook: Hook, target: Target) -> Target:
    """The chain space that is called a "gap", "the space before next dc", "the ch 6"."""
    if _is_chain_on_the_way(hook, target):
        return replace(target, noun="sp")
    told = target
    if target.which is Which.SAME and target.of is not None:
        told = replace(target, which=Which.NEXT, of=None)
    found = _is_space_over_chain(hook, told) and told.which is not Which.SAME
    return replace(told, noun="sp") if found else target


def _is_chain_on_the_way(hook: Hook, target: Target) -> bool:
    """ "6 sc in the ch 6", of a handle: no row has begun with such a chain."""
    chains = target.chains
    if target.noun != "tch" or chains is None:
        return False
    if ahead.holds(hook.ahead, ahead.is_beginning):
        return False
    return ahead.holds(
        hook.ahead, lambda p: p.kind is PlaceKind.SPACE and p.chains == chains
    )


def _is_space_over_chain(hook: Hook, target: Target) -> bool:
    """Whether a "gap" is a chain space: no word tells between what, nor do groups stand."""
    if target.noun != "gap" or target.of is not None:
        return False
    grouped = hook.edge_holds_group(bool)
    return bool(ahead.spaces(hook.edge_line)) and not grouped


def is_gap(hook: Hook, target: Target) -> bool:
    """Whether a "space" is a gap: where rows are worked so, or where no chain is."""
    if target.noun != "sp" or target.chains is not None:
        return False
    return hook.in_gaps or not hook.left_spaces()


def only_gaps(hook: Hook, target: Target) -> bool:
    """A "space" on an edge without any chain is the gap between stitches."""
    if target.noun != "sp" or target.chains is not None:
        return False
    known = (PlaceKind.SPACE, PlaceKind.UNDERSIDE, PlaceKind.RING)
    return not hook.edge_holds(lambda place: place.kind in known)
