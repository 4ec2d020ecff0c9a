"""How a row begins: chains skipped at the hook, the beginning chain, the implied start.

A beginning chain that counts stands on the first place, which is then used; one that does
not leaves the hook before it.
"""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.tree import Chain, Role, Target
from hookwright.source import Span
from hookwright.working import ahead
from hookwright.working.conventions import Choice
from hookwright.working.fabric import (
    Foot,
    Place,
    PlaceKind,
    Stitch,
    edge_loop,
    foundation,
    space,
    turning_chain,
    underside,
)
from hookwright.working.hook import Hook, is_stitch, reach
from hookwright.working.sequence import Run
from hookwright.working.stitches import facts_of, height


def begin(hook: Hook, chain: Chain, number: int) -> None:
    """A chain at the start of a row: a stitch, a stitch and a space, a loop, or nothing."""
    said = hook.task.conventions.said_of(number)
    if said is not None and chain.role is Role.UNSAID:
        chain = replace(
            chain, role=Role.COUNTS, stands=said.word, stands_chains=said.stands_chains
        )
    loop = _is_loop(hook, chain, number)
    if number in hook.task.conventions.loops_of_groups and chain.role is not Role.COUNTS:
        hook.chains, hook.chained = number, True
        hook.emit(Stitch("tch", 0, (), (space(number),)), 1, chain.span)
        return
    if loop and hook.task.lacy and hook.asks(Choice.EDGE_STITCH):
        chain, loop = _tall_stitch(hook, chain, number), False
    counts = counts_as_stitch(hook, chain, number) and not loop
    hook.chains = number
    hook.chained = True
    if counts:
        _stand(hook, chain, number)
        return
    place = turning_chain(number, hook.task.main, counts=False)
    if number > height(hook.task.main, hook.task.terms) + 1 and chain.role is Role.UNSAID:
        place = space(number)
    elif (
        hook.task.into_edge and number > 1 and height(hook.task.main, hook.task.terms) == 1
    ) or (number > 1 and _leaves_space(hook)):
        place = _edge_loop(hook, number)
    hook.emit(Stitch("tch", 0, (), (place,)), 1, chain.span)


def _edge_loop(hook: Hook, number: int) -> Place:
    return edge_loop(number, counts=hook.task.conventions.edges_count)


def _leaves_space(hook: Hook) -> bool:
    """Whether a chain no taller than its short stitch is a space to work into as well."""
    short = height(hook.task.main, hook.task.terms) <= SHORT
    return hook.task.lacy and hook.task.conventions.under_edge and short


SHORT = 2
"""So tall is a half double: beside it, a chain of two is as good as a space."""


def _is_loop(hook: Hook, chain: Chain, number: int) -> bool:
    """A long chain before a short stitch is a loop at the edge, not a stitch."""
    short = height(hook.task.main, hook.task.terms) <= 1
    return chain.role is Role.UNSAID and short and number > 3


def _tall_stitch(hook: Hook, chain: Chain, number: int) -> Chain:
    """The chain as the tall stitch of three chains and the space beside it."""
    stitch = "tr" if hook.task.terms == "UK" else "dc"
    return replace(chain, role=Role.COUNTS, stands=stitch, stands_chains=number - 3)


def counts_as_stitch(hook: Hook, chain: Chain, number: int) -> bool:
    """Whether a beginning chain counts: the text's word, else the pattern's convention."""
    if chain.role is not Role.UNSAID:
        return chain.role is Role.COUNTS
    return number in hook.task.conventions.counting_chains


