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

_WORK = frozenset((Make, Chain, Skip, InOnePlace, Repeat, Recall, Evenly))
_WORK_OR_END = _WORK | {Tail, Join}


def is_work(item: Item) -> bool:
    """Whether an item works stitches or passes places over."""
    return type(item) in _WORK


def work_in(nodes: Sequence[Node]) -> bool:
    """Whether some nodes hold any work at all."""
    return any(type(node) in _WORK_OR_END for node in nodes)
