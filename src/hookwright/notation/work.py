"""Which instructions work something, so that a row of them is more than words?"""

from __future__ import annotations

from collections.abc import Sequence
from itertools import pairwise

from hookwright.notation.fold import Item
from hookwright.notation.tree import (
    Chain,
    Evenly,
    FinishOff,
    InOnePlace,
    Join,
    Make,
    Node,
    Recall,
    Remark,
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


def up_to_finish(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """The nodes without "12 scallops" of "Break off. Pin out the 12 scallops.": no work."""
    ends = next((i for i, node in enumerate(nodes) if isinstance(node, FinishOff)), None)
    if ends is None:
        return nodes
    spoken = {
        id(thing) for words, thing in pairwise(nodes[ends:])
        if isinstance(words, Remark) and isinstance(thing, Make) and thing.target is None
    }  # fmt: skip
    return tuple(node for node in nodes if id(node) not in spoken) if spoken else nodes
