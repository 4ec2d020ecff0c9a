"""Working a group over and over, without working it so often.

The place in the group and the place in the edge's own pattern are two cursors; when both
come round together, the cycles that are left are jumped by arithmetic. Nine more times and
nine hundred million more times cost the same.
"""

from __future__ import annotations

from collections.abc import Callable, Hashable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Protocol

from hookwright.notation.tree import Chain, Node, Often, Repeat, Skip, Tail, Times
from hookwright.working import ahead
from hookwright.working.ahead import Ahead
from hookwright.working.conventions import Choice
from hookwright.working.count import Count, whole_times
from hookwright.working.fabric import PlaceKind, Stitch
from hookwright.working.hook import Hook
from hookwright.working.sequence import Group, Piece, Run, join, total
from hookwright.working.sequence import Repeat as Repeated
from hookwright.working.stitches import same_kind

LONGEST_PERIOD = 10_000


class Work(Protocol):
    """Works nodes on a hook; at the top of a row what is left over matters too."""

    def __call__(self, hook: Hook, nodes: Sequence[Node], *, top: bool = False) -> None:
        """Works the nodes."""


@dataclass(slots=True)
class _Mark:
    """The state at the start of one working of the group."""

    worked: int
    times: Count
    missing: Count


@dataclass(slots=True)
class _Loop:
    """A repeat in progress: its workings, alike ones together."""

    hook: Hook
    begin: int
    segments: list[tuple[tuple[Piece[Stitch], ...], Count]]
    worked: Count = 0

    def add(self, made: tuple[Piece[Stitch], ...], times: Count = 1) -> None:
        """Keeps what one working made; a working like the one before is only counted."""
        self.worked = self.worked + times
        if self.segments and self.segments[-1][0] == made:
            self.segments[-1] = (made, self.segments[-1][1] + times)
        else:
            self.segments.append((made, times))

    def close(self, hook: Hook) -> None:
        """Writes the workings into the row."""
        pieces: list[Piece[Stitch]] = hook.made[: self.begin]
        pieces.extend(Repeated(made, times) for made, times in self.segments)
        hook.made = list(join(pieces))


def work_times(hook: Hook, body: Sequence[Node], times: int, work: Work) -> None:
    """Works a group a given number of times."""
    _run(hook, body, work, lambda worked: times - worked, lambda before, after: True)


def _run(
    hook: Hook,
    body: Sequence[Node],
    work: Work,
    left: Callable[[Count], Count],
    fits: Callable[[Hook, Hook], bool],
    keep: list[Hook] | None = None,
) -> bool:
    """Works a group while it fits and `left` says so. False where no period was found."""
    loop = _Loop(hook, len(hook.made), [])
    seen: dict[Hashable, _Mark] = {}
    steps = 0
    while left(loop.worked) > 0:
        if steps > LONGEST_PERIOD:
            hook.trouble("period", body[0].span, "no period")
            loop.close(hook)
            return False
        steps += 1
        _jump(loop, hook, seen, left)
        if not left(loop.worked) > 0:
            break
        trial = hook.fork()
        trial.made = []
        work(trial, body)
        if not fits(hook, trial):
            break
        made = join(trial.made)
        if keep is not None:
            _keep(keep, hook, loop)
        trial.made = hook.made
        hook.become(trial)
        loop.add(made)
    loop.close(hook)
    return True


def _keep(keep: list[Hook], hook: Hook, loop: _Loop) -> None:
    """Remembers the state before each of the last few workings."""
    state = hook.fork()
    _Loop(state, loop.begin, list(loop.segments)).close(state)
    keep.append(state)
    del keep[:-4]


def _jump(
    loop: _Loop, hook: Hook, seen: dict[Hashable, _Mark], left: Callable[[Count], Count]
) -> None:
    """Jumps whole cycles when this state has been met before."""
    for at, key, times in _states(hook):
        mark = seen.get(key)
        worked = loop.worked if isinstance(loop.worked, int) else -1
        if mark is None:
            seen[key] = _Mark(worked, times, hook.missing)
            continue
        cycle = worked - mark.worked
        if cycle <= 0 or worked < 0:
            continue
        number = _cycles(mark.times - times, times, cycle, left(loop.worked))
        if number is None or not number > 0:
            continue
        _skip_cycles(loop, hook, mark, cycle, number, times, at)
        seen.clear()
        return


def _cycles(used: Count, times: Count, cycle: int, left: Count) -> Count | None:
    """How many cycles can be jumped: one is always left, for what lies ahead of it."""
    by_left = whole_times(left, cycle) if not isinstance(left, _Endless) else None
    if used == 0:
        return by_left
    if not isinstance(used, int) or used <= 0:
        return None
    by_edge = whole_times(times, used)
    if by_edge is None:
        return None
    by_edge = by_edge - 1
    return by_edge if by_left is None else min(by_edge, by_left)


