"""Which numbers of a row may be others where the row before it is longer?

A repeat told by its number of times, or a long run of stitches, takes up what is more. What
stands inside a repeat, is skipped, or is worked in one place belongs to the stitch pattern.
"""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence

from hookwright.notation.tree import (
    Amount,
    Instead,
    Make,
    Node,
    Often,
    Repeat,
    Target,
    Which,
)

_BY_NUMBER = (Often.TIMES, Often.MORE, Often.UNCLEAR)
_NEARLY = 2
"""Two runs that differ by no more are the two sides of one thing: "sc in next 8 ch, 3 sc
in last ch, sc in next 7 ch"."""
SHORTEST_RUN = 4
"""A run that is shorter belongs to the edges of a row."""
_LONGER = 2
"""So many times as long as any other is a run that may grow: else the row is a chart."""


def open_numbers(
    nodes: Sequence[Node], size: int, sides: Collection[int] = ()
) -> list[tuple[Amount, ...]]:
    """Groups of numbers of a row that may change together, each one way to let it grow.

    None in a row that is worked on to its end, however long that is, but for the runs of it
    that are as long as a side.

    Args:
        nodes: The row.
        size: Which size.
        sides: How long the edges are that it may be worked along: a border says of a side
            how many stitches that takes.
    """
    runs = list(amounts_of_runs(nodes))
    whole = tuple(amount for amount in runs if _is_side(amount.at(size) or 0, sides))
    if len(whole) > 1 or (whole and goes_on(nodes)):
        return [whole]
    if goes_on(nodes):
        return []
    stars = [n for n in _repeats(nodes) if n.mark.startswith("*")]
    others = [n for n in _repeats(nodes) if not n.mark.startswith("*")]
    groups = [tuple(_times(stars)), *_alike(others), *_longest(runs, size)]
    return [group for group in groups if group]


def amounts_of_runs(nodes: Sequence[Node]) -> Iterator[Amount]:
    """How long the runs of a row are; decreases only where it has no others."""
    makes = [node for node in nodes if isinstance(node, Make)]
    plain = [amount for node in makes if node.legs == 1 for amount in _run(node)]
    others = (amount for node in nodes for amount in _run(node))
    yield from plain or others


def _is_side(number: int, sides: Collection[int]) -> bool:
    """Whether a number is as long as an edge, one stitch at either corner apart."""
    return any(side - 2 <= number <= side for side in sides)


def goes_on(nodes: Sequence[Node]) -> bool:
    """Whether a row is worked on to its end, however long that is."""
    return any(_goes_on(node) for node in nodes)


def has_repeat_across(nodes: Sequence[Node]) -> bool:
    """Whether a group of a row is worked as often as there is room."""
    return any(isinstance(node, Repeat) and _goes_on(node) for node in nodes)


def _goes_on(node: Node) -> bool:
    """Whether a phrase is worked as often as there is room."""
    if isinstance(node, Repeat):
        return node.times.often in (Often.ACROSS, Often.TO_LAST)
    target = node.target if isinstance(node, Make) else None
    return target is not None and target.which is Which.EACH and target.amount is None


def _repeats(nodes: Sequence[Node]) -> Iterator[Repeat]:
    for node in nodes:
        if isinstance(node, Repeat) and node.times.often in _BY_NUMBER:
            yield node


def _times(repeats: Sequence[Repeat]) -> Iterator[Amount]:
    for repeat in repeats:
        if repeat.times.amount is not None:
            yield repeat.times.amount


def _alike(repeats: Sequence[Repeat]) -> list[tuple[Amount, ...]]:
    """Brackets by themselves; those worked equally often together."""
    alike: dict[tuple[int | None, ...], list[Amount]] = {}
    for amount in _times(repeats):
        alike.setdefault(amount.values, []).append(amount)
    return [tuple(amounts) for amounts in alike.values()]


def _longest(runs: list[Amount], size: int) -> list[tuple[Amount, ...]]:
    """The longest run of a row; where two are nearly as long, both together.

    None in a row of many runs: what it spells out is a chart that does not grow.
    """
    runs = sorted(runs, key=lambda amount: -(amount.at(size) or 0))
    lengths = [amount.at(size) or 0 for amount in runs]
    if not runs or lengths[0] < SHORTEST_RUN:
        return []
    number = 2 if len(runs) > 1 and lengths[1] >= lengths[0] - _NEARLY else 1
    others = lengths[number] if len(runs) > number else 0
    return [tuple(runs[:number])] if lengths[0] >= _LONGER * others else []


def _run(node: Node) -> Iterator[Amount]:
    """How many stitches a phrase works in as many places."""
    if isinstance(node, Instead) and node.times is not None:
        yield node.times
    if not isinstance(node, Make):
        return
    if node.target is None:
        amount = node.amount
    elif node.amount is None and _takes_several(node.target):
        amount = node.target.amount
    else:
        amount = None
    if amount is not None:
        yield amount


def _takes_several(target: Target) -> bool:
    return target.which in (Which.NEXT, Which.EACH, Which.FIRST) and not target.last
