"""Is the first group of a row one of those that follow it, with a chain for its beginning?

"Ch 4 (counts as dc and ch 1), dc in same st, *V-st in next st": the chain and the stitch
beside it are a V-st too, and "each V-st" of the next row takes it in.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.tree import Chain, Make, Node, Which
from hookwright.working.fabric import Edge, Place, PlaceKind, is_space
from hookwright.working.groups import groups_named, shape_of
from hookwright.working.nodes import QUIET
from hookwright.working.sequence import Group, Piece, Run

_PIECES = 3


def with_begun_group(edge: Edge, nodes: Sequence[Node]) -> Edge:
    """The edge with its first stitches as one of the named groups that they look like."""
    if not _begins_in_one_place(nodes):
        return edge
    names = groups_named(edge.line)
    begun = _first_pieces(edge) if names else None
    name = names.get(shape_of(begun[0])) if begun is not None else None
    if begun is None or name is None:
        return edge
    return replace(edge, line=(Group(begun[0], name), *begun[1]))


def _first_pieces(
    edge: Edge,
) -> tuple[tuple[Piece[Place], ...], tuple[Piece[Place], ...]] | None:
    """A chain that stands for a stitch, its space, and the stitch beside; and the rest."""
    first, rest = edge.line[:_PIECES], edge.line[_PIECES:]
    if len(first) < _PIECES or not all(isinstance(piece, Run) for piece in first):
        return None
    chain, space, stitch = (piece for piece in first if isinstance(piece, Run))
    begins = chain.item.kind is PlaceKind.TURNING_CHAIN and chain.item.counts
    if not begins or not is_space(space.item) or stitch.item.kind is not PlaceKind.STITCH:
        return None
    if stitch.times == 1:
        return first, rest
    more = replace(stitch, times=stitch.times - 1)
    return (chain, space, replace(stitch, times=1)), (more, *rest)


def _begins_in_one_place(nodes: Sequence[Node]) -> bool:
    """Whether the first stitch goes where the chain before it stands."""
    work = [node for node in nodes if type(node) not in QUIET]
    begun = bool(work) and isinstance(work[0], Chain)
    first = work[1] if begun and len(work) > 1 else work[0] if work else None
    if not isinstance(first, Make) or first.target is None or first.amount is not None:
        return False
    target = first.target
    beside = target.which in (Which.SAME, Which.FIRST) or target.noun == "base"
    return target.from_hook or (begun and beside)
