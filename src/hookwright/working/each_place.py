"""Stitches in each place: one after the other, up to the end or to a place named."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence

from msgspec.structs import replace

from hookwright.notation.tree import (
    Amount,
    InOnePlace,
    Make,
    Node,
    Often,
    Repeat,
    Target,
    Times,
    Which,
)
from hookwright.source import Span
from hookwright.working import ahead
from hookwright.working.ahead import Ahead, Passed
from hookwright.working.conventions import Choice
from hookwright.working.corner_spaces import corner_space
from hookwright.working.corners import (
    CENTRE,
    is_corner,
    is_each_centre,
    is_one_centre,
    with_centres,
    with_middle,
)
from hookwright.working.count import Count
from hookwright.working.fabric import Place, PlaceKind, Stitch, is_space
from hookwright.working.gaps import only_gaps
from hookwright.working.going import go_to
from hookwright.working.hook import Hook, Wanted, come_round, is_stitch, passing
from hookwright.working.making import Own, number_at, stack
from hookwright.working.nodes import to_last
from hookwright.working.sequence import Line, Piece, Run, every, split, total
from hookwright.working.sequence import Repeat as Repeated
from hookwright.working.stitches import Facts, facts_of
from hookwright.working.wanted import (
    chain_meant,
    cut_before,
    is_chain,
    is_group_name,
    number_of,
    wanted_by,
)

InPlace = Callable[[Hook, InOnePlace, Place], Line[Stitch]]
_Work = tuple[Wanted, Callable[[Place, Count], Iterable[Piece[Stitch]]]]


def in_each(
    hook: Hook, node: Make, facts: Facts, number: int | None, target: Target
) -> Node | None:
    """Reads "in each st across", and "in each st to last 2 sts"."""
    looped = facts.family in ("group", "together") or target.noun in ("gap", "group")
    if looped or is_group_name(hook, target.noun) or only_gaps(hook, target):
        return _each_by_turns(node, target)
    region, rest = reach_of(hook, target, node.span)
    if target.left_out:
        region, back = _leave_out(region, target, hook)
        rest = (*back, *rest)
    if target.noun == "ch" and rest == ():
        region, rest = _to_chain_end(region)
    wanted = _each_wanted(hook, target)
    each = number or 1
    made: list[Piece[Stitch]] = []
    chainwise = "ch" in (target.noun, *(also.noun for also in target.also))
    chainwise = chainwise or _are_underarms(hook, target)
    last = _work_line(
        hook, node, facts, ahead.ungrouped(region), wanted, each, made, chainwise=chainwise
    )
    hook.made.extend(made)
    hook.ahead = rest
    if last is not None:
        hook.last, hook.began = last, True
    return None


def _to_chain_end(region: Ahead) -> tuple[Ahead, Ahead]:
    """ "2 hdc in each ch across": along the chain, and not back on its other side."""
    at = next(
        (i for i, piece in enumerate(region)
         if isinstance(piece, Run) and piece.item.kind is PlaceKind.UNDERSIDE), len(region)
    )  # fmt: skip
    chained = any(map(is_chain, (p.item for p in region[:at] if isinstance(p, Run))))
    return (region[:at], region[at:]) if chained else (region, ())


def each_of_kinds(
    hook: Hook, nodes: list[Make | InOnePlace], last_node: Node, own: Own, group: InPlace
) -> None:
    """Reads "1 tr in each tr and 2 tr in each space": several kinds, as they come.

    `last_node` is the last make, with the place that "each" stops before, if any; `group`
    works a list of stitches in one place.
    """
    rest: Ahead = ()
    region = hook.ahead
    if isinstance(last_node, (Make, InOnePlace)) and last_node.target is not None:
        region, rest = reach_of(hook, last_node.target, last_node.span)
    works = [_work_of_kind(hook, node, own, group) for node in sorted(nodes, key=_breadth)]
    made: list[Piece[Stitch]] = []
    centres = any(node.target and _at_centres(hook, node.target) for node in nodes)
    line = with_centres(region) if centres else ahead.ungrouped(region)
    for node in nodes:
        if node.target is not None and is_one_centre(node.target):
            line = with_middle(
                line, wanted_by(hook, replace(node.target, which=Which.NEXT))
            )
    last = _work_kinds(line, works, made)
    hook.made.extend(made)
    hook.ahead = rest
    if last is not None:
        hook.last, hook.began = last, True


def corners_anywhere(hook: Hook, nodes: Sequence[Make | InOnePlace]) -> list[Node] | None:
    """ "Sc in each st, working 2 sc in each of the 8 corner sts": wherever these are.

    Where no corner can be told from the edge, so many places take what the corners do.
    """
    if len(nodes) != _TWO_KINDS:
        return None
    every, corner = nodes
    told = corner.target
    if told is None or told.noun != "corner" or told.amount is None:
        return None
    if not _has_no_corners(hook):
        return None
    one = Target("st", Which.NEXT, told.span)
    times = Times(Often.TIMES, told.span, told.amount)
    return [Repeat((replace(corner, target=one),), times, told.span), every]


_TWO_KINDS = 2


def number_up_to(hook: Hook, target: Target, span: Span) -> int:
    """How many places "each ... to the next corner" takes."""
    region, _ = reach_of(hook, target, span)
    return number_of(region, _each_wanted(hook, target))


def _breadth(node: Make | InOnePlace) -> int:
    """Places named closer come first: centres of corners, spaces by their chains."""
    assert node.target is not None
    if is_each_centre(node.target) or is_one_centre(node.target):
        return 0
    if node.target.noun == "corner":
        return 0
    return 2 if node.target.noun == "sp" and node.target.chains is None else 1


def _work_of_kind(hook: Hook, node: Make | InOnePlace, own: Own, group: InPlace) -> _Work:
    assert node.target is not None
    wanted = _each_wanted(hook, node.target)
    if isinstance(node, InOnePlace):
        return wanted, lambda place, times: (Repeated(group(hook, node, place), times),)
    facts = facts_of(node.stitch, node.legs, own)
    each = number_at(hook, node.amount) or 1
    return wanted, lambda place, times: stack(hook, node, facts, place, times, each)


def _work_kinds(line: Ahead, works: list[_Work], made: list[Piece[Stitch]]) -> Place | None:
    last = None
    for piece in line:
        if isinstance(piece, Run):
            found = next((work for wanted, work in works if wanted(piece.item)), None)
            if found is None:
                made.append(Run(passing(piece.item, "pass"), piece.times))
                continue
            made.extend(found(piece.item, piece.times))
            last = piece.item
        elif isinstance(piece, Repeated):
            inner: list[Piece[Stitch]] = []
            last = _work_kinds(piece.body, works, inner) or last
            made.append(Repeated(tuple(inner), piece.times))
    return last


def _each_by_turns(node: Make, target: Target) -> Node:
    """Groups and decreases in each place are a repeat of one of them."""
    one = replace(
        node,
        target=replace(target, which=Which.NEXT, until=None, left_out=0),
        amount=node.amount,
    )
    if target.noun == "st" and node.legs > 1:
        one = replace(one, target=None)
    times = Times(Often.ACROSS, node.span)
    if target.until is not None and target.until.which is Which.LAST:
        times = to_last(target.until, node.span)
    elif target.left_out:
        amount = Amount((target.left_out,), node.span)
        times = Times(Often.TO_LAST, node.span, amount, target.noun)
    return Repeat((one,), times, node.span)


def _at_centres(hook: Hook, target: Target) -> bool:
    """Whether corners are meant that no space tells: the middle of three in one place."""
    every = target.noun == "corner" and target.which is Which.EACH
    return is_each_centre(target) or (every and not corner_space(hook.edge_line))


def _each_wanted(hook: Hook, target: Target) -> Wanted:
    if _at_centres(hook, target) or is_one_centre(target):
        return lambda place: place.stitch == CENTRE
    nouns = [
        wanted_by(hook, one) for one in (replace(target, which=Which.NEXT), *target.also)
    ]
    open_to_spaces = target.noun == "st" and not target.also and hook.left_spaces()
    if open_to_spaces and hook.asks(Choice.EACH_TAKES_SPACES):
        nouns.append(lambda place: place.kind is PlaceKind.SPACE)
    return lambda place: any(wanted(place) for wanted in nouns)


_FEWEST_CHAINS = 3
"""Fewer chains between stitches are a space of lace, which takes one stitch."""


def _are_underarms(hook: Hook, target: Target) -> bool:
    """Whether "each st" may run over chains made where stitches were left for a sleeve."""
    if target.noun != "st" or target.also or not hook.left_spaces():
        return False
    short = ahead.holds(
        hook.ahead, lambda p: p.kind is PlaceKind.SPACE and p.chains < _FEWEST_CHAINS
    )
    return not short and hook.asks(Choice.EACH_TAKES_SPACES)


def reach_of(hook: Hook, target: Target, span: Span) -> tuple[Ahead, Ahead]:
    """The places that "each" runs over, and the rest."""
    until = target.until
    if until is None:
        come_round(hook)
        return hook.ahead, ()
    until = chain_meant(hook, until)
    if until.which is Which.LAST:
        spaces = until.noun == "sp" and bool(hook.left_spaces())
        wanted = wanted_by(hook, replace(until, which=Which.NEXT)) if spaces else is_stitch
        return _but_for_last(hook, number_at(hook, until.amount) or 1, wanted)
    if until.noun == "tch":
        found = ahead.seek(hook.ahead, ahead.is_beginning)
        if found is not None:
            return found.line, found.rest
        cut = cut_before(
            hook.ahead, max(0, number_of(hook.ahead, is_stitch) - 1), is_stitch
        )
        return cut or (hook.ahead, ())
    if until.noun == "corner" and _has_no_corners(hook):
        return _but_for_last(hook, 1, is_stitch)
    if _names_corner(until) and _is_past_last_corner(hook):
        come_round(hook)  # to the corner that the round was begun in
        return hook.ahead, ()
    inside = until.which in (Which.CENTRE, Which.NTH) or until.of is not None
    if inside or until.noun == "corner":
        trial = hook.fork()
        if go_to(trial, until, span):
            return _difference(hook.ahead, trial)
        come_round(hook)
        return hook.ahead, ()
    found = _next_one(hook, wanted_by(hook, until))
    if found is not None:
        hook.stopped = found.rest
        return found.line, found.rest
    come_round(hook)
    return hook.ahead, ()


def _next_one(hook: Hook, wanted: Wanted) -> Passed | None:
    """Up to the next wanted place.

    "Sc in each st to next sp, skip all sts to next sp": where the row has come to a space
    in this way and not worked into it, the next one is a further one.
    """
    front = ahead.take(hook.ahead)
    if front and hook.stopped == hook.ahead and is_space(front.place):
        further = ahead.seek(front.rest, wanted)
        if further is not None:
            line = (Run(front.place, front.number), *further.line)
            return Passed(line, further.rest)
    return ahead.seek(hook.ahead, wanted)


def _names_corner(until: Target) -> bool:
    """ "To next corner", "to next center sc": the middle one of what is in a corner."""
    centre = until.which is Which.CENTRE and until.of is None and until.noun != "sp"
    return until.noun == "corner" or centre


def _has_no_corners(hook: Hook) -> bool:
    """Whether nothing on the edge is a corner: a side of a flat piece ends in one."""
    grouped = ahead.seek_group(hook.edge_line, is_corner) is not None
    return not grouped and not corner_space(hook.edge_line)


def _is_past_last_corner(hook: Hook) -> bool:
    """Whether all corners of a round lie behind, told by their groups and by no space."""
    if not hook.task.is_round or _has_no_corners(hook) or corner_space(hook.edge_line):
        return False
    return ahead.seek_group(hook.ahead, is_corner) is None


def _but_for_last(hook: Hook, number: int, wanted: Wanted) -> tuple[Ahead, Ahead]:
    """Everything up to the last so many places of a kind, and these."""
    count = number_of(hook.ahead, wanted)
    cut = cut_before(hook.ahead, max(0, count - number), wanted)
    return _up_to(*cut, wanted) if cut else (hook.ahead, ())


def _up_to(region: Ahead, rest: Ahead, wanted: Wanted) -> tuple[Ahead, Ahead]:
    """The spaces before the first of "the last 2 sts" still belong to the region."""
    found = ahead.seek(rest, wanted)
    return (region, rest) if found is None else ((*region, *found.line), found.rest)


def _difference(line: Ahead, trial: Hook) -> tuple[Ahead, Ahead]:
    """The part of a line that a trial has passed, and the rest."""
    count = total(line, every) - total(trial.ahead, every)
    return split(line, count, every) or (line, ())


def _leave_out(region: Ahead, target: Target, hook: Hook) -> tuple[Ahead, Ahead]:
    wanted = wanted_by(hook, target)
    count = number_of(region, wanted)
    cut = cut_before(region, max(0, count - target.left_out), wanted)
    return cut or (region, ())


def _work_line(
    hook: Hook,
    node: Make,
    facts: Facts,
    line: Ahead,
    wanted: Wanted,
    each: int,
    made: list[Piece[Stitch]],
    *,
    chainwise: bool = False,
) -> Place | None:
    """Works every wanted place of a line and passes the others; repeats stay repeats.

    `chainwise` takes every chain of a space for itself ("in each underarm ch").
    """
    last = None
    for piece in line:
        if isinstance(piece, Run):
            if wanted(piece.item):
                number = each * _worth(piece.item, node.target, chainwise=chainwise)
                made.extend(stack(hook, node, facts, piece.item, piece.times, number))
                last = piece.item
            else:
                made.append(Run(passing(piece.item, "pass"), piece.times, node.span))
        elif isinstance(piece, Repeated):
            inner: list[Piece[Stitch]] = []
            last = (
                _work_line(
                    hook, node, facts, piece.body, wanted, each, inner, chainwise=chainwise
                )
                or last
            )
            made.append(Repeated(tuple(inner), piece.times))
    return last


def _worth(place: Place, target: Target | None, *, chainwise: bool) -> int:
    """How many of the places told one is: each chain of a space may be a stitch."""
    if not is_space(place):
        return 1
    by_stitch = target is not None and target.noun == "st" and not target.also
    return max(1, place.chains if chainwise else place.counts if by_stitch else 1)
