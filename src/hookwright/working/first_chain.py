"""Work into the first of the chains a piece begins with: "ch 4, 4 dc in first ch".

The first chain made is the last one counted from the hook, and all that the row works into
a chain goes into that one.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from hookwright.notation.tree import (
    Amount,
    InOnePlace,
    Make,
    Node,
    Often,
    Repeat,
    Target,
    Which,
)
from hookwright.working.nodes import QUIET


def into_first_chain(nodes: Sequence[Node], chains: int, size: int) -> list[Node] | None:
    """The row with its first place counted from the hook; None where it is another one."""
    if chains < 2:
        return None
    work = [node for node in nodes if type(node) not in QUIET]
    targets = [target for node in nodes for target in _chains_named(node)]
    alone = all(target.which in (Which.FIRST, Which.SAME) for target in targets)
    if not alone or not work or not _goes_first(work[0]):
        return None
    from_hook = replace(targets[0], which=Which.NTH, ordinal=chains, from_hook=True)
    same = replace(targets[0], which=Which.SAME)
    at = nodes.index(work[0])
    further = [_moved(node, same) for node in nodes[at + 1 :]]
    return [*nodes[:at], *_first(work[0], from_hook, same, size), *further]


def is_first_chain(target: Target) -> bool:
    """Whether a place is the first of some chains."""
    return target.noun == "ch" and target.which is Which.FIRST


def _chains_named(node: Node) -> Iterator[Target]:
    """Every chain that a node works into."""
    if isinstance(node, Repeat):
        for inner in node.body:
            yield from _chains_named(inner)
        return
    target = node.target if isinstance(node, (Make, InOnePlace)) else None
    if target is not None and target.noun == "ch":
        yield target


def _goes_first(node: Node) -> bool:
    """Whether a stitch, a group or some workings of it go into the first chain."""
    if isinstance(node, Repeat):
        told = node.times.often is Often.TIMES and len(node.body) == 1
        return told and _goes_first(node.body[0])
    return any(map(is_first_chain, _chains_named(node)))


def _first(node: Node, from_hook: Target, same: Target, size: int) -> list[Node]:
    """What goes in first: of a repeat, the first working finds the place for the others."""
    if not isinstance(node, Repeat):
        return [_moved(node, from_hook)]
    times = (node.times.amount.at(size) if node.times.amount else 1) or 1
    left = replace(node.times, amount=Amount((times - 1,), node.times.span))
    others = replace(node, body=(_moved(node.body[0], same),), times=left)
    return [_moved(node.body[0], from_hook), *([others] if times > 1 else [])]


def _moved(node: Node, place: Target) -> Node:
    """A node with the chain it works into put as another place."""
    if isinstance(node, Repeat):
        return replace(node, body=tuple(_moved(inner, place) for inner in node.body))
    if isinstance(node, (Make, InOnePlace)) and any(_chains_named(node)):
        return replace(node, target=place)
    return node
