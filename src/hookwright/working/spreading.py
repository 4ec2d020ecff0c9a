"""Increases and decreases spread evenly over what lies ahead of the hook."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import (
    Amount,
    Change,
    Evenly,
    Make,
    Node,
    Often,
    Repeat,
    Target,
    Times,
    Which,
)


def spread(node: Evenly, own: Make | None, main: str, size: int, places: int) -> list[Node]:
    """The stitches of a row, so many more or fewer than its places, as a repeat.

    Args:
        node: What is to be spread.
        own: The stitch that the row is worked in ("sc around, ..."), if it says one.
        main: The stitch used before, where the row says none.
        size: The size worked.
        places: Stitches ahead.
    """
    number = node.amount.at(size) or 0
    places = _places(node, size, places)
    change = {
        Change.MORE: number,
        Change.FEWER: -number,
        Change.TOTAL: number - places,
    }[node.change]
    stitch = own or Make(node.stitch or main, node.span)
    if node.at_ends:
        return _at_both_ends(stitch, change, places)
    next_one = Target("st", Which.NEXT, node.span)
    plain = replace(stitch, target=next_one, amount=None)
    times = abs(change)
    if not times or not places:
        return [_some(plain, places)] if places else []
    group, rest = divmod(places, times)
    if change < 0 and group < 2:
        return [_some(plain, places)]  # more decreases than pairs: the count will tell
    body: list[Node] = [_doubled(plain, 2) if change > 0 else _drawn(plain)]
    if change > 0 and group < 1:  # several more in every place
        return [*_in_each(plain, places, change)]
    before = group - (1 if change > 0 else 2)
    if before:
        body.insert(0, _some(plain, before))
    repeat = Repeat(
        tuple(body), Times(Often.TIMES, node.span, _amount(times, node)), node.span
    )
    return [repeat, _some(plain, rest)] if rest else [repeat]


def _at_both_ends(stitch: Make, change: int, places: int) -> list[Node]:
    """ "Dec 1 st at each end": drawn together, or two in one, first and last."""
    next_one = Target("st", Which.NEXT, stitch.span)
    plain = replace(stitch, target=next_one, amount=None)
    each = abs(change) // 2
    taken = each * (2 if change < 0 else 1)
    if not each or places < 2 * taken:
        return [_some(plain, places)] if places else []
    one = _drawn(plain) if change < 0 else _doubled(plain, 2)
    between = places - 2 * taken
    middle = [_some(plain, between)] if between else []
    return [*([one] * each), *middle, *([one] * each)]


class ChangedRow(Struct, frozen=True):
    """Increases or decreases along a row, with the stitch that it is worked in, if told.

    `nodes` is how many instructions tell it.
    """

    evenly: Evenly
    own: Make | None
    nodes: int


def changed_row(nodes: Sequence[Node]) -> ChangedRow | None:
    """ "Sc across, decreasing 4 evenly", "dec 1 at each end, sc in the rest"."""
    first = nodes[0] if nodes else None
    evenly = follows_each(nodes)
    if evenly is not None and isinstance(first, Make):
        return ChangedRow(evenly, first, 2)
    if not isinstance(first, Evenly):
        return None
    behind = nodes[1] if len(nodes) > 1 and first.at_ends else None
    if isinstance(behind, Make) and follows_each((behind, first)) is not None:
        return ChangedRow(first, behind, 2)
    return ChangedRow(first, None, 1)


def _places(node: Evenly, size: int, places: int) -> int:
    """Over how many of the places ahead: of "next 9 sts", or up to the last few."""
    over = node.over.at(size) if node.over is not None else None
    leaving = node.leaving.at(size) if node.leaving is not None else None
    return max(0, over if over is not None else places - (leaving or 0))


def follows_each(nodes: Sequence[Node]) -> Evenly | None:
    """What "increasing ... evenly" says right behind stitches that go all the way."""
    first = nodes[0] if nodes else None
    second = nodes[1] if len(nodes) > 1 else None
    if not isinstance(first, Make) or not isinstance(second, Evenly):
        return None
    every = first.target is None or (
        first.target.which is Which.EACH and first.target.amount is None
    )
    one = first.target is not None and first.amount and first.amount.values == (1,)
    return second if every and (first.amount is None or one) else None


def _some(plain: Make, number: int) -> Make:
    target = plain.target
    assert target is not None
    return replace(plain, target=replace(target, amount=Amount((number,), plain.span)))


def _doubled(plain: Make, number: int) -> Make:
    return replace(plain, amount=Amount((number,), plain.span))


def _drawn(plain: Make) -> Make:
    target = plain.target
    assert target is not None
    pair = replace(target, amount=Amount((2,), plain.span))
    return replace(plain, stitch=f"{plain.stitch}2tog", legs=2, target=pair)


def _in_each(plain: Make, places: int, more: int) -> list[Node]:
    each, extra = divmod(places + more, places)
    target = plain.target
    assert target is not None
    every = replace(target, which=Which.EACH)
    result: list[Node] = []
    for number, where in ((each + 1, extra), (each, places - extra)):
        if where:
            some = replace(every, amount=Amount((where,), plain.span))
            result.append(replace(_doubled(plain, number), target=some))
    return result


def _amount(number: int, node: Evenly) -> Amount:
    return Amount((number,), node.span)
