"""Is a chain that is worked back into itself a picot, which uses no place and leaves none?

"Ch 3, sl st in 3rd ch from hook", "ch 3, sl st in last sc made", "ch 4, sc in first ch":
chains that are more than the picot takes stay chains, and lie on both sides of it. A cord,
"ch 40, sl st in 2nd ch from hook and in each ch back", hangs on the row in the same way.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import (
    Amount,
    Chain,
    InOnePlace,
    Make,
    Node,
    Remark,
    Repeat,
    Tail,
    Target,
    Which,
)
from hookwright.working.stitches import facts_of, height

PICOT = "picot"


class _Found(Struct, frozen=True):
    """A picot at the beginning of some instructions.

    Attributes:
        nodes: How many of them it takes.
        spare: Chains before it that are no part of it.
    """

    nodes: int
    spare: int


def with_picots(
    nodes: Sequence[Node], size: int, terms: str, *, inside: bool = False
) -> tuple[Node, ...]:
    """Instructions in which every picot that is written out is one stitch.

    `inside` says that they are part of a repeat or group, where no chain begins a row.
    """
    result: list[Node] = []
    at = 0
    worked = inside
    while at < len(nodes):
        begins = not worked and not begins_with_cord(nodes[at:], size)
        near = nodes[at : at + _CORD]
        found = None if begins else _picot(near, size, terms, inside=inside)
        if found is None and at:
            found = _loop_closed(nodes[at - 1], near, size)
        if found is None:
            result.append(_opened(nodes[at], size, terms))
            worked = worked or _is_stitch(result[-1])
            at += 1
            continue
        span = nodes[at].span
        at += found.nodes
        while at < len(nodes) and isinstance(nodes[at], Remark):
            at += 1
        spare, following = found.spare, nodes[at] if at < len(nodes) else None
        if spare and isinstance(following, Chain):  # one space, with the picot on it
            spare += following.amount.at(size) or 0
            at += 1
        if spare:
            result.append(Chain(Amount((spare,), span), span))
        result.append(Make(PICOT, span))
        worked = True
    return tuple(result)


def begins_with_cord(nodes: Sequence[Node], size: int) -> bool:
    """Whether a row along a piece has a tie before it: the cord, and then other work."""
    work = [node for node in nodes[:_CORD] if isinstance(node, (Chain, Make))]
    if len(work) < _CORD or not isinstance(work[0], Chain):
        return False
    back, further = work[1:]
    if not isinstance(back, Make) or back.target is None or not back.target.from_hook:
        return False
    cord = slips_back(back, further, work[0].amount.at(size) or 0, size)
    return cord and any(map(_is_stitch, nodes[_CORD:]))


_CORD = 3
"""The chain of a cord, the slip stitch into its end, and those along it."""


def _is_stitch(node: Node) -> bool:
    """Whether a node makes stitches that no round begins with a slip along."""
    return isinstance(node, Make) and node.stitch != "sl st"


def _opened(node: Node, size: int, terms: str) -> Node:
    """A node with the picots inside it."""
    if isinstance(node, Repeat) and node.split is not None:
        first = with_picots(node.body[: node.split], size, terms, inside=True)
        rest = with_picots(node.body[node.split :], size, terms, inside=True)
        return replace(node, body=(*first, *rest), split=len(first))
    if isinstance(node, (Repeat, InOnePlace, Tail)):
        body = with_picots(node.body, size, terms, inside=True)
        return node if body == node.body else replace(node, body=body)
    return node


def _picot(nodes: Sequence[Node], size: int, terms: str, *, inside: bool) -> _Found | None:
    """The picot that begins here, if one does."""
    if len(nodes) < 2 or not isinstance(nodes[0], Chain) or not isinstance(nodes[1], Make):
        return None
    chain, back = nodes[0], nodes[1]
    length = chain.amount.at(size) or 0
    target = back.target
    if target is None or target.amount is not None or not _is_short(back, terms):
        return None
    if target.from_hook and target.ordinal is not None:
        taken = target.ordinal
        spike = len(nodes) > 2 and _goes_on(nodes[2])
        if spike and slips_back(back, nodes[2], length, size):
            return _Found(3, 0)
        return None if spike or taken > length + 1 else _Found(2, max(0, length - taken))
    closes = not inside and len(nodes) == 2  # "ch 2, sl st in first ch" ends a round
    same = target.which is Which.SAME and _is_called(nodes[2:3])
    back_in = same or (not closes and _is_back(target, inside=inside))
    return _Found(2, 0) if back_in else None


def _loop_closed(before: Node, nodes: Sequence[Node], size: int) -> _Found | None:
    """ "Sc in next st, ch 3, sl st in same st": a loop on it, and no further stitch."""
    if len(nodes) < 2 or not isinstance(before, Make):
        return None
    chain, back = nodes[:2]
    if not isinstance(chain, Chain) or not isinstance(back, Make) or back.target is None:
        return None
    plain = facts_of(before.stitch, before.legs, {}).family == "plain"
    single = back.amount is None and back.target.amount is None
    same = back.target.which is Which.SAME and back.target.noun in ("st", before.stitch)
    closes = plain and single and same and back.stitch == "sl st"
    return _Found(2, chain.amount.at(size) or 0) if closes else None


def _is_short(back: Make, terms: str) -> bool:
    """Whether one slip stitch or sc closes the chain: a taller stitch begins a block."""
    family = facts_of(back.stitch, back.legs, {}).family
    single = back.amount is None or back.amount.values == (1,)
    return single and (
        family == "slip" or (family == "plain" and height(back.stitch, terms) == 1)
    )


def _is_back(target: Target, *, inside: bool) -> bool:
    """Whether a place is the stitch just made, or the first of the chains just made."""
    if target.noun == "made":
        return True
    if target.noun == "ch" and target.which is Which.FIRST:
        return True
    stitch = target.noun not in ("sp", "gap", "tch") and target.of is None
    return inside and target.which is Which.LAST and stitch


def _is_called(after: Sequence[Node]) -> bool:
    """Whether the words right behind call it a picot."""
    return bool(after) and isinstance(after[0], Remark) and PICOT in after[0].words.lower()


def slips_back(back: Make, further: Node, length: int, size: int) -> bool:
    """Whether slip stitches go back along the whole of a chain: a cord, as for a tie."""
    target = further.target if isinstance(further, Make) else None
    if target is None or target.noun != "ch" or target.until is not None:
        return False
    told = target.amount.at(size) if target.amount is not None else None
    begun = (back.target.ordinal if back.target is not None else None) or 0
    if told != length - begun and (told or target.which is not Which.EACH):
        return False
    return isinstance(further, Make) and {back.stitch, further.stitch} == {"sl st"}


def _goes_on(node: Node) -> bool:
    """Whether more is worked down the chain: then it is a leaf or a spike."""
    target = node.target if isinstance(node, Make) else None
    return target is not None and target.noun == "ch" and target.which is not Which.SAME
