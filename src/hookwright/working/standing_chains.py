"""Which beginning chains do the words of the rows take for stitches?

No sentence need say so. A chain is a stitch like the others where its top is joined to or
worked into, and where it stands for the first of a group: "ch 3, 2 dc in same sp, *3 dc in
next sp". Common practice, no source.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence

from hookwright.notation.nested import makes_in, nested
from hookwright.notation.tree import Chain, InOnePlace, Join, Make, Node, Which
from hookwright.working.steps import Step


def standing_chains(steps: Iterable[Step]) -> frozenset[int]:
    """The lengths of chains that the rows take for stitches."""
    found: set[int] = set()
    for step in steps:
        found.update(_tops_used(step.nodes))
        found.update(_first_of_groups(step.nodes))
    return frozenset(found)


def _tops_used(nodes: Sequence[Node]) -> Iterator[int]:
    """ "Join with sl st to top of ch-3", "to 3rd st of ch-5", "hdc in top of ch-2"."""
    for node in nested(nodes):
        target = node.target if isinstance(node, (Make, Join)) else None
        if target is not None and target.noun == "tch" and target.chains is not None:
            yield target.chains


def _first_of_groups(nodes: Sequence[Node]) -> Iterator[int]:
    """Chains before a group in the same place that has one stitch less than all others."""
    for at, chain in enumerate(nodes[:-1]):
        if not isinstance(chain, Chain) or not _is_beside(nodes[at + 1]):
            continue
        makes = list(makes_in(nodes[at + 1 :]))
        begun = makes[0] if makes else None
        others = {_number(m) for m in makes[1:] if begun and m.stitch == begun.stitch}
        if begun is not None and others == {_number(begun) + 1}:
            yield chain.amount.at(0) or 0


def _is_beside(node: Node) -> bool:
    """Whether stitches stand in the place of the chain before them."""
    if isinstance(node, InOnePlace):
        return True
    target = node.target if isinstance(node, Make) else None
    return target is not None and target.which is Which.SAME


def _number(make: Make) -> int:
    return (make.amount.at(0) if make.amount else None) or 1