class _Endless(int):
    """As often as the places allow."""


ENDLESS = _Endless(1)


def _states(hook: Hook) -> Iterator[tuple[int, Hashable, Count]]:
    """The state of the hook with one number on the edge left open, for each such number."""
    line = hook.ahead
    if not line:
        yield 0, ("end", hook.last), 0
        return
    for i, piece in enumerate(line[:4]):
        if isinstance(piece, Run):
            if i == 0 and piece.times > 1:
                yield 0, (0, piece.item, line[1:], hook.last), piece.times
        elif isinstance(piece, Repeated):
            yield i, (i, line[:i], piece.body, line[i + 1 :], hook.last), piece.times


def _skip_cycles(
    loop: _Loop, hook: Hook, mark: _Mark, cycle: int, number: Count, times: Count, at: int
) -> None:
    pieces = _cycle_pieces(loop, cycle)
    used = mark.times - times
    if hook.ahead:
        hook.ahead = _less(hook.ahead, at, number * used)
    hook.missing = hook.missing + (hook.missing - mark.missing) * number
    if len(pieces) == 1:
        loop.add(pieces[0], number * cycle)
        return
    whole = join([piece for made in pieces for piece in made])
    loop.segments.append((whole, number))
    loop.worked = loop.worked + number * cycle


def _cycle_pieces(loop: _Loop, cycle: int) -> list[tuple[Piece[Stitch], ...]]:
    """What the last `cycle` workings made; a single entry where they are all alike."""
    result: list[tuple[Piece[Stitch], ...]] = []
    left: Count = cycle
    for made, times in reversed(loop.segments):
        number = times if times < left else left
        if not isinstance(number, int):
            break
        result.extend([made] * number)
        left = left - number
        if not left > 0:
            break
    result.reverse()
    return (
        [result[0]]
        if len(set(map(id, result))) == 1 or all(made == result[0] for made in result)
        else result
    )


def _less(line: Ahead, at: int, used: Count) -> Ahead:
    """The edge with so many workings of the repeat or run at a position used up."""
    piece = line[at]
    if not used or not isinstance(piece, (Run, Repeated)):
        return line
    left = piece.times - used
    shorter: Ahead = (replace(piece, times=left),) if left else ()
    return (*line[:at], *shorter, *line[at + 1 :])


def work_repeat(
    hook: Hook, node: Repeat, after: Sequence[Node], work: Work, *, at_end: bool
) -> bool:
    """Works a repeat. True where the nodes after it were worked as well.

    A repeat that ends "when the places run out" is tried at its last few possible lengths,
    and the one after which the rest of the row closes is kept.
    """
    if not node.body:
        return False
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
    hook: Hook, node: Repeat, number: int, tail: Tail | None, after: Sequence[Node], work: Work,
    *, at_end: bool,
) -> bool:  # fmt: skip
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
    candidates = _with_tail(before, whole, node, tail, work)
    return _best(hook, candidates, after[1:], work, at_end=at_end)


def _with_tail(
    before: Hook, whole: Hook, node: Repeat, tail: Tail, work: Work
) -> list[Hook]:
    """The last working with its tail added behind it, or in place of its own end."""
    candidates = []
    if tail.replaces is not True:
        added = whole.fork()
        work(added, tail.body)
        candidates.append(added)
    if tail.replaces is not False:
        most = len(node.body)
        drops = [tail.dropped] if tail.dropped else list(range(1, most + 1))
        for drop in drops:
            cut = before.fork()
            work(cut, node.body[: most - drop])
            work(cut, tail.body)
            candidates.append(cut)
    return candidates


def _work_across(
    hook: Hook, node: Repeat, tail: Tail | None, after: Sequence[Node], work: Work,
    *, at_end: bool,
) -> bool:  # fmt: skip
    keep: list[Hook] = []
    stop = _stop_at(hook, node.times)

    def fits(before: Hook, trial: Hook) -> bool:
        if trial.missing > before.missing or trial.leapt > before.leapt:
            return False
        if trial.ahead == before.ahead and trial.last == before.last:
            return False
        return stop is None or not stop(trial) < 0

    _run(hook, node.body, work, lambda worked: ENDLESS, fits, keep)
    ends = [hook.fork(), *reversed(keep)]
    if stop is not None and not stop(hook):
        ends = ends[:1]
    candidates = _ends(ends, node, tail, work)
    rest = after[1:] if tail is not None else after
    return _best(hook, candidates, rest, work, at_end=at_end)


