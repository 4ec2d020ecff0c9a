"""Which one is "the third", of which no more is said?

In a repeat it counts on: "*2 sc, 2 sc into the third*" is the next one. Behind a space it
is another of its kind: "8 sc in the first handle, sc in next 5, 8 sc in the second".
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.tree import InOnePlace, Make, Node, Remark, Skip, Target, Which


def counted_on(body: Sequence[Node]) -> tuple[Node, ...]:
    """The nodes of a repeat, where an ordinal that only counts on means the next place."""
    if not any(_ordinal(node) for node in body):
        return tuple(body)
    result: list[Node] = []
    used: int | None = 0
    for node in body:
        counts = isinstance(node, (Make, Skip)) and _ordinal(node)
        if used is not None and counts == used + 1:
            assert isinstance(node, (Make, Skip))
            assert node.target is not None
            found: Node = replace(
                node, target=replace(node.target, which=Which.NEXT, ordinal=None)
            )
        else:
            found = node
        result.append(found)
        places = places_of(found)
        used = None if used is None or places is None else used + places
    return tuple(result)


def of_one_kind(nodes: Sequence[Node]) -> tuple[Node, ...]:
    """The nodes of a row, where an ordinal goes on with spaces numbered before."""
    result: list[Node] = []
    kind: Target | None = None
    number = 0
    for node in nodes:
        target = node.target if isinstance(node, (Make, InOnePlace)) else None
        found = node
        if target is None:
            pass
        elif kind is not None and _ordinal(node) == number + 1:
            assert isinstance(node, (Make, InOnePlace))
            another = replace(kind, which=Which.NEXT, ordinal=None, span=target.span)
            found, number = replace(node, target=another), number + 1
        elif target.noun in _SPACES and target.amount is None and _number(target):
            kind, number = target, _number(target)
        elif kind is not None and target.noun == kind.noun and target.which is Which.NEXT:
            number += 1
        result.append(found)
    return tuple(result)


_SPACES = frozenset("sp ch gap".split())


def _number(target: Target) -> int:
    """Which of its kind a place is said to be; 0 where nothing is said of it."""
    if target.which is Which.FIRST:
        return 1
    counted = target.which is Which.NTH and not target.from_hook and target.of is None
    return (target.ordinal or 0) if counted else 0


def _ordinal(node: Node) -> int:
    """The 3 of "in the third", of a stitch and of nothing else."""
    target = node.target if isinstance(node, (Make, InOnePlace, Skip)) else None
    if target is None or target.which is not Which.NTH or target.noun != "st":
        return 0
    return 0 if target.from_hook or target.of is not None else target.ordinal or 0


def places_of(node: Node) -> int | None:
    """How many places an instruction uses; None where its words do not tell."""
    if isinstance(node, Remark):
        return 0
    if isinstance(node, Skip):
        return _of(node.target)
    if not isinstance(node, Make):
        return None
    number = node.amount.at(0) if node.amount is not None else 1
    if node.legs > 1:
        return None if number is None else number * node.legs
    return number if node.target is None else _of(node.target)


def _of(target: Target) -> int | None:
    if target.which is Which.SAME:
        return 0
    if target.which is Which.EACH and target.amount is not None:
        return target.amount.at(0)
    if target.which not in (Which.NEXT, Which.FIRST):
        return None
    return target.amount.at(0) if target.amount is not None else 1
