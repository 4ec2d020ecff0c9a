"""Stars, brackets and "rep from *" folded into repeats.

A row is first read as a flat list in which stars and "rep from *" are marks; here every
mark finds its group. A mark without its other half is a repeat to the end of what is known,
or is passed: nothing is lost.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.cut_short import cut_after
from hookwright.notation.ordinals import counted_on, of_one_kind
from hookwright.notation.tree import (
    Amount,
    Chain,
    InOnePlace,
    Join,
    Loops,
    Node,
    Often,
    Remark,
    Repeat,
    Target,
    Times,
    Turn,
    Yarn,
)
from hookwright.source import Span


class Star(Struct, frozen=True):
    """One or more stars."""

    count: int
    span: Span


class Again(Struct, frozen=True):
    """ "rep from * ...": which mark it goes back to, and how often.

    Attributes:
        mark: The stars it names; 0 for "repeat to the end" without a star.
        to: The stars it stops at; 0 where it names none.
        times: How often, as far as it is said.
    """

    mark: int
    to: int
    times: Times | None
    span: Span


class TimesMark(Struct, frozen=True):
    """A number of times that stands after a closing star."""

    times: Times


class PlaceMark(Struct, frozen=True):
    """The place behind a closing star: "*sc, hdc, 3 dc, hdc, sc* in each loop"."""

    target: Target
    span: Span


class EndAt(Struct, frozen=True):
    """ "ending last rep at **"."""

    mark: int
    span: Span


class EndAfter(Struct, frozen=True):
    """ "ending last rep after second shell": the stitch that is the last one made."""

    stitch: str
    ordinal: int
    span: Span


Item = Node | Star | Again | TimesMark | PlaceMark | EndAt | EndAfter


def fold(items: Sequence[Item]) -> tuple[Node, ...]:
    """The nodes of a row, with every mark folded into a repeat."""
    left = list(items)
    told: dict[int, tuple[Node, ...]] = {}
    for _ in range(len(items) + 1):
        place = next((i for i, item in enumerate(left) if isinstance(item, Again)), None)
        if place is None:
            break
        left = _told_before(left, place, told) or _fold_again(left, place, told)
    marks = (Star, Again, TimesMark, PlaceMark, EndAt, EndAfter)
    whole = _cut_short(_fold_pairs(left))
    return of_one_kind([item for item in whole if not isinstance(item, marks)])


def _cut_short(items: list[Item]) -> list[Item]:
    """The repeats with those that stop behind a stitch named after them."""
    result: list[Item] = []
    for item in items:
        before = next((i for i in reversed(result) if not isinstance(i, Remark)), None)
        if isinstance(item, EndAfter) and isinstance(before, Repeat):
            at = result.index(before)
            result[at] = cut_after(before, item.stitch, item.ordinal) or before
        result.append(item)
    return result


def _told_before(
    items: list[Item], place: int, told: dict[int, tuple[Node, ...]]
) -> list[Item] | None:
    """ "*A*; rep from * to * twice, B; rep from * to * twice": A stands once only."""
    again = items[place]
    assert isinstance(again, Again)
    group = told.get(again.mark) if again.to and again.times is not None else None
    marks = (item.count for item in items[:place] if isinstance(item, Star))
    if group is None or again.times is None or again.mark in marks:
        return None
    repeat = _repeat(group, _from_second(again.times), again.span, None)
    return [*items[:place], repeat, *items[place + 1 :]]


def _fold_again(
    items: list[Item], place: int, told: dict[int, tuple[Node, ...]]
) -> list[Item]:
    """Folds the first "rep from *" with the group it goes back to, which is kept."""
    again = items[place]
    assert isinstance(again, Again)
    opening = _opening(items, place, again.mark)
    before, inside = items[:opening], items[opening:place]
    after = items[place + 1 :]
    stars = [i for i, item in enumerate(inside) if isinstance(item, Star)]
    if inside and isinstance(inside[0], Star):
        inside, stars = inside[1:], [i - 1 for i in stars[1:]]
    end_at, after = _end_at(after)
    closing = _closing(inside, stars, again, end_at=end_at)
    times = again.times or Times(Often.ACROSS, again.span)
    if closing is None:
        return [*before, _repeat(_without_stars(inside), times, again.span, None), *after]
    group = _without_stars(inside[:closing])
    rest = _without_stars(inside[closing + 1 :])
    if end_at:
        whole = (*group, *rest)
        return [*before, _repeat(whole, times, again.span, len(group)), *after]
    told[again.mark] = group
    if not rest or not again.to:
        return [*before, _repeat((*group, *rest), times, again.span, None), *after]
    repeat = _repeat(group, _from_second(times), again.span, None)
    return [*before, *group, *rest, repeat, *after]


def _from_second(times: Times) -> Times:
    """A group that has been worked by hand is then worked as often as it says."""
    numbered = times.often in (Often.UNCLEAR, Often.MORE)
    return replace(times, often=Often.TIMES) if numbered else times


def _opening(items: list[Item], place: int, mark: int) -> int:
    """Where the group begins: at the star named, the first star, or the row's start."""
    stars = [i for i in range(place) if isinstance(items[i], Star)]
    for i in stars:
        star = items[i]
        if isinstance(star, Star) and star.count == mark:
            return i
    if stars:
        return stars[0]
    return _after_beginning(items, place)


