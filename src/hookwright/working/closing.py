"""What is left on the edge: at the end of a row, and before "to last 4 sts"."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from msgspec.structs import replace

from hookwright.notation.tree import Often, Times
from hookwright.working import ahead
from hookwright.working.ahead import Ahead
from hookwright.working.conventions import Choice
from hookwright.working.corner_spaces import corner_space
from hookwright.working.corners import is_corner
from hookwright.working.count import Count
from hookwright.working.fabric import PlaceKind, Stitch
from hookwright.working.gaps import in_group
from hookwright.working.groups import is_called
from hookwright.working.hook import Hook, Wanted
from hookwright.working.sequence import Group, Piece, Run, total
from hookwright.working.sequence import Repeat as Repeated
from hookwright.working.stitches import same_kind
from hookwright.working.wanted import chain_meant, corner_wanted, number_of, wanted_by


def stop_at(hook: Hook, times: Times) -> Callable[[Hook], Count] | None:
    """How many places are left before "to last n" or the next corner is reached."""
    if times.noun == "corner" and not corner_space(hook.edge_line):
        return _stop_at_centre(hook)
    until = chain_meant(hook, times.until) if times.until is not None else None
    if until is not None and until.noun == "tch":
        return _stop_at_last(hook, replace(times, noun="tch", until=None))
    if times.noun == "corner" or until is not None:
        return _stop_before(hook, wanted_by(hook, until) if until else corner_wanted(hook))
    return _stop_at_last(hook, times) if times.often is Often.TO_LAST else None


def _stop_at_last(hook: Hook, times: Times) -> Callable[[Hook], Count] | None:
    """How many places are left before the last few of a kind."""
    number = times.amount.at(hook.task.size) if times.amount else 1
    keep = number or 0
    if times.noun == "sp" and not hook.edge_holds(lambda p: p.kind is PlaceKind.SPACE):
        return None  # "to last space", of gaps: what comes behind tells where
    if times.noun == "sp":
        return lambda trial: trial.left_spaces() - keep
    if times.noun == "tch":
        counts = _turning_chain_counts(hook.ahead)
        return lambda trial: trial.left() - counts
    if times.noun in ("st", "ch"):
        return lambda trial: trial.left() - keep
    if times.noun == "group" or ahead.holds_group(
        hook.ahead, lambda g: is_called(times.noun, g.name)
    ):
        return lambda trial: _groups_left(trial, times.noun) - keep
    if _is_one_kind(hook, times.noun) or hook.asks(Choice.OTHERS_AMONG):
        return lambda trial: trial.left() - keep
    return lambda trial: _kind_left(trial, times.noun) - keep


def _stop_before(hook: Hook, wanted: Wanted) -> Callable[[Hook], Count]:
    """How many places of a kind have been passed, of those that are ahead now."""
    ahead_now = number_of(hook.ahead, wanted)
    return lambda trial: number_of(trial.ahead, wanted) - ahead_now if ahead_now else 0


def places_left(hook: Hook, times: Times) -> Callable[[Hook], Count] | None:
    """How many stitches and spaces are left before "to last n", where both count."""
    if times.often is not Often.TO_LAST or times.noun != "st" or not hook.left_spaces():
        return None
    keep = (times.amount.at(hook.task.size) if times.amount else 1) or 0
    return lambda trial: trial.left() + trial.left_spaces() - keep


def _stop_at_centre(hook: Hook) -> Callable[[Hook], Count] | None:
    """How many stitches come before the middle one of the next corner; None behind them."""
    found = ahead.seek_group(hook.ahead, is_corner)
    if found is None or not isinstance(found.rest[0], Group):
        return None
    number = ahead.stitches(found.rest[0].body)
    half = number // 2 if isinstance(number, int) else 0
    keep = hook.left() - ahead.stitches(found.line) - half
    return lambda trial: trial.left() - keep


def _groups_left(hook: Hook, name: str) -> Count:
    """Whole groups of a name that are still ahead."""
    return _count_groups(hook.ahead, name, 1)


def _count_groups(line: Ahead, name: str, times: Count) -> Count:
    result: Count = 0
    for piece in line:
        if isinstance(piece, Repeated):
            result = result + _count_groups(piece.body, name, 1) * piece.times
        elif isinstance(piece, Group) and piece.whole:
            named = name == "group" or not piece.name or is_called(name, piece.name)
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
    if hook.task.is_round and hook.sought and len(hook.ahead) == 1 and in_group(hook):
        return 0  # "dc in centre dc of each shell": the rest of the last one is passed too
    if (left == 1 and _ends_where_begun(hook)) or (
        hook.come_round and left <= hook.come_round
    ):
        return 0
    if left and _under_last_chain(hook) in (left, left + ahead.stitches(hook.before)):
        return 0  # what was slipped over at the start lies under it as well
    if (
        left
        and hook.task.is_round
        and hook.sought
        and left == _last_skip(hook.made, "pass")
    ):
        return 0  # "dc in 4th dc of next fan", but for the fan that the round closes
    if left and hook.left_spaces() and hook.left_spaces() == _spaces_under_chain(hook):
        return 0
    if not left or not hook.used_space:
        return left
    if ahead.holds(
        hook.ahead, lambda p: p.kind is PlaceKind.SPACE and p.chains in hook.lengths
    ):
        return left
    return 0 if left <= 6 else left


def _ends_where_begun(hook: Hook) -> bool:
    """ "*Ch 5, sc in next sc; rep from * 6 more times, ch 5, sl st in first sc", over 8 sc.

    A round that begins and ends with a loop hangs both on the stitch it was joined in.
    """
    first = _first_made(hook.made)
    if first is None or first.kind not in ("ch", "tch") or first.passes:
        return False
    loop = bool(first.heads) and all(h.kind is PlaceKind.SPACE for h in first.heads)
    return hook.task.is_round and loop and _is_chained(_without_skips(hook.made))


def _without_skips(line: Sequence[Piece[Stitch]]) -> Sequence[Piece[Stitch]]:
    """What a row has made, up to the last thing that is no place passed by word."""
    made = len(line)
    while made and isinstance(one := line[made - 1], Run) and one.item.kind == "skip":
        made -= 1
    return line[:made]


def _first_made(line: Sequence[Piece[Stitch]]) -> Stitch | None:
    """The first thing that a row has made."""
    first = line[0] if line else None
    if first is None or isinstance(first, Run):
        return first.item if first is not None else None
    return _first_made(first.body)


def joined_in_left(hook: Hook) -> Count:
    """The stitch joined in, where a round that has gone on from it never comes back."""
    on = Choice.ON_FROM_JOIN in hook.task.readings
    return ahead.stitches(hook.before) if on else 0


def _under_last_chain(hook: Hook) -> Count:
    """What the last chain of a round passes over, as every chain before it did by word.

    "*ch 2, sk 1 st, dc in next st; rep from * around, ch 2, join" does not say it again.
    """
    return _last_skip(hook.made) if hook.task.is_round and _is_chained(hook.made) else 0


def _spaces_under_chain(hook: Hook) -> Count:
    """The same of spaces: "*ch 4, skip next sp, sc in next sp; rep from *, ch 4, join"."""
    if not (hook.task.is_round and hook.used_space and _is_chained(hook.made)):
        return 0
    return _last_skip(hook.made, passed=lambda stitch: stitch.spaces)


def _is_chained(line: Sequence[Piece[Stitch]]) -> bool:
    """Whether the last thing made is a chain."""
    last = line[-1] if line else None
    if isinstance(last, Run):
        return last.item.kind == "ch"
    return last is not None and _is_chained(last.body)


def _last_skip(
    line: Sequence[Piece[Stitch]],
    kind: str = "skip",
    passed: Callable[[Stitch], int] = lambda stitch: stitch.passes,
) -> Count:
    """How many stitches, or spaces, were passed by word the last time any were.

    In silence, where the kind is "pass".
    """
    for piece in reversed(line):
        if isinstance(piece, Run):
            if piece.item.kind == kind:
                return passed(piece.item) * piece.times
            continue
        found = _last_skip(piece.body, kind, passed)
        if found:
            return found
    return 0
