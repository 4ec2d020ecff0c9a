"""Every instruction of a row, those within repeats and brackets too."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.notation.tree import DEEPEST, InOnePlace, Make, Node, Repeat, Tail

_GROUPS = (Repeat, InOnePlace, Tail)


def is_too_deep(nodes: Sequence[Node]) -> bool:
    """Whether groups stand in one another deeper than they may."""
    waiting = [(node, 1) for node in nodes if isinstance(node, _GROUPS)]
    while waiting:
        group, depth = waiting.pop()
        if depth > DEEPEST:
            return True
        waiting.extend((one, depth + 1) for one in group.body if isinstance(one, _GROUPS))
    return False


def nested(nodes: Sequence[Node]) -> Iterator[Node]:
    """Each node in written order, what a group holds right behind the group."""
    waiting = list(reversed(nodes))
    while waiting:
        node = waiting.pop()
        yield node
        if isinstance(node, _GROUPS):
            waiting.extend(reversed(node.body))


def makes_in(nodes: Sequence[Node]) -> Iterator[Make]:
    """The stitches among some instructions, those within groups too."""
    return (node for node in nested(nodes) if isinstance(node, Make))
