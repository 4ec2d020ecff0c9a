"""What does a list of instructions come to, where it is what a stitch is made of?"""

from __future__ import annotations

from collections.abc import Sequence
from typing import TypeGuard

from msgspec.structs import replace

from hookwright.notation.lexer import Kind, Token
from hookwright.notation.tree import (
    Chain,
    Definition,
    FinishOff,
    InOnePlace,
    Join,
    Make,
    Node,
    Recall,
    Repeat,
    Skip,
    Target,
    Turn,
    Which,
    Yarn,
)
from hookwright.source import Span


def as_crossed(
    names: tuple[str, ...], nodes: tuple[Node, ...], span: Span
) -> Definition | None:
    """ "Sk next st, dc in next st, dc in skipped st": stitches that pass one another."""
    work = [n for n in nodes if isinstance(n, (Make, Chain, InOnePlace, Repeat, Skip))]
    makes = [node for node in work if isinstance(node, Make)]
    skips = [node for node in work if isinstance(node, Skip)]
    back = [n for n in makes if n.target and n.target.which is Which.SKIPPED]
    if not skips or not back or len(makes) + len(skips) != len(work):
        return None
    passed: list[Make | Skip] = [*skips, *(n for n in makes if n not in back)]
    passes = sum(_places(node) for node in passed)
    heads = sum(_stitches(node) for node in makes)
    return Definition(names, span, (), passes, heads, stitch=makes[0].stitch)


def _places(node: Make | Skip) -> int:
    target = node.target
    return (target.amount.at(0) or 1) if target and target.amount else 1


def _stitches(node: Make) -> int:
    return max(_places(node), (node.amount.at(0) or 1) if node.amount else 1)


def as_listed(
    names: tuple[str, ...], nodes: tuple[Node, ...], span: Span, body: list[Token]
) -> Definition | None:
    """A definition written as instructions: "(2 dc, ch 2, 2 dc) in one sp"."""
    work = tuple(
        node
        for node in nodes
        if isinstance(node, (Make, Chain, InOnePlace, Repeat))
        and not (isinstance(node, Repeat) and not node.body)
    )
    if not work or all(isinstance(node, Chain) for node in work):
        return None
    if is_block(work) and not any(isinstance(n, (Yarn, Join, Recall)) for n in nodes):
        return Definition(names, span, work, None, stitches_of(work))
    space = _one_space(nodes) or (None if _is_row(nodes) else _space_told_last(work))
    if space is not None:
        bodies = tuple(_unplaced(node) for node in work)
        return Definition(
            names, span, bodies, 1, stitches_of(bodies), in_one_place=True, place=space
        )
    if _is_row(nodes):
        return None
    if len(work) == 1 and isinstance(work[0], InOnePlace):
        return Definition(
            names, span, work[0].body, 1, stitches_of(work[0].body), in_one_place=True,
            place=_own_place(work[0]),
        )  # fmt: skip
    together = _together(names, body, work)
    if together is not None:
        return replace(together, span=span)
    along = tuple(node for node in nodes if node in work or isinstance(node, Skip))
    holed = len(along) > len(work) and any(isinstance(node, Chain) for node in work)
    if holed and any(_goes_to_end(node) for node in work):
        return None  # "Heel opening: ch 9, skip 9 sts, sc in each st to end"
    if holed or _is_sequence(work) or _fills_several(along):
        return Definition(names, span, along, None, sum(map(_stitches_of, along)))
    placed = any(_names_one_place(node) for node in work)
    words = {token.text for token in body}
    one = (
        placed or bool(words & {"same", "one", "each", "together", "into"}) or len(work) > 1
    )
    bodies = tuple(_unplaced(node) for node in work)
    below = work[0].target if len(work) == 1 and isinstance(work[0], Make) else None
    return Definition(
        names, span, bodies, 1, stitches_of(bodies), in_one_place=one,
        place=below if below is not None and below.rows_below else None,
    )  # fmt: skip


def is_begun_cluster(body: Sequence[Node]) -> bool:
    """ "3 ch, tr2tog in same sp": one stitch, and its chain is one of the legs."""
    if len(body) != _CHAIN_AND_CLUSTER:
        return False
    first, other = body
    return isinstance(first, Chain) and isinstance(other, Make) and other.legs > 1


_CHAIN_AND_CLUSTER = 2


def _own_place(listed: InOnePlace) -> Target | None:
    """ "all in the ch-2 sp": a space is named; "all in one stitch" is any place."""
    target = listed.target
    begins = isinstance(listed.body[0] if listed.body else None, Chain)
    if target.rows_below or (begins and target.which is Which.SAME and target.noun == "sp"):
        return target
    if target.noun not in ("sp", "corner"):
        return None
    one = target.amount is not None and target.amount.values == (1,)
    return replace(target, which=Which.NEXT, amount=None if one else target.amount)


def _one_space(nodes: tuple[Node, ...]) -> Target | None:
    """ "Sl st in ch-3 sp of next block, ch 3, 3 dc in same sp": all in the one space."""
    first = nodes[0] if nodes else None
    target = first.target if isinstance(first, Make) else None
    if target is None or target.noun != "sp" or target.which is not Which.NEXT:
        return None
    makes = [node for node in nodes[1:] if isinstance(node, Make)]
    same = all(node.target is None or node.target.which is Which.SAME for node in makes)
    told = all(isinstance(node, (Make, Chain)) for node in nodes)
    again = any(node.target is not None for node in makes)
    one = target.amount is None
    return replace(target, of=None) if same and told and again and one else None


