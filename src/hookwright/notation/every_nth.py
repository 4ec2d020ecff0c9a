"""Every second place, or third: "sc in every other st" is a stitch, and one passed by."""

from __future__ import annotations

from collections.abc import Iterable

from msgspec.structs import replace

from hookwright.notation.tree import (
    Amount,
    InOnePlace,
    Make,
    Node,
    Often,
    Repeat,
    Skip,
    Target,
    Times,
    Which,
)


def every_nth(nodes: Iterable[Node]) -> tuple[Node, ...]:
    """The instructions of a row, those for every second place written out as a repeat."""
    return tuple(_written_out(node) for node in nodes)


def _written_out(node: Node) -> Node:
    if isinstance(node, Repeat):
        return replace(node, body=every_nth(node.body))
    target = node.target if isinstance(node, (Make, InOnePlace)) else None
    if target is None or not _is_every_nth(target):
        return node
    span = target.span
    passed = Amount(((target.ordinal or 2) - 1,), span)
    one = replace(target, which=Which.NEXT, ordinal=None, until=None, amount=None)
    skip = Skip(Target(target.noun, Which.NEXT, span, passed, target.chains), span)
    body = (replace(node, target=one), skip)
    return Repeat(body, _as_far_as(target.until, target), node.span)


def _is_every_nth(target: Target) -> bool:
    every = target.which is Which.EACH and target.of is None and not target.also
    return every and target.noun not in ("gap", "corner") and (target.ordinal or 0) > 1


def _as_far_as(until: Target | None, target: Target) -> Times:
    """To the end, or to what is told to be left."""
    if until is None or until.which is not Which.LAST:
        return Times(Often.ACROSS, target.span)
    left = until.amount or Amount((1,), until.span)
    return Times(Often.TO_LAST, target.span, left, until.noun)
