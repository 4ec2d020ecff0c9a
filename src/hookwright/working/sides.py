"""The other edges of a piece: the underside of its foundation and the ends of its rows.

A border names them as it comes to them, so they are laid in front of the hook when named.
A row that names nothing but chains, where the edge on the hook has none, goes along the
underside as a whole.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from functools import lru_cache

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import (
    Amount,
    Evenly,
    InOnePlace,
    Join,
    Make,
    Node,
    Often,
    Remark,
    Repeat,
    Tail,
    Target,
    Times,
    Turn,
    Which,
    Yarn,
)
from hookwright.working import ahead
from hookwright.working.count import Count
from hookwright.working.fabric import Edge, Place, PlaceKind, Row, row_ends, underside
from hookwright.working.sequence import Run, total

UNDERSIDE, ROW_END = "underside", "row end"
_KINDS = {UNDERSIDE: PlaceKind.UNDERSIDE, ROW_END: PlaceKind.ROW_END}


class Sides(Struct, frozen=True):
    """What can be worked into beside the last row.

    Attributes:
        chains: Chains of the foundation that stitches stand in.
        spare: Chains passed before the first stitch, at the far end of the underside.
        rows: Rows worked since the foundation.
        aside: Whether the rows now worked lie along a side, so that they make it no longer.
    """

    chains: Count = 0
    spare: int = 0
    rows: int = 0
    aside: bool = False

    def after(self, passed: int, *, is_round: bool, along_side: bool = False) -> Sides:
        """The sides once a row is worked; `passed` chains were skipped at its start.

        A band along the ends of the rows has rows of its own, which lie across them.
        """
        if is_round and not self.rows and not self.aside:
            return self
        if is_round:
            return Sides(self.chains, self.spare, 0)
        if self.aside or along_side:
            return replace(self, aside=True)
        if self.rows or not passed:
            return Sides(self.chains, self.spare, self.rows + 1)
        return Sides(self.chains - passed, passed, 1)

    def undersides(self) -> list[Edge]:
        """The underside as a whole edge: without the spare chains, or with some of them."""
        if not self.chains:
            return []
        return [underside(self.chains + more) for more in range(min(self.spare, 4) + 1)]

    def places(self, noun: str, asked: int | None) -> Edge | None:
        """The edge that a noun names, with as many places as asked for if it has them."""
        if noun == ROW_END:
            return row_ends(self.rows) if self.rows else None
        if noun != UNDERSIDE or not self.chains:
            return None
        with_spare = self.chains + self.spare
        if isinstance(self.chains, int) and asked and self.chains < asked <= with_spare:
            return underside(asked)
        return underside(self.chains)


NO_SIDES = Sides()


def other_edges(nodes: Sequence[Node]) -> frozenset[str]:
    """The other edges that a row names."""
    named = frozenset(target.noun for target in placed_in(nodes) if target.noun in _KINDS)
    return named | {ROW_END} if any(_goes_along(node) for node in nodes) else named


def _goes_along(node: Node) -> bool:
    """Whether stitches are spread along a side of the piece."""
    if isinstance(node, (Repeat, Tail)):
        return any(_goes_along(inner) for inner in node.body)
    return isinstance(node, Evenly) and node.along == "side"


def passed_at_start(row: Row) -> int:
    """Chains passed before the first stitch of a row."""
    first = row.line[0] if row.line else None
    if isinstance(first, Run) and first.item.kind == "tch":
        return first.item.passes * int(not first.item.feet)
    return 0


def only_chains(nodes: Sequence[Node]) -> frozenset[str]:
    """What a row calls the places it goes into, where it names nothing but chains."""
    nouns = frozenset(target.noun for target in placed_in(nodes))
    if not nouns <= _ALONG_CHAIN:
        return frozenset()
    return nouns | {UNDERSIDE} if begins_under(nodes) else nouns


def is_along_underside(chains: frozenset[str], edge: Edge) -> bool:
    """Whether a row that names such chains only is worked along the foundation."""
    return UNDERSIDE in chains or (bool(chains) and not ahead.holds(edge.line, is_chained))


def begins_under(nodes: Sequence[Node]) -> bool:
    """Whether new yarn is joined in the foundation: "join yarn in any foundation ch"."""
    joined = (node.target for node in nodes if isinstance(node, (Yarn, Join)))
    return any(target is not None and target.noun == UNDERSIDE for target in joined)


def is_told_under(nodes: Sequence[Node]) -> bool:
    """Whether a row says that it goes along the foundation, and into nothing else."""
    nouns = {target.noun for target in placed_in(nodes)}
    return nouns == {UNDERSIDE} or (begins_under(nodes) and nouns <= _ALONG_CHAIN)


_ALONG_CHAIN = frozenset((UNDERSIDE, "ch", "base", "here"))


def is_along_row_ends(nodes: Sequence[Node]) -> bool:
    """Whether a whole row is worked along a side: it names nothing but the ends of rows."""
    nouns = {target.noun for target in placed_in(nodes)}
    return nouns == {ROW_END} or (not nouns and ROW_END in other_edges(nodes))


def goes_by_row_ends(nodes: Sequence[Node]) -> bool:
    """Whether a row goes along one side until its ends run out.

    "*Sc in next row end, 2 sc in next row end; rep from * across" names no number of them.
    """
    if not is_along_row_ends(nodes):
        return False
    ends = [node for node in nodes if isinstance(node, Repeat) and _runs_out(node.times)]
    every = any(t.which is Which.EACH and t.amount is None for t in placed_in(nodes))
    return len(ends) == 1 and bool(placed_in(ends)) and not every


def _runs_out(times: Times) -> bool:
    return times.often in (Often.ACROSS, Often.TO_LAST) and times.until is None


def is_round_opening(nodes: Sequence[Node]) -> bool:
    """Whether a row is worked round a slit or hole: on no row at all."""
    return any(isinstance(node, Evenly) and node.along == "opening" for node in nodes)


def is_both_sides(nodes: Sequence[Node]) -> bool:
    """Whether a row on a chain goes on "along the other side of the chain"."""
    return any(
        _goes_along(node)
        or (
            isinstance(node, Remark)
            and re.search(r"(?:other|opposite) side", node.words.lower())
        )
        for node in nodes
    ) or _is_rotated(nodes)


def _is_rotated(nodes: Sequence[Node]) -> bool:
    """ "Sc in each ch, turn the work upside down, sc in each ch": along the other side."""
    work = [node for node in nodes if not isinstance(node, Remark)]
    turn = next((i for i, node in enumerate(work) if isinstance(node, Turn)), 0)
    before, after = placed_in(work[:turn]), placed_in(work[turn + 1 : turn + 2])
    return any(target.from_hook for target in before) and any(
        target.noun in ("ch", UNDERSIDE) and not target.from_hook for target in after
    )


def is_chained(place: Place) -> bool:
    """Whether a place is a chain, or lies under some."""
    return place.kind in (PlaceKind.CHAIN, PlaceKind.SPACE, PlaceKind.UNDERSIDE)


def chains_told(nodes: Sequence[Node], size: int) -> int | None:
    """Chains that a border goes into: "3 sc in first ch, sc in next 29 chs, 3 in last"."""
    number = 0
    for node in nodes:
        targets = [t for t in placed_in((node,)) if t.noun in ("ch", UNDERSIDE)]
        if not targets:
            continue
        target = targets[0]
        amount = target.amount.at(size) if target.amount is not None else None
        if isinstance(node, Repeat) or (target.which is Which.EACH and amount is None):
            return None
        number += 1 if amount is None else amount
    return number or None


def go_round_to(
    line: ahead.Ahead, sides: Sides, target: Target, size: int, told: int | None = None
) -> ahead.Ahead:
    """The places ahead, with the edge that a target names laid in front of them.

    `told` is how many of its chains the row goes into, where its words tell that.
    """
    kind = _KINDS[target.noun]
    if ahead.holds(line, lambda place: place.kind is kind):
        return line
    asked = told or (target.amount.at(size) if target.amount is not None else None)
    edge = sides.places(target.noun, asked)
    return line if edge is None else (*edge.line, *line)


def under(line: ahead.Ahead, sides: Sides, told: int | None = None) -> ahead.Ahead:
    """The places ahead, with the underside laid in front of them.

    `told` is how many of its chains the row goes into, where its words tell that.
    """
    edge = sides.places(UNDERSIDE, told)
    return line if edge is None else (*edge.line, *line)


def row_ends_first(line: ahead.Ahead) -> tuple[ahead.Ahead, ahead.Ahead]:
    """The ends of rows that lie at the front, and what comes after them."""
    at = 0
    for piece in line:
        if not isinstance(piece, Run) or piece.item.kind is not PlaceKind.ROW_END:
            break
        at += 1
    return line[:at], line[at:]


def with_number(line: ahead.Ahead, target: Target) -> Target:
    """Reads "in each row end": as many as there are, and not what lies beyond them."""
    number = total(line, lambda place: int(on_side(target.noun, place)))
    if not isinstance(number, int) or not number:
        return target
    return replace(target, amount=Amount((number,), target.span))


def is_side(noun: str) -> bool:
    """Whether a noun is one of the other edges."""
    return noun in _KINDS


def on_side(noun: str, place: Place) -> bool:
    """Whether a place lies on the edge that a noun names."""
    return place.kind is _KINDS[noun]


def placed_in(nodes: Sequence[Node]) -> tuple[Target, ...]:
    """The places that the stitches of a row name."""
    return _placed_in(tuple(nodes))


def slipped_in(nodes: Sequence[Node]) -> tuple[Target, ...]:
    """The places that the slip stitches of a row name."""
    return tuple(_slips_in(nodes))


def _slips_in(nodes: Sequence[Node]) -> Iterator[Target]:
    for node in nodes:
        if isinstance(node, (Repeat, Tail)):
            yield from _slips_in(node.body)
        elif isinstance(node, Make) and node.stitch == "sl st" and node.target is not None:
            yield node.target


@lru_cache(maxsize=256)  # asked several times a row, and most rows are like another
def _placed_in(nodes: tuple[Node, ...]) -> tuple[Target, ...]:
    return tuple(_targets_in(nodes))


def _targets_in(nodes: Sequence[Node]) -> Iterator[Target]:
    for node in nodes:
        if isinstance(node, Make) and node.stitch == "sl st":
            continue
        if isinstance(node, (Repeat, Tail)):
            yield from _targets_in(node.body)
        elif isinstance(node, (Make, InOnePlace)) and node.target is not None:
            yield node.target
