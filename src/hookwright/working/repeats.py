"""How a repeat ends: after a number of times, when the places run out, or with a tail."""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence

from msgspec.structs import replace

from hookwright.notation.tree import (
    Amount,
    Chain,
    Make,
    Node,
    Often,
    Remark,
    Repeat,
    Skip,
    Tail,
    Times,
    Which,
)
from hookwright.working import ahead
from hookwright.working.ahead import uncounted_beginning
from hookwright.working.closing import places_left, stop_at, unworked
from hookwright.working.conventions import Choice
from hookwright.working.count import Count
from hookwright.working.cycles import ENDLESS, Work, run, work_times
from hookwright.working.fabric import is_space
from hookwright.working.hook import Hook, come_round, lies_before
from hookwright.working.nodes import up_to_its_begin


def work_repeat(
    hook: Hook, node: Repeat, after: Sequence[Node], work: Work, *, at_end: bool
) -> bool:
    """Works a repeat. True where the nodes after it were worked as well.

    A repeat that ends "when the places run out" is tried at its last few possible lengths,
    and the one after which the rest of the row closes is kept.
    """
    if not node.body:
        return False
    node = up_to_its_begin(node)
    number = _number_of_times(hook, node.times)
    if number is not None and at_end and hook.asks(Choice.AS_MANY_AS_FIT):
        number = None
    tail = after[0] if after and isinstance(after[0], Tail) else None
    if number is not None:
        return _work_number(hook, node, number, tail, after, work, at_end=at_end)
    return _work_across(hook, node, tail, after, work, at_end=at_end)


def _number_of_times(hook: Hook, times: Times) -> int | None:
    """How often in all, where a number says so."""
    if times.often in (Often.ACROSS, Often.TO_LAST):
        return None
    number = times.amount.at(hook.task.size) if times.amount else None
    if number is None:
        return 0
    if times.often is Often.TIMES:
        return number
    if times.often is Often.MORE:
        return number + 1
    more = hook.task.conventions.times_are_more != hook.asks(Choice.OTHER_TIMES)
    return number + 1 if more else number


def _work_number(
    hook: Hook,
    node: Repeat,
    number: int,
    tail: Tail | None,
    after: Sequence[Node],
    work: Work,
    *,
    at_end: bool,
) -> bool:
    if node.split is not None and number:
        work_times(hook, node.body, number - 1, work)
        work(hook, node.body[: node.split])
        return False
    if tail is None or number == 0:
        work_times(hook, node.body, number, work)
        return False
    before = hook.fork()
    work_times(before, node.body, number - 1, work)
    whole = before.fork()
    work(whole, node.body)
    candidates = _tried(hook, _with_tail(before, whole, node, tail, work))
    return _best(hook, candidates, after[1:], work, at_end=at_end)


def _with_tail(
    before: Hook, whole: Hook, node: Repeat, tail: Tail, work: Work
) -> Iterator[Hook]:
    """The last working with its tail added behind it, or in place of its own end."""
    if tail.replaces is not True:
        added = whole.fork()
        work(added, tail.body)
        yield added
    if tail.replaces is not False:
        most = len(node.body)
        for drop in _drops(node, tail, most):
            cut = before.fork()
            cut.tail_replaces = tail.replaces is None
            work(cut, _cut(node, drop, tail))
            work(cut, _in_its_place(tail, node.body[-drop]))
            yield cut


def _tried(hook: Hook, ways: Iterator[Hook]) -> list[Hook]:
    """The ways to end a repeat, up to the one at which the row may try no more."""
    result: list[Hook] = []
    for way in ways:
        result.append(way)
        if hook.task.effort.is_out():
            break
    return result


def _work_across(
    hook: Hook,
    node: Repeat,
    tail: Tail | None,
    after: Sequence[Node],
    work: Work,
    *,
    at_end: bool,
) -> bool:
    _count_to_start(hook, node.times)
    stop = stop_at(hook, node.times)
    before = hook.fork()
    ends = _run_out(hook, node, work, stop)
    by_place = places_left(before, node.times) if stop is not None and stop(hook) else None
    if by_place is not None:  # "to last 2 sts", where the space of a ch-1 is one of them
        others = _run_out(before, node, work, by_place)
        ends = ends if by_place(before) else others
    candidates = _ends(ends, node, tail, work)
    rest = after[1:] if tail is not None else after
    return _best(hook, candidates, rest, work, at_end=at_end)


