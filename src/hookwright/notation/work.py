"""Which instructions work something, so that a row of them is more than words?"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.notation.fold import Item
from hookwright.notation.tree import (
    Chain,
    Evenly,
    InOnePlace,
    Join,
    Make,
    Node,
    Recall,
    Repeat,
    Skip,
    Tail,
)


def is_work(item: Item) -> bool:
    """Whether an item works stitches or passes places over."""
    return isinstance(item, (Make, Chain, Skip, InOnePlace, Repeat, Recall, Evenly))


def work_in(nodes: Sequence[Node]) -> bool:
    """Whether some nodes hold any work at all."""
    return any(is_work(node) or isinstance(node, (Tail, Join)) for node in nodes)
