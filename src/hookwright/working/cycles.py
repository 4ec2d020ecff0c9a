"""Working a group over and over, without working it so often.

The place in the group and the place in the edge's own pattern are two cursors; when both
come round together, the cycles that are left are jumped by arithmetic. Nine more times and
nine hundred million more times cost the same.
"""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Hashable, Iterator, Sequence
from typing import Protocol

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import Node
from hookwright.working.ahead import Ahead
from hookwright.working.count import Count, whole_times
from hookwright.working.fabric import Stitch
from hookwright.working.hook import Hook
from hookwright.working.sequence import Piece, Run, join
from hookwright.working.sequence import Repeat as Repeated

LONGEST_PERIOD = 10_000
MOST_KEPT = 4


class Work(Protocol):
    """Works nodes on a hook; at the top of a row what is left over matters too."""

    def __call__(self, hook: Hook, nodes: Sequence[Node], *, top: bool = False) -> None:
        """Works the nodes."""


class _Mark(Struct):
    """The state at the start of one working of the group."""

    worked: int
    times: Count
    missing: Count
    own_chains: Count


class _Loop(Struct):
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
        last = max(0, self.begin - 1)  # what comes before is short as it is
        pieces: list[Piece[Stitch]] = hook.made[last : self.begin]
        pieces.extend(Repeated(made, times) for made, times in self.segments)
        hook.made = [*hook.made[:last], *join(pieces)]


def work_times(hook: Hook, body: Sequence[Node], times: int, work: Work) -> None:
    """Works a group a given number of times."""
    run(hook, body, work, lambda worked: times - worked)


def run(
    hook: Hook,
    body: Sequence[Node],
    work: Work,
    left: Callable[[Count], Count],
    fits: Callable[[Hook, Hook], bool] | None = None,
    keep: list[Hook] | None = None,
    spare: int = 0,
) -> bool:
    """Works a group while `left` says so and it fits. False where no period was found.

    Args:
        hook: What it is worked on.
        body: The group.
        work: What works it once.
        left: How often it is to be worked, after so many workings.
        fits: Whether a working fits, from the states before and after it.
        keep: Takes the states before the last few workings, where these may not fit.
        spare: Places at the end that are never jumped over: "to last 2 sts".
    """
    loop = _Loop(hook, len(hook.made), [])
    last: deque[_Before] = deque(maxlen=MOST_KEPT)
    found = _work_on(loop, hook, body, work, left, fits, last, spare)
    if keep is not None:
        keep.extend(before.state(loop) for before in last)
    loop.close(hook)
    return found


def _work_on(
    loop: _Loop,
    hook: Hook,
    body: Sequence[Node],
    work: Work,
    left: Callable[[Count], Count],
    fits: Callable[[Hook, Hook], bool] | None,
    last: deque[_Before],
    spare: int,
) -> bool:
    seen: dict[Hashable, _Mark] = {}
    steps = 0
    while left(loop.worked) > 0:
        if steps > LONGEST_PERIOD or hook.task.effort.spent():
            hook.trouble("period", body[0].span, "no period")
            return False
        steps += 1
        _jump(loop, hook, seen, left, spare)
        if not left(loop.worked) > 0:
            break
        if fits is None:
            loop.add(_made(hook, body, work))
            continue
        trial = hook.fork()
        made = _made(trial, body, work)
        if not fits(hook, trial):
            break
        last.append(_Before(hook.fork(), len(loop.segments), loop.segments[-1:]))
        hook.become(trial)
        loop.add(made)
    return True


def _made(hook: Hook, body: Sequence[Node], work: Work) -> tuple[Piece[Stitch], ...]:
    """What one working makes, which is not written into the row yet."""
    before, hook.made = hook.made, []
    work(hook, body)
    made = join(hook.made)
    hook.made = before
    return made


class _Before(Struct, frozen=True):
    """The state before one of the last workings, and what had been worked by then.

    Of the segments only the last one changes later, so the others need not be copied.
    """

    hook: Hook
    number: int
    newest: list[tuple[tuple[Piece[Stitch], ...], Count]]

    def state(self, loop: _Loop) -> Hook:
        """The hook as it was, its workings written into the row."""
        segments = [*loop.segments[: max(0, self.number - 1)], *self.newest]
        _Loop(self.hook, loop.begin, segments).close(self.hook)
        return self.hook


def _jump(
    loop: _Loop,
    hook: Hook,
    seen: dict[Hashable, _Mark],
    left: Callable[[Count], Count],
    spare: int,
) -> None:
    """Jumps whole cycles when this state has been met before."""
    for at, key, times in _states(hook):
        mark = seen.get(key)
        worked = loop.worked if isinstance(loop.worked, int) else -1
        if mark is None:
            seen[key] = _Mark(worked, times, hook.missing, hook.own_chains)
            continue
        cycle = worked - mark.worked
        if cycle <= 0 or worked < 0:
            continue
        number = _cycles(mark.times - times, times - spare, cycle, left(loop.worked))
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
    line, last = hook.ahead, (hook.last, hook.worked)  # the first may go nowhere
    if not line:
        yield 0, ("end", last), 0
        return
    for i, piece in enumerate(line[:4]):
        if isinstance(piece, Run):
            if i == 0 and piece.times > 1:
                yield 0, (0, piece.item, line[1:], last), piece.times
            elif i == 0:  # a working that uses nothing comes back to just this
                yield 0, ("same", line, last), 0
        elif isinstance(piece, Repeated):
            yield i, (i, line[:i], piece.body, line[i + 1 :], last), piece.times


def _skip_cycles(
    loop: _Loop, hook: Hook, mark: _Mark, cycle: int, number: Count, times: Count, at: int
) -> None:
    pieces = _cycle_pieces(loop, cycle)
    used = mark.times - times
    if hook.ahead and used:
        hook.ahead = _less(hook.ahead, at, number * used)
    hook.missing = hook.missing + (hook.missing - mark.missing) * number
    hook.own_chains = hook.own_chains + (hook.own_chains - mark.own_chains) * number
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
        number = min(left, times)
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