def _count_to_start(hook: Hook, times: Times) -> None:
    """ "To last 3 sts" of a round that was slipped on: the last lie before its start."""
    last = times.often is Often.TO_LAST and times.noun not in ("sp", "tch", "corner")
    if last and hook.task.is_round and lies_before(hook) and hook.asks(Choice.PAST_START):
        come_round(hook)


def _run_out(
    hook: Hook, node: Repeat, work: Work, stop: Callable[[Hook], Count] | None
) -> list[Hook]:
    """A repeat worked while it fits: where it ended, and where it was before that."""
    keep: list[Hook] = []

    def fits(before: Hook, trial: Hook) -> bool:
        if trial.missing > before.missing or trial.leapt > before.leapt:
            return False
        if trial.ahead == before.ahead and trial.last == before.last:
            return False
        return stop is None or not stop(trial) < 0

    amount = node.times.amount if node.times.often is Often.TO_LAST else None
    spare = (amount.at(hook.task.size) or 0) if amount is not None else 1
    run(hook, node.body, work, lambda _worked: ENDLESS, fits, keep, spare)
    ends = [hook.fork(), *reversed(keep)]
    return ends[:1] if stop is not None and not stop(hook) else ends


def _ends(ends: list[Hook], node: Repeat, tail: Tail | None, work: Work) -> list[Hook]:
    """The states the repeat may end in, likeliest first."""
    if node.split is not None:
        return [_worked(end, node.body[: node.split], work) for end in ends]
    if tail is not None:
        return _tried(ends[0], _tailed(ends, node, tail, work))
    unsaid = _unsaid_end(ends[0], node, work)
    if _leaves_space(ends[0], node):
        return [*unsaid, *ends]
    return [*ends[:1], *unsaid, *ends[1:]]


def _leaves_space(end: Hook, node: Repeat) -> bool:
    """Whether "*3 sc in next sp, skip next sc; rep from * to last sc" is one sp short.

    A space would be passed in silence, though it is what the repeat goes into.
    """
    if not isinstance(node.body[-1], Skip) or node.times.often is not Often.TO_LAST:
        return False
    spaces = any(
        (target := getattr(part, "target", None)) is not None and target.noun == "sp"
        for part in node.body[:-1]
    )
    front = ahead.take(end.ahead)
    return spaces and front is not None and is_space(front.place) > 0


def _tailed(ends: list[Hook], node: Repeat, tail: Tail, work: Work) -> Iterator[Hook]:
    """The tail behind the last working, or in place of its end; fullest first."""
    if (
        tail.replaces is None
        and _ends_alike(node, tail)
        and not uncounted_beginning(ends[0].ahead)
    ):
        instead = isinstance(node.body[-1], Chain) or ends[0].asks(Choice.TAIL_INSTEAD)
        ended = ends[:2] if instead else ends[:1]  # no chain follows a chain
        for end in ended:
            yield from _replaced(end, node, tail, work)
    if tail.replaces and ends[0].left_spaces():  # "the last sc goes in the ch-6 loop"
        yield from _replaced(ends[0], node, tail, work)
    for end, before in zip(ends, [*ends[1:], None], strict=True):
        if tail.replaces is not True:
            yield _worked(end, tail.body, work)
        if tail.replaces is not False and before is not None:
            yield from _replaced(before, node, tail, work)
    if tail.replaces is not False:
        least = 1 if tail.replaces or _is_of_last_place(node, tail) else _HALF
        yield from _replaced(ends[0], node, tail, work, least)


def _ends_alike(node: Repeat, tail: Tail) -> bool:
    """Whether a tail is the last stitch of the group in a place of its own.

    After "shell in next sc, sc in next dc" so is "ending with sc in top of turning ch".
    """
    told = [one for one in tail.body if not isinstance(one, Remark)]
    last, first = node.body[-1], told[0] if len(told) == 1 else None
    if isinstance(first, Chain):  # "ending with ch 1 before the join"
        return _is_alike(last, first)
    if not isinstance(first, Make) or not isinstance(last, Make) or len(node.body) < _HALF:
        return False
    return _is_alike(last, first) and last.target != first.target


def _is_of_last_place(node: Repeat, tail: Tail) -> bool:
    """Whether "2 sc in last ch" behind a repeat that ends "3 sc in next ch" is told."""
    first = next((one for one in tail.body if isinstance(one, Make)), None)
    last = first is not None and first.target and first.target.which is Which.LAST
    return bool(last) and _ends_alike(node, tail)


