"""Every instruction of a row, those within repeats and brackets too."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from hookwright.notation.tree import InOnePlace, Node, Repeat, Tail

_GROUPS = (Repeat, InOnePlace, Tail)


def nested(nodes: Sequence[Node]) -> Iterator[Node]:
    """Each node in written order, what a group holds right behind the group."""
    waiting = list(reversed(nodes))
    while waiting:
        node = waiting.pop()
        yield node
        if isinstance(node, _GROUPS):
            waiting.extend(reversed(node.body))
