"""The openings that a round leaves when it divides: stitches skipped, under a chain or not.

A sleeve or thumb goes round one of them: over the stitches that were skipped, and along the
other side of the chain that was made over them.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import (
    Amount,
    InOnePlace,
    Make,
    Node,
    Remark,
    Repeat,
    Skip,
    Tail,
    Target,
    Which,
    Yarn,
)
from hookwright.working.corner_spaces import corner_space
from hookwright.working.count import Count
from hookwright.working.fabric import Edge, Row, Stitch, is_space, space, top, underside
from hookwright.working.sequence import Line, Piece, Run
from hookwright.working.sequence import Repeat as Repeated
from hookwright.working.sides import placed_in

FEWEST = 3
"""Fewer stitches skipped under a chain are lace."""
FEWEST_WITHOUT_CHAIN = 5
MOST = 4
_ENDS = 2
_NAMES = frozenset("underarm underarms armhole armholes armpit".split())


class Opening(Struct, frozen=True):
    """Stitches skipped by a round, and the chains made over them.

    Attributes:
        skipped: How many stitches.
        chains: The chains over them.
        stitch: What the stitches are.
        corner: The chains of the spaces at its ends, skipped or worked into; 0 for none.
    """

    skipped: Count
    chains: int
    stitch: str
    corner: int = 0

    def edges(self, *, with_spaces: bool, begun: Sequence[int] = ()) -> list[Edge]:
        """The opening as a round, begun at the one or the other end of its chain.

        Args:
            with_spaces: Whether the spaces at its ends are worked into.
            begun: Behind how many of its chains it may be begun, where that is told.
        """
        stitches = Edge((Run(top(self.stitch), self.skipped),))
        if self.corner and with_spaces:
            corner = Edge((Run(space(self.corner)),))
            stitches = corner.then(stitches).then(corner)
        if not self.chains:
            return [stitches.round()]
        chain, under = underside(self.chains), Edge((Run(space(self.chains)),))
        cut = [n for n in dict.fromkeys(begun) if 0 < n < self.chains]
        return [
            *(
                underside(self.chains - n).then(stitches).then(underside(n)).round()
                for n in cut
            ),
            chain.then(stitches).round(),
            stitches.then(chain).round(),
            *([stitches.then(under).round()] if with_spaces else []),
            stitches.round(),
        ]


def openings_in(row: Row, below: Edge, stitch: str) -> tuple[Opening, ...]:
    """The openings that a row leaves in the edge below it, each kind of them once."""
    found = list(_found(row.line, stitch))
    if not found:
        return ()
    chains = corner_space(below.line)
    told = (replace(one, corner=chains) if one.corner else one for one in found)
    return tuple(dict.fromkeys(told))


def names_spaces(nodes: Sequence[Node]) -> bool:
    """Whether a row round an opening goes into spaces too, those at its ends."""
    return any(target.noun in ("sp", "corner") for target in placed_in(nodes))


def with_openings(
    before: tuple[Opening, ...], found: tuple[Opening, ...]
) -> tuple[Opening, ...]:
    """The openings at hand once a row has left some more: the widest of them."""
    if not found:
        return before
    every = dict.fromkeys((*found, *before))
    widest = sorted(every, key=lambda opening: -_whole(opening.skipped))
    return tuple(widest[:MOST])


def openings_meant(openings: tuple[Opening, ...], more: int) -> tuple[Opening, ...]:
    """The openings, and as they are if a round has skipped so many stitches too few.

    That is in one of them, or in each of two.
    """
    halves = [more // 2] if not more % 2 else []
    meant = [
        replace(opening, skipped=opening.skipped + change)
        for change in (more, *halves)
        for opening in openings
        if _whole(opening.skipped) + change > 0
    ]
    return tuple(dict.fromkeys((*openings, *meant)))


def _found(line: Line[Stitch], stitch: str) -> Iterator[Opening]:
    """The openings of a row; 1 for the chains at its corners, where it has any."""
    skipped: Count = 0
    chains = spaces = 0
    in_space = False
    for piece in line:
        if isinstance(piece, Repeated):
            yield from (found for found in _found(piece.body, stitch) if found.chains)
            continue
        if isinstance(piece, Run) and _is_left(piece.item):
            skipped = skipped + piece.item.passes * piece.times
            spaces += piece.item.spaces
            continue
        if isinstance(piece, Run) and piece.item.kind in ("ch", "tch"):
            chains = max(
                (head.chains for head in piece.item.heads if is_space(head)), default=0
            )
            continue
        before, in_space = in_space, _is_in_space(piece)
        if skipped >= (FEWEST if chains else FEWEST_WITHOUT_CHAIN):
            ends = spaces == _ENDS or (before and in_space)
            yield Opening(skipped, chains, stitch, int(ends))
        skipped, chains, spaces = 0, 0, 0
    if skipped >= (FEWEST if chains else FEWEST_WITHOUT_CHAIN):
        yield Opening(skipped, chains, stitch, int(spaces == _ENDS))


def _is_in_space(piece: Piece[Stitch]) -> bool:
    """ "Dc in ch-2 sp, ch 4, skip 30 dc, dc in next sp": beside the stitches skipped."""
    return isinstance(piece, Run) and bool(piece.item.spaces)


def _is_left(stitch: Stitch) -> bool:
    """Whether places are left by word; a corner space beside them is in silence."""
    return stitch.kind == "skip" or (stitch.kind == "pass" and not stitch.passes)


def goes_round_opening(nodes: Sequence[Node]) -> bool:
    """Whether a row speaks of stitches skipped earlier, or of an underarm."""
    if any(isinstance(node, Skip) for node in nodes):
        return False
    if any(target.which is Which.SKIPPED for target in placed_in(nodes)):
        return True
    joined = (node.target for node in nodes if isinstance(node, Yarn))
    if any(target is not None and target.which is Which.SKIPPED for target in joined):
        return True
    return any(
        not _NAMES.isdisjoint(node.words.lower().split())
        for node in nodes
        if isinstance(node, Remark)
    )


def is_as_wide(nodes: Sequence[Node], opening: Opening, size: int) -> bool:
    """Whether a row takes as many chains and stitches as an opening has, and tells both."""
    numbers: dict[bool, list[int | None]] = {True: [], False: []}
    for target in placed_in(nodes):
        chain = target.noun in ("ch", "underside")
        if target.amount is not None:
            numbers[chain].append(target.amount.at(size))
        elif chain and target.which is Which.NEXT:
            numbers[chain].append(1)
    chains = sum(number or 0 for number in numbers[True])
    begun = int(_begins_in(nodes, opening, size))
    told = bool(numbers[True]) and chains in (opening.chains, opening.chains - begun)
    return told and numbers[False] == [opening.skipped]


def _begins_in(nodes: Sequence[Node], opening: Opening, size: int) -> bool:
    """ "Join yarn in the first (of the 4) underarm ch": a chain stands on this one."""
    named = _joined_in(nodes)
    if named is None or named.noun != "ch":
        return False
    number = named.amount.at(size) if named.amount else None
    which = (Which.FIRST, Which.NTH, Which.CENTRE)
    return number == opening.chains or (number is None and named.which in which)


def _joined_in(nodes: Sequence[Node]) -> Target | None:
    """Where the yarn is joined, if that is told."""
    yarns = (node for node in nodes if isinstance(node, Yarn) and node.target is not None)
    return next((yarn.target for yarn in yarns), None)


def begun_behind(nodes: Sequence[Node], opening: Opening, size: int) -> tuple[int, ...]:
    """ "In the 3rd underarm ch", "in the centre ch": how many of its chains come last."""
    named = _joined_in(nodes)
    if named is None or named.noun not in ("ch", "underside"):
        return ()
    if named.which is Which.NTH:
        return (named.nth(size) - 1,)
    middle = opening.chains // 2
    return (middle, middle - 1) if named.which is Which.CENTRE else ()


def round_opening(nodes: Sequence[Node], opening: Opening) -> list[Node]:
    """The instructions with the skipped stitches as so many in a row."""
    return [_without_skipped(node, opening) for node in nodes]


def _without_skipped(node: Node, opening: Opening) -> Node:
    if isinstance(node, (Repeat, Tail)):
        return replace(node, body=tuple(round_opening(node.body, opening)))
    if isinstance(node, Yarn) and not node.standing:
        return replace(node, target=None)
    if not isinstance(node, (Make, InOnePlace)) or node.target is None:
        return node
    target = node.target
    if target.noun in ("ch", "underside") and target.which is Which.EACH:
        chains = target.amount or Amount((opening.chains,), target.span)
        return replace(node, target=Target("ch", Which.EACH, target.span, chains))
    if (
        target.noun in ("gap", "corner") and target.amount is None
    ):  # beside the stitches: a stitch more
        return replace(node, target=Target("st", Which.SAME, target.span))
    if target.which is not Which.SKIPPED:
        return node
    number = target.amount or Amount((_whole(opening.skipped),), target.span)
    if isinstance(node, Make) and not target.amount and _same(node.amount, number):
        return replace(node, target=None)  # "10 sc in the skipped sts"
    return replace(node, target=Target("st", Which.EACH, target.span, number))


def _same(some: Amount | None, others: Amount) -> bool:
    return some is not None and some.values == others.values


def _whole(number: Count) -> int:
    return number if isinstance(number, int) else 0
