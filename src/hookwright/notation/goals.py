"""How often a group is worked "until there are 20 loops", the first ones told by hand?

Groups like it right before it count: "ch 4, dc in 4th ch, [ch 4, dc in 4th ch] until there
are 20 loops" works the bracket 19 times.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from hookwright.notation.times import GOAL, TOTAL
from hookwright.notation.tree import Amount, Chain, InOnePlace, Make, Node, Repeat


def with_goals(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """The nodes of a row with every goal as a number of times."""
    if not any(_has_goal(node) for node in nodes):
        return nodes
    return tuple(
        _settled(node, nodes[:i]) if _has_goal(node) else node
        for i, node in enumerate(nodes)
    )


def _has_goal(node: Node) -> bool:
    return isinstance(node, Repeat) and node.times.noun == GOAL


def _settled(node: Node, before: Sequence[Node]) -> Node:
    assert isinstance(node, Repeat)
    amount = node.times.amount
    made = _number_alike(_shapes(node.body), _shapes(before))
    values = amount.values if amount is not None else ()
    left = tuple(None if value is None else max(0, value - made) for value in values)
    fewer = None if amount is None else Amount(left, amount.span)
    return replace(node, times=replace(node.times, amount=fewer, noun=TOTAL))


def _number_alike(group: list[str], before: list[str]) -> int:
    """How often a group has been worked right before it."""
    number, size = 0, len(group)
    while size and before[len(before) - size :] == group and len(before) >= size:
        before = before[: len(before) - size]
        number += 1
    return number


def _shapes(nodes: Sequence[Node]) -> list[str]:
    """What the nodes that work something make, wherever they make it."""
    work = (node for node in nodes if isinstance(node, (Make, Chain, InOnePlace)))
    return [shape for node in work for shape in _shape_of_each(node)]


def _shape_of_each(node: Make | Chain | InOnePlace) -> Iterator[str]:
    """One for each node; a "ch 5 (tr, ch 1)" is the stitch and the chain beside it."""
    if isinstance(node, Chain) and node.stands:
        yield f"1 {node.stands}"
        if node.stands_chains:
            yield f"{node.stands_chains} ch"
    else:
        yield _shape(node)


def _shape(node: Make | Chain | InOnePlace) -> str:
    if isinstance(node, InOnePlace):
        return f"({' '.join(_shapes(node.body))})"
    name = node.stitch if isinstance(node, Make) else "ch"
    return f"{node.amount or 1} {name}"