def _stop_at(hook: Hook, times: Times) -> Callable[[Hook], Count] | None:
    """How many places are left before "to last n" is reached."""
    if times.often is not Often.TO_LAST:
        return None
    number = times.amount.at(hook.task.size) if times.amount else 1
    keep = number or 0
    if times.noun == "sp":
        return lambda trial: trial.left_spaces() - keep
    if times.noun == "tch":
        counts = _turning_chain_counts(hook.ahead)
        return lambda trial: trial.left() - counts
    if times.noun in ("st", "ch"):
        return lambda trial: trial.left() - keep
    if times.noun == "group" or ahead.holds_group(
        hook.ahead, lambda g: g.name == times.noun
    ):
        return lambda trial: _groups_left(trial, times.noun) - keep
    if _is_one_kind(hook, times.noun):
        return lambda trial: trial.left() - keep
    return lambda trial: _kind_left(trial, times.noun) - keep


def _groups_left(hook: Hook, name: str) -> Count:
    """Whole groups of a name that are still ahead."""
    return _count_groups(hook.ahead, name, 1)


def _count_groups(line: Ahead, name: str, times: Count) -> Count:
    result: Count = 0
    for piece in line:
        if isinstance(piece, Repeated):
            result = result + _count_groups(piece.body, name, 1) * piece.times
        elif isinstance(piece, Group) and piece.whole:
            named = piece.name == name or name == "group" or not piece.name
            result = result + (1 if named else _count_groups(piece.body, name, 1))
    return result * times


def _is_one_kind(hook: Hook, noun: str) -> bool:
    """Whether every stitch ahead may be called by a noun, or none of them."""
    number = _kind_left(hook, noun)
    return number in (0, hook.left())


def _kind_left(hook: Hook, noun: str) -> Count:
    return total(hook.ahead, lambda p: p.counts if same_kind(noun, p.stitch) else 0)


def _turning_chain_counts(line: Ahead) -> int:
    last = ahead.last_place(line)
    return last.counts if last is not None else 0


def _ends(ends: list[Hook], node: Repeat, tail: Tail | None, work: Work) -> list[Hook]:
    """The states the repeat may end in, likeliest first."""
    if node.split is not None:
        return [_worked(end, node.body[: node.split], work) for end in ends]
    if tail is not None:
        return _tailed(ends, node, tail, work)
    return [*ends[:1], *_unsaid_end(ends[0], node, work), *ends[1:]]


def _tailed(ends: list[Hook], node: Repeat, tail: Tail, work: Work) -> list[Hook]:
    """The tail behind the last working, or in place of its end; fullest first."""
    result = []
    for end, before in zip(ends, [*ends[1:], None], strict=True):
        if tail.replaces is not True:
            result.append(_worked(end, tail.body, work))
        if tail.replaces is not False and before is not None:
            result.extend(_replaced(before, node, tail, work))
    if tail.replaces is True:
        result.extend(_replaced(ends[0], node, tail, work))
    return result


def _replaced(before: Hook, node: Repeat, tail: Tail, work: Work) -> list[Hook]:
    """One more working with its end cut, and the tail in its place."""
    most = len(node.body)
    drops = [tail.dropped] if tail.dropped else list(range(1, min(most, 5) + 1))
    return [
        _worked(_worked(before, node.body[: max(0, most - drop)], work), tail.body, work)
        for drop in drops
    ]


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
    best: tuple[tuple[Count, Count, int], Hook] | None = None
    base = hook.missing
    for rank, candidate in enumerate(candidates):
        trial = candidate
        work(trial, rest, top=at_end)
        amiss = trial.missing - base + trial.leapt
        left = unworked(trial) if at_end else 0
        cost = (amiss * 3 + left, amiss, rank)
        if best is None or cost < best[0]:
            best = (cost, trial)
        if cost[0] == 0:
            break
    if best is not None:
        hook.become(best[1])
    return True


def unworked(hook: Hook) -> Count:
    """Stitches left on the edge that a row should have used.

    Beside a space the stitches are passed in silence, so what follows the last space
    worked into is not left over.
    """
    left = hook.left()
    if hook.task.is_round and not ahead.holds(
        hook.ahead, lambda p: p.kind is not PlaceKind.UNDERSIDE
    ):
        whole = total(hook.edge_line, lambda p: int(p.kind is PlaceKind.UNDERSIDE))
        if left == whole:  # the other side of the chain is only there when it is worked
            return 0
    if not left or not hook.used_space:
        return left
    if ahead.holds(
        hook.ahead, lambda p: p.kind is PlaceKind.SPACE and p.chains in hook.lengths
    ):
        return left
    return 0 if left <= 6 else left
