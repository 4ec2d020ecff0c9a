"""Where does a row go on past a point, and where does the next one stop before it?

In an edging worked sideways a row first fills the loop at its edge, and goes on with a
chain for its first stitch; the row that comes back ends in the top of that chain. Common
practice, no source.
"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.notation.tree import InOnePlace, Make, Node, Skip, Which
from hookwright.working.ahead import Ahead, is_beginning
from hookwright.working.nodes import QUIET
from hookwright.working.sequence import Run, every, split, total


def is_behind_point(nodes: Sequence[Node], at: int) -> bool:
    """Whether a chain is the first stitch of a row, behind the point that it began with.

    "7 sc in ch-5 loop, ch 3, sk first dc, dc in next 3 dc": "first" tells it.
    """
    before = [node for node in nodes[:at] if type(node) not in QUIET]
    after = next((node for node in nodes[at + 1 :] if type(node) not in QUIET), None)
    if not before or not isinstance(after, Skip) or after.target.which is not Which.FIRST:
        return False
    one = after.target.amount is None or after.target.amount.values == (1,)
    return one and all(map(_fills_space, before))


def _fills_space(node: Node) -> bool:
    target = node.target if isinstance(node, (Make, InOnePlace)) else None
    return target is not None and target.noun == "sp"


def ends_before_point(nodes: Sequence[Node], over: Ahead, rest: Ahead) -> bool:
    """Whether a row ends in the chain it is told to, with a point of the edge beyond it.

    "... dc in top of ch-3, ch 5, sc in same st, turn".

    Args:
        nodes: The row.
        over: The edge it was worked over.
        rest: What is left of that.
    """
    placed = [n.target for n in nodes if isinstance(n, Make) and n.target is not None]
    ends = [target for target in placed if target.which is not Which.SAME][-1:]
    if not ends or ends[0].noun != "tch":
        return False
    halves = split(over, total(over, every) - total(rest, every))
    last = halves[0][-1:] if halves is not None else ()
    return bool(last) and isinstance(last[0], Run) and is_beginning(last[0].item)