_HALF = 2
"""Instructions that a last half group lacks at least, where nobody says that it is cut."""


def _replaced(
    before: Hook, node: Repeat, tail: Tail, work: Work, least: int = 1
) -> Iterator[Hook]:
    """One more working with its end cut, and the tail in its place."""
    most = len(node.body)
    before = before.fork()
    before.tail_replaces = tail.replaces is None
    for drop in _drops(node, tail, min(most, 5)):
        if drop >= least:
            told = _in_its_place(tail, node.body[-drop])
            yield _worked(_worked(before, _cut(node, drop, tail), work), told, work)


def _in_its_place(tail: Tail, dropped: Node) -> tuple[Node, ...]:
    """What a tail works: "3 dc instead of 5" of "5 dc in next sc" go into that sc too."""
    made = tail.body[0] if tail.dropped and len(tail.body) == 1 else None
    if not isinstance(made, Make) or not isinstance(dropped, Make) or made.target:
        return tail.body
    several_in_one = dropped.target and dropped.amount and not dropped.target.amount
    if not several_in_one or made.stitch != dropped.stitch:
        return tail.body
    return (replace(made, target=dropped.target),)


def _cut(node: Repeat, drop: int, tail: Tail) -> tuple[Node, ...]:
    """A group without its end; "the last one" is but one of "sc in each of next 2 dc"."""
    kept = node.body[: max(0, len(node.body) - drop)]
    last, first = node.body[-drop], tail.body[0] if tail.body else None
    if not isinstance(last, Make) or not isinstance(first, Make) or not last.target:
        return kept
    number = last.target.amount.at(0) if last.target.amount else None
    one = len(tail.body) == 1 and first.target is not None and first.target.amount is None
    if not number or number < 2 or not one or last.stitch != first.stitch:
        return kept
    fewer = Amount((number - 1,), last.span)
    return (*kept, replace(last, target=replace(last.target, amount=fewer)))


def _drops(node: Repeat, tail: Tail, most: int) -> list[int]:
    """How many of the last instructions a tail may replace: from one like its first."""
    if tail.dropped:
        return [tail.dropped]
    first = next((n for n in tail.body if isinstance(n, Make)), None) or next(
        (n for n in tail.body if isinstance(n, Chain)), None
    )
    alike = [
        drop for drop in range(1, most + 1)
        if first is not None and _is_alike(node.body[-drop], first)
    ]  # fmt: skip
    return alike or list(range(1, most + 1))


def _is_alike(node: Node, first: Make | Chain) -> bool:
    if isinstance(first, Chain):
        return isinstance(node, Chain) and node.amount.values == first.amount.values
    return isinstance(node, Make) and node.stitch == first.stitch


def _worked(hook: Hook, nodes: Sequence[Node], work: Work) -> Hook:
    trial = hook.fork()
    work(trial, nodes)
    return trial


def _unsaid_end(end: Hook, node: Repeat, work: Work) -> list[Hook]:
    """A last group without its final skip or chain, which nobody says."""
    keep = len(node.body)
    while keep > 0 and isinstance(node.body[keep - 1], (Skip, Chain)):
        keep -= 1
    if keep in (0, len(node.body)) or not end.ahead:
        return []
    cut = _worked(end, node.body[:keep], work)
    cut.cut_short = True
    return [cut] if cut.missing == end.missing else []


def _best(
    hook: Hook, candidates: list[Hook], rest: Sequence[Node], work: Work, *, at_end: bool
) -> bool:
    """Goes on from the candidate after which the rest of the row closes best."""
    best: tuple[tuple[Count, Count, bool, Count, int], Hook] | None = None
    base, silent = hook.missing, hook.sought
    for rank, candidate in enumerate(candidates):
        trial = candidate
        work(trial, rest, top=at_end)
        amiss = trial.missing - base + trial.leapt
        left = unworked(trial) if at_end else 0
        passes = trial.sought and not silent  # stitches that nobody speaks of
        short = int(trial.cut_short and amiss > 0)  # nobody says so, and it is no help
        vain = trial.vain - hook.vain  # "sk the ch-2 sp" where it was worked into
        cost = (amiss * 3 + left + short, amiss, passes, vain, rank)
        if best is None or cost < best[0]:
            best = (cost, trial)
        if (cost[0] == 0 and not passes and not vain) or hook.task.effort.is_out():
            break
    if best is not None:
        hook.become(best[1])
    return True
