""" "Make a magic circle and work 8 htr into it": the ring is what "it" means."""

from __future__ import annotations

from typing import TypeGuard

from msgspec.structs import replace

from hookwright.notation.place_words import INTO
from hookwright.notation.rebuilding import rebuilt
from hookwright.notation.tree import Make, Node, Remark, Target, Which
from hookwright.notation.work import is_work
from hookwright.source import Span

_RINGS = frozenset("ring loop circle".split())


def into_ring(nodes: tuple[Node, ...]) -> tuple[Node, ...]:
    """A row that begins with a ring of yarn, with "it" and "there" as the ring."""
    begun = next((i for i, node in enumerate(nodes) if is_work(node)), len(nodes))
    rings = [node for node in nodes[:begun] if _makes_ring(node)]
    if not rings:
        return nodes
    told = rings[-1].words.lower().split()[:1]
    rest = _begun_in(nodes[begun:], rings[-1].span) if told[0] in INTO else nodes[begun:]
    return (*nodes[:begun], *rebuilt(rest, _in_ring))


def _begun_in(nodes: tuple[Node, ...], span: Span) -> tuple[Node, ...]:
    """ "In a magic ring: ch 3, 2 dc, ...": the first of them goes into the ring told."""
    at = next((i for i, node in enumerate(nodes) if isinstance(node, Make)), len(nodes))
    first = nodes[at] if at < len(nodes) else None
    if not isinstance(first, Make) or first.target is not None:
        return nodes
    placed = replace(first, target=Target("ring", Which.SAME, span))
    return (*nodes[:at], placed, *nodes[at + 1 :])


def _makes_ring(node: Node) -> TypeGuard[Remark]:
    last = node.words.lower().split()[-1:] if isinstance(node, Remark) else []
    return not _RINGS.isdisjoint(last)


def _in_ring(value: object) -> object:
    here = isinstance(value, Target) and value.noun == "here"
    return replace(value, noun="ring") if isinstance(value, Target) and here else value
