"""Every instruction of a row, those within repeats and brackets too."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TypeGuard

from hookwright.notation.tree import DEEPEST, InOnePlace, Make, Node, Repeat, Tail

_GROUPS = frozenset((Repeat, InOnePlace, Tail))


def is_group(node: Node) -> TypeGuard[Repeat | InOnePlace | Tail]:
    """Whether an instruction holds others. It is asked of every one of them."""
    return type(node) in _GROUPS


def is_too_deep(nodes: Sequence[Node]) -> bool:
    """Whether groups stand in one another deeper than they may."""
    waiting = [(node, 1) for node in nodes if is_group(node)]
    while waiting:
        group, depth = waiting.pop()
        if depth > DEEPEST:
            return True
        waiting.extend((one, depth + 1) for one in group.body if is_group(one))
    return False


def nested(nodes: Sequence[Node]) -> Iterator[Node]:
    """Each node in written order, what a group holds right behind the group."""
    waiting = list(reversed(nodes))
    while waiting:
        node = waiting.pop()
        yield node
        if is_group(node):
            waiting.extend(reversed(node.body))


def makes_in(nodes: Sequence[Node]) -> Iterator[Make]:
    """The stitches among some instructions, those within groups too."""
    return (node for node in nested(nodes) if isinstance(node, Make))
