"""How is a row laid that works back along chains of its own?

"Ch 6, dc in 4th ch from hook and in next 2 ch" at the start of a row is a block beyond its
end; "ch 5, sc in 2nd ch from hook, hdc in next ch" within one is a point. The chain goes
on from the stitch before it, and the edge that the row is worked over then comes along the
chain, from its tip back to that stitch.
"""

from __future__ import annotations

from typing import NamedTuple

import numpy as np
from msgspec.structs import replace

from hookwright.shape.columns import Columns, Whole, before
from hookwright.shape.feet import Base, feet_on
from hookwright.working.row import WorkedRow


class OwnChains(NamedTuple):
    """A row with its own chains among its nodes, and on the edge that it is laid on.

    Attributes:
        base: The edge.
        columns: The row.
        span: (n, 2) where the words of its nodes stand.
        holds: The node that a chain at its start goes on from; None for none.
    """

    base: Base
    columns: Columns
    span: Whole
    holds: int | None


def with_own_chains(
    base: Base, columns: Columns, span: Whole, worked: WorkedRow, size: int, *, begun: bool
) -> OwnChains:
    """A row with its own chains; as it is where it has none, or they are not all alike.

    Args:
        base: The edge that other rows left.
        columns: The row.
        span: (n, 2) where the words of its nodes stand.
        worked: The row as worked.
        size: The number that its first node will have.
        begun: Whether it begins a piece: then it goes back along the foundation first.
    """
    backs = columns.backs[int(begun) :]
    each, odd = divmod(_chains(base, columns, worked), len(backs)) if len(backs) else (0, 0)
    long = each - backs[:, 2]
    if not each or odd or base.ring or not len(base.nodes) or (long < 1).any():
        return OwnChains(base, columns, span, None)
    at_start = not backs[0, :2].any()
    holds = int(base.nodes[0]) if at_start else None
    for number, back in enumerate(backs):
        came = int(long[:number].sum())
        base = _with_chain(
            base, columns, back, (each, came, size), closed=worked.edge.closed
        )
    return OwnChains(base, *_widened(columns, span, backs[:, 0], long), holds)


def _chains(base: Base, columns: Columns, worked: WorkedRow) -> int:
    """How many chains of its own a row works into: what it uses beyond its edge."""
    if not isinstance(worked.left, int) or not isinstance(worked.left_spaces, int):
        return 0
    there = int(base.units.sum()) - worked.left - worked.left_spaces
    return max(0, columns.used - there) if worked.own_chains else 0


def _with_chain(
    base: Base, columns: Columns, back: Whole, made: tuple[int, int, int], *, closed: bool
) -> Base:
    """An edge with one more chain, where the row works back along it.

    `made` is how many chains that is, how many nodes such chains made before, and the
    number of the first node of the row.
    """
    node, used, skipped = back.tolist()
    each, came, size = made
    feet = feet_on(base, columns, closed=closed)
    stood = np.flatnonzero(feet.node < node)
    foot = min(int(feet.at[stood[-1]]), len(base.nodes) - 1) if len(stood) else -1
    top = int(feet.node[stood[-1]]) if len(stood) else node
    tip = came + node + each - skipped - 1
    # From the tip back, to the stitch that it went on from, and down that to its foot.
    way = size + np.arange(tip, came + top - 1, -1)
    way = np.append(way, base.nodes[foot : foot + 1] if foot >= 0 else way[:0])
    here = foot + 1
    place = int(np.searchsorted(before(base.units), used + base.start, side="left"))
    new = here + np.maximum(np.arange(each) - skipped, 0)
    later = base.first[place:]
    one = np.ones(each, dtype=np.int64)
    return replace(
        base,
        nodes=np.concatenate([base.nodes[:here], way, base.nodes[here:]]),
        first=np.concatenate([base.first[:place], new, later + len(way) * (later >= here)]),
        number=np.concatenate([base.number[:place], one, base.number[place:]]),
        units=np.concatenate([base.units[:place], one, base.units[place:]]),
        tips=np.concatenate([base.tips, [[tip, here, each - skipped]]]),
    )


def _widened(
    columns: Columns, span: Whole, at: Whole, long: Whole
) -> tuple[Columns, Whole]:
    """A row with so many chains before some of its nodes, and where their words stand."""
    where = np.repeat(at, long)
    near = np.minimum(where, max(0, columns.size - 1))
    passed = np.append(0, np.cumsum(long))
    foot, first, slip = columns.foot_node, columns.place_first, columns.slips[:, 0]
    wider = replace(
        columns,
        names=(*columns.names, "ch"),
        name=np.insert(columns.name, where, len(columns.names)),
        is_chain=np.insert(columns.is_chain, where, values=True),
        stands=np.insert(columns.stands, where, values=False),
        yarn=np.insert(columns.yarn, where, columns.yarn[near]),
        span=np.insert(columns.span, where, columns.span[near], axis=0),
        foot_node=foot + passed[np.searchsorted(at, foot, side="right")],
        place_first=first + passed[np.searchsorted(at, first, side="right")],
        slips=np.stack(
            [slip + passed[np.searchsorted(at, slip, side="right")], columns.slips[:, 1]],
            axis=1,
        ),
    )
    return wider, np.insert(span, where, span[near], axis=0)