def _stand(hook: Hook, chain: Chain, number: int) -> None:
    """The chain is a stitch: in the place the hook has gone to, or on the first one."""
    stitch = chain.stands if chain.stands not in ("", "st") else hook.task.main
    extra = chain.stands_chains
    if chain.role is Role.UNSAID or (not extra and chain.stands in ("", "st")):
        tall = max(height(stitch, hook.task.terms), 1)
        extra = max(0, number - tall)
        tall_enough = number > 3 or number == tall + 1
        extra = extra if extra > 0 and tall_enough and _chains_follow(hook) else 0
        if not extra and number > 1 and _leaves_space(hook):
            number, extra = number + 1, 1
    heads: tuple[Place, ...] = (turning_chain(number - extra, stitch, counts=True),)
    if extra:
        heads = (*heads, _space(hook, extra))
    if hook.last is not None and hook.began:
        hook.start_free, hook.stands_in_start = False, True
        hook.emit(Stitch("tch", 0, (Foot(-1),), heads), 1, chain.span)
        return
    if not reach(hook, is_stitch, chain.span):
        hook.emit(Stitch("tch", 0, (), heads), 1, chain.span)
        return
    taken = ahead.take(hook.ahead)
    if taken is None:
        return
    hook.ahead, hook.last = taken.rest, taken.place
    hook.stands_on_first = True
    hook.emit(Stitch("tch", taken.place.counts, (Foot(),), heads, 0, 1), 1, chain.span)


def _chains_follow(hook: Hook) -> bool:
    return hook.task.lacy


def _space(hook: Hook, chains: int) -> Place:
    return space(chains, counts=hook.task.conventions.stitches_in(chains))


def chain_between(hook: Hook, chain: Chain, number: int) -> None:
    """Chains between stitches: a space, whose chains may count as stitches."""
    hook.emit(Stitch("ch", 0, (), (_space(hook, number),)), 1, chain.span)


def skipped_chains(hook: Hook, number: int, span: Span) -> None:
    """The chains before the first stitch, and what they stand for."""
    if number <= 0:
        return
    heads = _skipped_heads(hook, number)
    passed = 0
    while passed < number:
        taken = ahead.take(hook.ahead, number - passed)
        if taken is None or not isinstance(taken.number, int) or not is_stitch(taken.place):
            break
        hook.ahead = taken.rest
        passed += taken.number
    if passed < number:
        hook.missing = hook.missing + (number - passed)
    hook.emit(Stitch("tch", passed, (), heads, 0, passed), 1, span)
    hook.chains = 0
    if hook.task.is_round:
        _go_round(hook)


def _go_round(hook: Hook) -> None:
    """A round on a chain goes on along its other side, but for the far end."""
    front = hook.ahead[0] if hook.ahead else None
    if (
        isinstance(front, Run)
        and front.item.kind is PlaceKind.CHAIN
        and len(hook.ahead) == 1
    ):
        hook.ahead = (front, *underside(front.times - 1).line)
        hook.edge_line = hook.ahead


def _skipped_heads(hook: Hook, number: int) -> tuple[Place, ...]:
    if number in hook.task.conventions.loops_at_hook:
        return (space(number),)
    means = hook.skip_meaning
    terms, main = hook.task.terms, hook.task.main
    if means is not None and facts_of(means.stands, 1, hook.task.own).family == "group":
        return _of_group(hook, number)
    said = hook.task.conventions.said_of(number) if means is None else None
    if said is not None and said.stands_chains:  # "ch 4 counts as dc, ch 1" at any start
        top = turning_chain(number - said.stands_chains, said.word, counts=True)
        return (top, _space(hook, said.stands_chains))
    tall = height(main, terms)
    if means is not None:
        if means.role is Role.COUNTS_NOT:
            return (turning_chain(number, main, counts=False),)
        return _as_said(hook, number)
    extra = number - tall
    above_short = tall == 2 and hook.task.lacy  # "htr in 4th ch": a htr and a ch
    if (number > 3 or above_short) and extra > 0 and tall >= 2:
        return _stitch_and_space(hook, number, tall, main)
    if tall <= 1 and extra > 0:
        return _beside_short(hook, number)
    counts = number > 1 and number in hook.task.conventions.counting_chains
    if counts and not extra and said is None and hook.asks(Choice.SKIPPED_APART):
        counts = False
    if extra > 0 and _leaves_space(hook):
        top = turning_chain(
            tall, main, counts=tall in hook.task.conventions.counting_chains
        )
        return (
            (top, _edge_loop(hook, number)) if top.counts else (_edge_loop(hook, number),)
        )
    return (turning_chain(number, main, counts=counts),)  # "2nd ch from hook" leaves none


