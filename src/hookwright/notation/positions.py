"""Which places are told by their numbers: "2 sc in st 1 and in st 26, sc in all the rest"?

What is told of a few numbered places and of all the others is worked in the order in which
they lie: up to the first of them the others, then that one, and so on.
"""

from __future__ import annotations

from collections.abc import Iterator
from itertools import pairwise

from msgspec.structs import replace

from hookwright.notation.tree import Make, Node, Remark, Target, Which


def in_order(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """The nodes of a row, with those told by number put where they lie."""
    numbered = [i for i, node in enumerate(nodes) if _place_of(node)]
    if len(numbered) < _FEWEST:
        return nodes
    first, last = numbered[0], numbered[-1]
    between = [n for n in nodes[first : last + 1] if not isinstance(n, Remark)]
    places = [_place_of(node) for node in between]
    apart = any(b - a > 1 for a, b in pairwise(places))
    if 0 in places or places != sorted(set(places)) or not apart:
        return nodes
    for at in (_next(nodes, last + 1, 1), _next(nodes, first - 1, -1)):
        others = nodes[at] if 0 <= at < len(nodes) else None
        if isinstance(others, Make) and _is_of_all(others):
            made = [node for node in between if isinstance(node, Make)]
            begin, end = min(at, first), max(at, last)
            return (*nodes[:begin], *_laid(made, others), *nodes[end + 1 :])
    return nodes


_FEWEST = 2


def _place_of(node: Node) -> int:
    """Which place of the row a stitch is told to be in; 0 where none is told."""
    target = node.target if isinstance(node, Make) else None
    if target is None or target.noun != "st" or target.of or target.from_hook:
        return 0
    if target.which is Which.FIRST:
        return 1 if target.amount is None else 0
    return (target.ordinal or 0) if target.which is Which.NTH else 0


def _next(nodes: tuple[Node, ...], at: int, step: int) -> int:
    while 0 <= at < len(nodes) and isinstance(nodes[at], Remark):
        at += step
    return at


def _is_of_all(node: Make) -> bool:
    target = node.target
    if target is None or target.which is not Which.EACH or target.noun != "st":
        return False
    told = target.amount or target.until or target.ordinal or target.also
    return not told and (node.amount is None or node.amount.values == (1,))


def _laid(made: list[Make], others: Make) -> Iterator[Node]:
    """The others up to each of the numbered places, and that one; the others to the end."""
    behind = 0
    for one in made:
        assert one.target is not None
        place = _place_of(one)
        if place > behind + 1:
            until = replace(one.target, which=Which.NTH, ordinal=place)
            each = Target("st", Which.EACH, others.span, until=until)
            yield replace(others, amount=None, target=each)
        yield replace(one, target=replace(one.target, which=Which.NEXT, ordinal=None))
        behind = place
    yield others