def _space_told_last(work: tuple[Node, ...]) -> Target | None:
    """ "Ch 3, 3 dc in same sp", "sl st, ch 3, 3 dc in ch-3 sp": all of it stands there."""
    *before, last = work
    target = last.target if isinstance(last, Make) else None
    if target is None or target.noun != "sp" or target.amount is not None:
        return None
    slips = isinstance(before[0] if before else None, Make)
    bare = all(isinstance(n, Chain) or (_is_slip(n) and not n.target) for n in before)
    wanted = (Which.SAME, Which.NEXT) if slips else (Which.SAME,)
    return replace(target, of=None) if before and bare and target.which in wanted else None


def _is_slip(node: Node) -> TypeGuard[Make]:
    return isinstance(node, Make) and node.stitch == "sl st"


def is_block(work: tuple[Node, ...]) -> bool:
    """Whether chains are made and worked into: the block that a row begins with."""
    if len(work) < 2 or not isinstance(work[0], Chain):
        return False
    first = work[1]
    slips = isinstance(first, Make) and first.stitch == "sl st"  # a picot
    target = getattr(first, "target", None)
    return target is not None and target.from_hook and not slips


def _is_row(nodes: tuple[Node, ...]) -> bool:
    """Whether the words work a row: a yarn, a ring, a turn, a place from the hook."""
    for node in nodes:
        if isinstance(node, (Yarn, Join, Turn, Recall, FinishOff)):
            return True
        target = getattr(node, "target", None)
        if target is not None and (target.from_hook or target.noun == "ring"):
            return True
        if isinstance(node, Make) and node.stitch == "sl st" and node.target is not None:
            return True
    return False


def _goes_to_end(node: Node) -> bool:
    """Whether a stitch is worked in as many places as there are."""
    target = node.target if isinstance(node, Make) else None
    return target is not None and target.which is Which.EACH and target.amount is None


def _is_sequence(work: tuple[Node, ...]) -> bool:
    """A unit worked along the row, like a mesh: "ch 2, 1 dc in next dc"."""
    placed = [n.target for n in work if isinstance(n, Make) and n.target is not None]
    return len(work) > 1 and any(
        t.which is Which.NEXT and t.noun not in ("st", "sp") and not t.of for t in placed
    )


def _fills_several(work: tuple[Node, ...]) -> bool:
    """ "Solid: dc in each of next 3": one stitch in each of some places, no group."""
    make = work[0] if len(work) == 1 else None
    if not isinstance(make, Make) or make.legs > 1 or make.target is None:
        return False
    several = make.target.amount is not None and make.target.amount.values[0] != 1
    return several and make.target.noun not in ("sp", "gap", "group")


def _together(
    names: tuple[str, ...], body: list[Token], work: tuple[Node, ...]
) -> Definition | None:
    """ "dec: sc2tog", "work next 2 sts together in dc"."""
    words = [token.text for token in body]
    legs = next((node.legs for node in work if isinstance(node, Make) and node.legs > 1), 0)
    one = any(
        a in ("in", "into")
        and b in ("one", "same", "the")
        and (b != "the" or c in ("same", "one"))
        for a, b, c in zip(words, words[1:], words[2:], strict=False)
    ) or not _INDICATED.isdisjoint(words)  # "dc3tog in sp indicated"
    if one and (legs or {"together", "tog"} & set(words)) and "next" not in words:
        return Definition(names, Span(0, 0), (), 1, 1, stitch="cluster")
    drawn = {"together", "tog"} & set(words) or _is_decrease(names)
    if not legs and drawn:
        legs = next(
            (t.value for t in body if t.kind is Kind.NUMBER and 1 < t.value < 20), 0
        )
    worked = [n for n in work if isinstance(n, (Make, InOnePlace)) and not _is_cluster(n)]
    if not legs or len(worked) > 1:
        return None
    return Definition(names, Span(0, 0), (), legs, 1, stitch="together")


def _is_cluster(node: Node) -> bool:
    """The "a cluster" of "a cluster, 2 sts worked together": what it is called besides."""
    return isinstance(node, Make) and node.stitch == "cluster" and node.target is None


_INDICATED = frozenset("indicated directed stated instructed".split())
_DECREASES = frozenset("dec decr decs decrease decreases".split())


def _is_decrease(names: tuple[str, ...]) -> bool:
    """Whether its name says that "crochet two stitches into one" draws them together."""
    return any(not _DECREASES.isdisjoint(name.split()) for name in names)


def _names_one_place(node: Node) -> bool:
    return isinstance(node, Make) and node.target is not None


def _unplaced(node: Node) -> Node:
    return replace(node, target=None) if isinstance(node, Make) else node


def stitches_of(body: tuple[Node, ...]) -> int:
    """How many stitches a list makes."""
    return sum(
        ((node.amount.at(0) or 0) if node.amount else 1)
        for node in body
        if isinstance(node, Make)
    )


def _stitches_of(node: Node) -> int:
    """How many stitches an instruction makes that may go into several places."""
    return _stitches(node) if isinstance(node, Make) else 0
