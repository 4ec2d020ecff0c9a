"""Which chains skipped at the hook are loops to work into?

In a piece of blocks worked from corner to corner each row begins with chains of its own,
and the ones skipped at the hook are the side of a new block, into which a later row works:
"ch 6, dc in 4th ch from hook and in next 2 ch", and then "in the ch-3 sp of next block".
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import pairwise

from hookwright.notation.tree import (
    Chain,
    Definition,
    InOnePlace,
    Make,
    Node,
    Repeat,
    Role,
    Skip,
    Tail,
    Which,
)
from hookwright.working import ahead
from hookwright.working.ahead import Ahead
from hookwright.working.fabric import Place, PlaceKind
from hookwright.working.first_chain import is_first_chain
from hookwright.working.nodes import QUIET
from hookwright.working.steps import Step


def loops_at_hook(
    steps: Iterable[Step], definitions: Iterable[Definition]
) -> frozenset[int]:
    """Lengths of chains skipped at a hook that are worked into as spaces later.

    They are named as spaces, or the foundation is made of such loops. One chain is none.
    """
    bodies = {name: d.body for d in definitions for name in d.names if d.body}
    rows = [_opened(step.nodes, bodies) for step in steps]
    foundation = frozenset(length for row in rows for length in _of_loops(row))
    skipped = {length for row in rows[1:] for length in _skipped(row)}
    if not skipped:
        return foundation
    named = {length for row in rows for length in _spaces_named(row)}
    return foundation | {length for length in skipped & named if length > 1}


def loops_of_groups(steps: Iterable[Step]) -> frozenset[int]:
    """Lengths of beginning chains that are of a group like those along the row.

    "Ch 3, 3 dc in first sc, *sc in next ch-3 sp, ch 3, 3 dc in same sp": each group is a
    loop and three stitches beside it, the first one too.
    """
    rows = [[n for n in step.nodes if type(n) not in QUIET] for step in steps]
    along = {
        group
        for row in rows for node in row if isinstance(node, Repeat)
        for group in map(_of_group, node.body, node.body[1:]) if group
    }  # fmt: skip
    begun = {_of_group(*row[:2], first=True) for row in rows if len(row) > 1}
    return frozenset(group[0] for group in begun if group and group in along)


def _of_group(
    chain: Node, beside: Node, *, first: bool = False
) -> tuple[int, int, str] | None:
    """A chain with several stitches in the place it stands in: "ch 3, 3 dc in same sp"."""
    if not isinstance(chain, Chain) or not isinstance(beside, Make):
        return None
    if chain.role is Role.COUNTS:
        return None
    target, number = beside.target, beside.amount.at(0) if beside.amount else None
    where = (Which.FIRST, Which.SAME) if first else (Which.SAME,)
    if target is None or target.which not in where or target.noun == "ring":
        return None
    if not number or number < _SEVERAL:
        return None
    return chain.amount.at(0) or 0, number, beside.stitch


_SEVERAL = 2


def loops_at_edge(steps: Iterable[Step]) -> frozenset[int]:
    """Lengths of beginning chains that the text calls loops: "1 sc in ch-7 loop".

    Only where no row makes such a chain between its stitches, nor works a stitch on top of
    it beside the loop: "6 dc in ch-5 loop, 1 dc in 3rd st of same ch-5".
    """
    rows = [[n for n in step.nodes if type(n) not in QUIET] for step in steps]
    named = {length for row in rows for length in _spaces_named(row)}
    within = {length for row in rows for length in _chains_within(row[1:-1])}
    within |= {length for row in rows for length in _chains_within(row[:1] + row[-1:], 1)}
    topped = {length for row in rows for length in _topped(row)}
    return frozenset(named - within - topped)


def _topped(row: Sequence[Node]) -> Iterator[int]:
    """Lengths of chains that are worked into at once as a loop and in one chain of it."""
    for loop, top in pairwise(row):
        if not isinstance(loop, Make | InOnePlace) or not isinstance(top, Make):
            continue
        under, over = loop.target, top.target
        if over is None or over.which is not Which.NTH or over.ordinal is None:
            continue
        length = under.chains if under is not None and under.noun == "sp" else None
        same = over.noun == "tch" and over.chains in (None, length)
        if length and same and 1 < over.ordinal < length:
            yield length


def _chains_within(nodes: Iterable[Node], depth: int = 0) -> Iterator[int]:
    """Lengths of the chains among some nodes, or only of those in their lists."""
    for node in nodes:
        if isinstance(node, Chain):
            if not depth:
                yield node.amount.at(0) or 0
        elif isinstance(node, (Repeat, InOnePlace, Tail)):
            yield from _chains_within(node.body)


def _of_loops(row: Sequence[Node]) -> Iterator[int]:
    """Chains skipped by a foundation of loops: "ch 4, dc in 4th ch from hook" on and on."""
    units = [row]
    units += [tuple(node.body) for node in row if isinstance(node, Repeat)]
    repeated = any(map(_is_loop, units[1:]))
    begun = row[:2] if isinstance(row[0] if row else None, Chain) else ()
    rest = row[2:] if begun else row
    only = repeated and all(isinstance(node, Repeat) for node in rest)
    if only and (not begun or _is_loop(begun)):
        for unit in (begun, *units[1:]):
            yield from _skipped(unit)


def _is_loop(unit: Sequence[Node]) -> bool:
    """Whether a chain is closed by one stitch at its beginning: "ch 4, dc in 4th ch"."""
    work = [node for node in unit if type(node) not in QUIET]
    if len(work) != 2 or not isinstance(work[0], Chain) or not isinstance(work[1], Make):
        return False
    target = work[1].target
    if target is None:
        return False
    return target.from_hook or target.noun == "made" or is_first_chain(target)


def only_spaces_of(line: Ahead, lengths: frozenset[int]) -> bool:
    """Whether an edge has spaces, and all of them are the sides of blocks."""

    def is_other(place: Place) -> bool:
        return place.kind is PlaceKind.SPACE and place.chains not in lengths

    spaces = ahead.holds(line, lambda place: place.kind is PlaceKind.SPACE)
    return spaces and not ahead.holds(line, is_other)


def _opened(nodes: Sequence[Node], bodies: Mapping[str, Sequence[Node]]) -> Sequence[Node]:
    """A row with a unit of the writer's own at its start written out."""
    work: list[Node] = [node for node in nodes if type(node) not in QUIET]
    first = work[0] if work else None
    if isinstance(first, Make) and first.stitch in bodies:
        body = [n for n in bodies[first.stitch] if type(n) not in QUIET]
        return [*body, *work[1:]]
    return work


def _skipped(row: Sequence[Node]) -> Iterator[int]:
    """The chains skipped by a row that begins with chains and works into them."""
    if len(row) < 2 or not isinstance(row[0], Chain):
        return
    target = getattr(row[1], "target", None)
    if target is not None and target.from_hook and target.ordinal:
        yield target.ordinal - 1
    elif target is not None and is_first_chain(target):
        yield (row[0].amount.at(0) or 1) - 1


def _spaces_named(nodes: Iterable[Node]) -> Iterator[int]:
    for node in nodes:
        if isinstance(node, (Repeat, InOnePlace, Tail)):
            yield from _spaces_named(node.body)
        target = getattr(node, "target", None) if not isinstance(node, Skip) else None
        if target is not None and target.noun == "sp" and target.chains:
            yield target.chains
