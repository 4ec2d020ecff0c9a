"""Filet: squares of a grid, open or solid, each ending in the stitch of the next post.

An open square is chains over whatever lies between two posts; a solid one fills the same
place with stitches. Both end with a stitch in the next post. Source: filet charts and
handbooks, common practice.
"""

from __future__ import annotations

from hookwright.notation.tree import Chain, Make
from hookwright.source import Span
from hookwright.working import ahead
from hookwright.working.fabric import (
    Foot,
    Into,
    Place,
    PlaceKind,
    Stitch,
    space,
    turning_chain,
)
from hookwright.working.hook import Hook, beside, grouped, is_stitch, onto, pass_over, tops
from hookwright.working.sequence import Run
from hookwright.working.stitches import height

OPEN, SOLID = "open mesh", "solid mesh"
USUAL_CHAINS = 2


def square(hook: Hook, node: Make) -> None:
    """Works one square over the next one of the row below."""
    wide = _width(hook)
    stitch = hook.task.main if hook.task.main not in (OPEN, SOLID) else "dc"
    if not hook.worked and not hook.chained and hook.last is None:
        _begin(hook, stitch, node.span)
    front = ahead.take(hook.ahead)
    over_space = front is not None and front.place.kind is PlaceKind.SPACE
    if node.stitch == OPEN:
        _open(hook, stitch, wide, node.span, over_space=over_space)
    else:
        _solid(hook, stitch, wide, node.span, over_space=over_space)
    _post(hook, stitch, node.span)


def _width(hook: Hook) -> int:
    """The chains of a square: as told, as in the spaces on the edge, or the usual two."""
    told = _told_width(hook)
    if told:
        return told
    found = ahead.seek(hook.edge_line, lambda place: place.kind is PlaceKind.SPACE)
    taken = ahead.take(found.rest) if found is not None else None
    return taken.place.chains if taken is not None and taken.place.chains else USUAL_CHAINS


def _told_width(hook: Hook) -> int:
    """The chains of an open square as the pattern tells it; 0 where it does not."""
    told = hook.task.own.get(OPEN)
    chains = [n for n in told.body if isinstance(n, Chain)] if told is not None else []
    return (chains[0].amount.at(hook.task.size) or 0) if chains else 0


def _begin(hook: Hook, stitch: str, span: Span) -> None:
    """The first post is the chain that the row begins with, told or not."""
    front = ahead.take(hook.ahead)
    if front is None:
        return
    hook.ahead, hook.last, hook.chained = front.rest, front.place, True
    place = turning_chain(3, stitch, counts=True)
    hook.emit(Stitch("tch", front.place.counts, (Foot(),), (place,), 0, 1), 1, span)


def _open(hook: Hook, stitch: str, wide: int, span: Span, *, over_space: bool) -> None:
    begun = _is_begun(hook, stitch, wide)
    _pass_between(hook, wide, span, over_space=over_space)
    if begun:
        return
    counts = hook.task.conventions.stitches_in(wide)
    hook.emit(Stitch("ch", 0, (), (space(wide, counts=counts),)), 1, span)


def _is_begun(hook: Hook, stitch: str, wide: int) -> bool:
    """Whether the chain the row begins with holds those of its first open square.

    "Ch 5, 9 open meshes": a post and a space, that only the first square's own post ends.
    """
    tall = height(stitch, hook.task.terms)
    return not hook.worked and hook.stands_on_first and hook.chains == tall + wide


def _pass_between(hook: Hook, wide: int, span: Span, *, over_space: bool) -> None:
    for _ in range(1 if over_space else wide):
        taken = ahead.take(hook.ahead)
        if taken is None:
            return
        pass_over(hook, (Run(taken.place, 1),), span)
        hook.ahead = taken.rest


def _solid(hook: Hook, stitch: str, wide: int, span: Span, *, over_space: bool) -> None:
    if over_space:
        taken = ahead.take(hook.ahead)
        if taken is not None:
            first = onto(taken.place, stitch, tops(stitch), Into.WHOLE)
            more = beside(stitch, tops(stitch), Into.WHOLE)
            pieces = (Run(first, 1, span, hook.yarn), Run(more, wide - 1, span, hook.yarn))
            hook.made.append(grouped(pieces))
            hook.ahead, hook.worked = taken.rest, True
        return
    for _ in range(wide):
        _post(hook, stitch, span)


def _post(hook: Hook, stitch: str, span: Span) -> None:
    taken = ahead.take(hook.ahead)
    if taken is None or not is_stitch(taken.place):
        hook.missing = hook.missing + 1
        hook.emit(beside(stitch, tops(stitch), Into.BOTH_LOOPS), 1, span)
        return
    hook.ahead, hook.last, hook.began = taken.rest, taken.place, True
    hook.emit(_in_post(taken.place, stitch), 1, span)


def _in_post(place: Place, stitch: str) -> Stitch:
    return onto(place, stitch, tops(stitch), Into.BOTH_LOOPS)