def _beside_short(hook: Hook, number: int) -> tuple[Place, ...]:
    """Chains skipped before a short stitch: a loop at the edge, if they are long enough.

    Where the turning chains of later rows, one shorter, count as a stitch beside the space
    they leave, so do these.
    """
    loop = _edge_loop(hook, number)
    if number - 1 in hook.task.conventions.counting_chains and _leaves_space(hook):
        return turning_chain(1, hook.task.main, counts=True), loop
    return (loop,) if number > SHORT else ()


def _of_group(hook: Hook, number: int) -> tuple[Place, ...]:
    """ "Dc in 5th ch from hook (counts as first V-st)": what stands beside that dc."""
    tall = height(hook.task.main, hook.task.terms)
    top = turning_chain(min(number, tall), hook.task.main, counts=True)
    return (top, _space(hook, number - tall)) if number > tall else (top,)


def _as_said(hook: Hook, number: int) -> tuple[Place, ...]:
    """Reads "counts as dc and ch 1": a stitch, and a space where one is told or usual."""
    means = hook.skip_meaning
    assert means is not None
    stitch = means.stands if means.stands not in ("", "st") else hook.task.main
    heads: tuple[Place, ...] = (turning_chain(number, stitch, counts=True),)
    extra = means.stands_chains
    lacy = hook.task.lacy and not hook.task.grouped  # "*skip 2, (sc, ch 1, sc) in next*"
    if not extra and means.stands in ("", "st") and lacy:
        tall = height(hook.task.main, hook.task.terms)
        extra = max(0, number - tall - 1)
        extra = 1 if not extra and number > tall and _leaves_space(hook) else extra
    if extra:
        heads = (*heads, _space(hook, extra))
    return heads


def _stitch_and_space(hook: Hook, number: int, tall: int, main: str) -> tuple[Place, ...]:
    """A mesh start: so many chains are the stitch, the others the top of a hole."""
    extra = number - tall
    counting = tall >= 3 or bool({tall, number} & hook.task.conventions.counting_chains)
    top = turning_chain(tall, main, counts=counting)
    if not hook.task.lacy and extra < _HOLE:
        return (top,)
    above = max(1, extra // 2) if extra > 1 else 1
    return (top, _space(hook, above))


_HOLE = 4
"""Chains beyond the stitch that are a hole in any row: two above it and two below."""


def implied_start(hook: Hook, span: Span) -> None:
    """Reads "sc across" over a new chain: it begins in the chain that custom says."""
    number = height(hook.task.main, hook.task.terms)
    number = {1: 1, 2: 2}.get(number, 3)
    skipped_chains(hook, number, span)


def on_new_chain(hook: Hook) -> bool:
    """Whether the hook stands at the beginning of a foundation chain."""
    front = hook.ahead[0] if hook.ahead else None
    return isinstance(front, Run) and front.item.kind is PlaceKind.CHAIN


def is_from_hook(hook: Hook, target: Target) -> bool:
    """Whether chains are counted from the hook; at a start "in third ch" means so too.

    So does "in the 8th st of the chain" while the chain is all there is.
    """
    if target.from_hook:
        return True
    named = target.noun in ("ch", "st") or (target.noun == "tch" and not hook.chains)
    named = named and bool(target.ordinal) and target.of is None
    if not named or hook.began:
        return False
    front = ahead.take(hook.ahead)
    return front is not None and front.place.kind is PlaceKind.CHAIN


def from_hook(hook: Hook, target: Target, span: Span) -> None:
    """Passes the chains before the nth from the hook, whatever they stand for."""
    ordinal = target.ordinal or 1
    front = ahead.take(hook.ahead)
    on_chain = front is not None and front.place.kind is PlaceKind.CHAIN
    if hook.chains and (not on_chain or hook.began):
        hook.ahead = (*foundation(hook.chains).line, *hook.ahead)
        hook.own_chains += hook.chains
    skipped_chains(hook, ordinal - 1, span)
