"""Is a row made of slip stitches: a cord, a firm last round, loops that petals stand on?"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.notation.nested import nested
from hookwright.notation.tree import (
    Chain,
    FinishOff,
    InOnePlace,
    Make,
    Node,
    Often,
    Remark,
    Repeat,
    Target,
    Which,
)
from hookwright.source import Span


def is_of_slips(nodes: Sequence[Node]) -> bool:
    """Whether a row is slip stitches and nothing else: a cord, a rib, a firm last round."""
    along = False
    for node in nested(nodes):
        if isinstance(node, InOnePlace):
            return False
        if isinstance(node, Make):
            if node.stitch != "sl st":
                return False
            along = along or (node.target is not None and _is_along(node.target))
    return along


def is_by_turns(nodes: Sequence[Node]) -> bool:
    """Whether slip stitches and others go by turns: "*hdc in next ch, sl st in next"."""
    return any(isinstance(node, Repeat) and _alternates(node.body) for node in nodes)


def _alternates(body: Sequence[Node]) -> bool:
    makes = [node for node in body if isinstance(node, Make)]
    slips = [node for node in makes if node.stitch == "sl st"]
    placed = all(
        node.target is not None and node.target.which is Which.NEXT for node in makes
    )
    return len(makes) == len(body) and 0 < len(slips) < len(makes) and placed


def _is_along(target: Target) -> bool:
    """Whether a target is several places along an edge."""
    several = target.which is Which.EACH or target.amount is not None
    return several and target.noun in ("st", "ch", "sl st")


def is_of_loops(nodes: Sequence[Node]) -> bool:
    """Whether a round is chains held by slip stitches: "*sl st in next sc, ch 5; rep"."""
    makes = (node for node in nested(nodes) if isinstance(node, (Make, InOnePlace)))
    if not all(isinstance(node, Make) and node.stitch == "sl st" for node in makes):
        return False
    return any(_is_loop(node) for node in nodes)


def ends_on_first(nodes: Sequence[Node]) -> bool:
    """Whether the last loop comes back: "sl st in next sc, *ch 4, sl st in next sc; rep".

    The slip stitch told first then holds the first chain and the last one.
    """
    at = next((i for i, node in enumerate(nodes) if _is_loop(node)), 0)
    loop = nodes[at]
    begun = any(isinstance(node, Make) and node.target for node in nodes[:at])
    return (
        begun
        and isinstance(loop, Repeat)
        and loop.times.often is Often.ACROSS
        and isinstance(loop.body[0], Chain)
        and isinstance(loop.body[-1], Make)
        and not any(isinstance(node, Chain) for node in nodes[:at])
    )


def closing_slip(nodes: Sequence[Node]) -> Span | None:
    """Where "ss" stands at the end of "3 ch, *1 tr in next dc; rep from * 6 times, ss"."""
    worked = [node for node in nodes if not isinstance(node, (Remark, FinishOff))]
    last = worked[-1] if worked else None
    if not isinstance(last, Make) or not isinstance(worked[0], Chain):
        return None
    bare = last.stitch == "sl st" and last.target is None and last.amount is None
    return last.span if bare else None


def _is_loop(node: Node) -> bool:
    """A chain and a slip stitch, over and over."""
    if not isinstance(node, Repeat):
        return False
    kinds = {type(inner) for inner in node.body}
    return Chain in kinds and Make in kinds
