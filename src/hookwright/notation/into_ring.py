""" "Make a magic circle and work 8 htr into it": the ring is what "it" means."""

from __future__ import annotations

from msgspec.structs import replace

from hookwright.notation.rebuilding import rebuilt
from hookwright.notation.tree import Node, Remark, Target
from hookwright.notation.work import is_work

_RINGS = frozenset("ring loop circle".split())


def into_ring(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """A row that begins with a ring of yarn, with "it" and "there" as the ring."""
    begun = next((i for i, node in enumerate(nodes) if is_work(node)), len(nodes))
    if not any(_makes_ring(node) for node in nodes[:begun]):
        return nodes
    return (*nodes[:begun], *rebuilt(nodes[begun:], _in_ring))


def _makes_ring(node: Node) -> bool:
    last = node.words.lower().split()[-1:] if isinstance(node, Remark) else []
    return not _RINGS.isdisjoint(last)


def _in_ring(value: object) -> object:
    here = isinstance(value, Target) and value.noun == "here"
    return replace(value, noun="ring") if isinstance(value, Target) and here else value