def _after_beginning(items: list[Item], place: int) -> int:
    """Without a star the group is all of the row but the chain it begins with."""
    begin = 0
    while begin < place and isinstance(
        items[begin], (Chain, Turn, Loops, Remark, Yarn, Join)
    ):
        begin += 1
    return begin if begin < place else 0


def _end_at(after: list[Item]) -> tuple[bool, list[Item]]:
    for i, item in enumerate(after):
        if isinstance(item, EndAt):
            return True, [*after[:i], *after[i + 1 :]]
        if isinstance(item, (Again, Star)):
            break
    return False, after


def _closing(
    inside: list[Item], stars: list[int], again: Again, *, end_at: bool
) -> int | None:
    """The mark inside the group that closes it or that the last working stops at."""
    if not stars:
        return None
    if again.to:
        for i in stars:
            star = inside[i]
            if isinstance(star, Star) and star.count == again.to:
                return i
    return stars[0] if end_at or again.to else stars[-1]


def _without_stars(items: list[Item]) -> tuple[Node, ...]:
    return fold([item for item in items if not isinstance(item, Star)])


def _repeat(body: tuple[Node, ...], times: Times, span: Span, split: int | None) -> Repeat:
    if not body:
        return Repeat((), Times(Often.TIMES, span, Amount((1,), span)), span)
    body = counted_on(body)
    return Repeat(
        body, times, Span(body[0].span.start, max(span.end, body[-1].span.end)), split
    )


def _fold_pairs(items: list[Item]) -> list[Item]:
    """Folds "*A* 3 times" and "*A* around"; a pair without a number goes round."""
    result: list[Item] = []
    opened: int | None = None
    i = 0
    while i < len(items):
        item = items[i]
        if isinstance(item, Star) and opened is None:
            opened = len(result)
        elif isinstance(item, Star) and opened is not None:
            body = fold(result[opened:])
            del result[opened:]
            opened = None
            following = items[i + 1] if i + 1 < len(items) else None
            if isinstance(following, PlaceMark) and body:
                span = body[0].span.to(following.span)
                result.append(InOnePlace(body, following.target, span))
                i += 2
                continue
            times, i = _times_after(items, i, item.span)
            if body:
                result.append(_repeat(body, times, item.span, None))
        elif isinstance(item, TimesMark) and opened is not None:
            body = fold(result[opened:])
            del result[opened:]
            opened = None
            if body:
                result.append(_repeat(body, item.times, item.times.span, None))
        else:
            result.append(item)
        i += 1
    return result


def _times_after(items: list[Item], i: int, span: Span) -> tuple[Times, int]:
    following = items[i + 1] if i + 1 < len(items) else None
    if isinstance(following, TimesMark):
        return following.times, i + 1
    return Times(Often.ACROSS, span), i
