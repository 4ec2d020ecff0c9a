"""Which chains skipped at the hook are loops to work into?

In a piece of blocks worked from corner to corner each row begins with chains of its own,
and the ones skipped at the hook are the side of a new block, into which a later row works:
"ch 6, dc in 4th ch from hook and in next 2 ch", and then "in the ch-3 sp of next block".
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

from hookwright.notation.tree import (
    Chain,
    Definition,
    InOnePlace,
    Make,
    Node,
    Repeat,
    Skip,
    Tail,
)
from hookwright.working import ahead
from hookwright.working.ahead import Ahead
from hookwright.working.fabric import Place, PlaceKind
from hookwright.working.nodes import QUIET, is_from_hook_node
from hookwright.working.steps import Step


def loops_at_hook(
    steps: Iterable[Step], definitions: Iterable[Definition]
) -> frozenset[int]:
    """Lengths of chains skipped at a hook in mid-piece that are named as spaces too."""
    bodies = {name: d.body for d in definitions for name in d.names if d.body}
    rows = [_opened(step.nodes, bodies) for step in steps]
    skipped = {length for row in rows[1:] for length in _skipped(row)}
    if not skipped:
        return frozenset()
    named = {length for row in rows for length in _spaces_named(row)}
    return frozenset(skipped & named)


def only_spaces_of(line: Ahead, lengths: frozenset[int]) -> bool:
    """Whether an edge has spaces, and all of them are the sides of blocks."""

    def is_other(place: Place) -> bool:
        return place.kind is PlaceKind.SPACE and place.chains not in lengths

    spaces = ahead.holds(line, lambda place: place.kind is PlaceKind.SPACE)
    return spaces and not ahead.holds(line, is_other)


def _opened(nodes: Sequence[Node], bodies: Mapping[str, Sequence[Node]]) -> Sequence[Node]:
    """A row with a unit of the writer's own at its start written out."""
    work: list[Node] = [node for node in nodes if not isinstance(node, QUIET)]
    first = work[0] if work else None
    if isinstance(first, Make) and first.stitch in bodies:
        body = [n for n in bodies[first.stitch] if not isinstance(n, QUIET)]
        return [*body, *work[1:]]
    return work


def _skipped(row: Sequence[Node]) -> Iterator[int]:
    """The chains skipped by a row that begins with chains and works into them."""
    if len(row) < 2 or not isinstance(row[0], Chain) or not is_from_hook_node(row[1]):
        return
    target = getattr(row[1], "target", None)
    if target is not None and target.from_hook and target.ordinal:
        yield target.ordinal - 1


def _spaces_named(nodes: Iterable[Node]) -> Iterator[int]:
    for node in nodes:
        if isinstance(node, (Repeat, InOnePlace, Tail)):
            yield from _spaces_named(node.body)
        target = getattr(node, "target", None) if not isinstance(node, Skip) else None
        if target is not None and target.noun == "sp" and target.chains:
            yield target.chains
