"""Is the last loop of a round closed by a stitch, so that the next round begins inside it?

"Ch 2, dc in first sc" and "ch 1, hdc in top of beg ch-3" make a loop as long as the others,
and leave the hook at its top: the stitch stands for the rest of its chains, and counts as
none.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec.structs import replace

from hookwright.notation.tree import (
    Amount,
    Chain,
    InOnePlace,
    Join,
    Make,
    Node,
    Repeat,
    Skip,
    Tail,
    Target,
    Which,
)
from hookwright.working.fabric import Edge, PlaceKind
from hookwright.working.nodes import QUIET
from hookwright.working.sequence import Run
from hookwright.working.stitches import facts_of, height

SHORTEST_TALL = 1
"""How many chains the shortest stitch that closes a loop stands for."""


def may_close_loop(nodes: Sequence[Node]) -> bool:
    """Whether a round ends with a stitch that may stand for the end of its last loop."""
    at = _last_work(nodes)
    last = nodes[at] if at is not None else None
    return isinstance(last, Tail) or (last is not None and bool(_closing_stitch(last)))


def with_loop_closed(nodes: Sequence[Node], size: int, terms: str) -> Sequence[Node]:
    """A round whose last loop is told as chains alone, with the stitch as the join."""
    at = _last_work(nodes)
    if at is None:
        return nodes
    last = nodes[at]
    if isinstance(last, Tail):
        body = with_loop_closed((*nodes[:at], *last.body), size, terms)[at:]
        if tuple(body) == last.body:
            return nodes
        return [*nodes[:at], replace(last, body=tuple(body)), *nodes[at + 1 :]]
    stitch = _closing_stitch(last)
    loop = at - 1
    while loop > 0 and isinstance(
        nodes[loop], Skip
    ):  # "ch 2, sk last 2 dc, dc in first sc"
        loop -= 1
    before = nodes[loop]
    if isinstance(last, Join) and stitch and not _ends_in_chain(before):
        return _with_whole_loop(nodes, at, height(stitch, terms), size)
    if not stitch or not isinstance(before, Chain):
        return nodes
    own = before.amount.at(size) or 0
    tall = max(SHORTEST_TALL, height(stitch, terms))
    others = [n for n in _lengths(_between(nodes[:loop]), size) if n > own]
    near = [n for n in others if n <= own + tall + 1]
    if not others:
        return nodes
    whole = Chain(Amount((min(near, default=max(others)),), before.span), before.span)
    join = Join(last.span, getattr(last, "target", None), stitch)
    return [*nodes[:loop], whole, *nodes[loop + 1 : at], join, *nodes[at + 1 :]]


def _with_whole_loop(
    nodes: Sequence[Node], at: int, tall: int, size: int
) -> Sequence[Node]:
    """ "(Ch 2, 3 dc in ring) 3 times, join with hdc": the join is a whole loop."""
    join = nodes[at]
    others = list(_lengths(_between(nodes[:at]), size))
    near = min(others, default=0, key=lambda length: abs(length - tall))
    if not near or abs(near - tall) > 1:
        return nodes
    loop = Chain(Amount((near,), join.span), join.span)
    return [*nodes[:at], loop, *nodes[at:]]


def _ends_in_chain(node: Node) -> bool:
    if isinstance(node, (Repeat, InOnePlace, Tail)):
        return bool(node.body) and _ends_in_chain(node.body[-1])
    return isinstance(node, Chain)


def _last_work(nodes: Sequence[Node]) -> int | None:
    """Where the last instruction stands that works anything."""
    for at in range(len(nodes) - 1, 0, -1):
        if type(nodes[at]) not in QUIET and not _only_says_so(nodes[at]):
            return at
    return None


def _only_says_so(node: Node) -> bool:
    """ "Hdc in first sc to join": the words behind the stitch name no place."""
    return isinstance(node, Join) and node.target is None and node.stitch == "sl st"


def _closing_stitch(node: Node) -> str:
    """The stitch that closes a round into its beginning; "" for a slip stitch or none."""
    if isinstance(node, Join):
        return "" if node.stitch == "sl st" or node.to_ring else node.stitch
    if not isinstance(node, Make) or node.target is None:
        return ""
    single = node.amount is None or node.amount.values == (1,)
    plain = facts_of(node.stitch, node.legs, {}).family == "plain"
    return node.stitch if single and plain and _to_beginning(node.target) else ""


def _to_beginning(target: Target) -> bool:
    if target.noun in ("sp", "gap", "corner", "ring", "made", "group") or target.amount:
        return False
    chain = target.noun == "ch" and target.ordinal is not None and not target.from_hook
    return target.noun in ("tch", "base") or target.which is Which.FIRST or chain


def _between(nodes: Sequence[Node]) -> Sequence[Node]:
    """The instructions without the chain that a round begins with."""
    first = next((i for i, node in enumerate(nodes) if type(node) not in QUIET), None)
    begins = first is not None and isinstance(nodes[first], Chain)
    return nodes[first + 1 :] if begins and first is not None else nodes


def _lengths(nodes: Sequence[Node], size: int) -> Iterator[int]:
    """The lengths of all chains in some instructions."""
    for node in nodes:
        if isinstance(node, Chain):
            yield node.amount.at(size) or 0
        elif isinstance(node, (Repeat, InOnePlace, Tail)):
            yield from _lengths(node.body, size)


def is_loop_closed(nodes: Sequence[Node]) -> bool:
    """Whether a round is closed by a stitch that stands for the end of its last loop."""
    for node in reversed(nodes):
        if isinstance(node, Tail):
            return is_loop_closed(node.body)
        if isinstance(node, Join) and not _only_says_so(node):
            return node.stitch != "sl st"
        if type(node) not in QUIET and not _only_says_so(node):
            return False
    return False


def begun_in_loop(edge: Edge) -> Edge | None:
    """The edge with the loop that was closed last in front; None where no loop is last."""
    last = edge.line[-1] if edge.line else None
    if not isinstance(last, Run) or last.item.kind is not PlaceKind.SPACE:
        return None
    if last.times == 1:
        return Edge((last, *edge.line[:-1]), edge.closed)
    others = replace(last, times=last.times - 1)
    return Edge((replace(last, times=1), *edge.line[:-1], others), edge.closed)


def from_loop(nodes: Sequence[Node]) -> Sequence[Node]:
    """A round that begins in the loop just closed, as if it slipped into it first."""
    first = next((node for node in nodes if type(node) not in QUIET), None)
    if first is None or (isinstance(first, Make) and first.stitch == "sl st"):
        return nodes
    if isinstance(first, Join):
        return nodes
    space = Target("sp", Which.NEXT, first.span)
    return [Make("sl st", first.span, target=space), *nodes]
