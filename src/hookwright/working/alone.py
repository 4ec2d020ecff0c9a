"""Is one bare stitch all that a row tells? It is worked throughout: "Rnd 5: sc; join"."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.place_words import everything
from hookwright.notation.tree import (
    Chain,
    FinishOff,
    Join,
    Loops,
    Make,
    Means,
    Node,
    Remark,
    Turn,
    Yarn,
)
from hookwright.notation.vocabulary import families_of

_BESIDE = (Remark, Turn, Yarn, FinishOff, Loops, Means, Join)
_LONGEST_BEGINNING = 4
"""Chains that a row begins with; more of them are a foundation."""
_RINGS = frozenset("ring loop circle mr mc".split())


def worked_throughout(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """The nodes of a row, with its only stitch in each place where none is told for it."""
    works = [i for i, node in enumerate(nodes) if not _is_beside(node)]
    if len(works) != 1 or any(map(_names_ring, nodes)):
        return nodes
    at = works[0]
    only = nodes[at]
    if not isinstance(only, Make) or only.target or only.amount or only.legs > 1:
        return nodes
    if "plain" not in families_of(only.stitch, {}):
        return nodes
    told = replace(only, target=everything(only.span))
    return (*nodes[:at], told, *nodes[at + 1 :])


def _is_beside(node: Node) -> bool:
    """Whether an instruction works no stitch: a turn, a join, the chain at the start."""
    if isinstance(node, Chain):
        return (node.amount.at(0) or 0) <= _LONGEST_BEGINNING
    slips = isinstance(node, Make) and node.stitch == "sl st"
    return slips or isinstance(node, _BESIDE)


def _names_ring(node: Node) -> bool:
    words = node.words.lower().split() if isinstance(node, Remark) else []
    return not _RINGS.isdisjoint(words)
