"""What does a row leave, by everything that a pattern may count?"""

from __future__ import annotations

from msgspec import Struct

from hookwright.working.count import Count
from hookwright.working.fabric import Edge, Place, PlaceKind, Row, Stitch
from hookwright.working.groups import (
    PAIRS,
    beginnings,
    groups_along,
    has_groups,
    pairs_along,
)
from hookwright.working.hook import QUIET_KINDS
from hookwright.working.sequence import Line, Repeat, Run, tally, total


class Tally(Struct, frozen=True):
    """What a row leaves, by everything a pattern may count.

    Attributes:
        stitches: All stitches.
        beginning: 1 where a beginning chain is one of them.
        spaces: Chain spaces, and the chains in them.
        kinds: Stitches by name.
        lengths: Chain spaces by their number of chains.
        groups: Groups by name and by shape; "" for all of them.
        edge: The edge itself.
        beginning_chains: The chains of the beginning chain.
        beginning_stitch: The stitch it stands for.
        topless: What is made and leaves no top, by name: picots.
        pairs: Groups of two stitches.
    """

    stitches: Count
    beginning: Count
    spaces: Count
    chains: Count
    kinds: dict[str, Count]
    lengths: dict[int, Count]
    groups: dict[str, Count]
    edge: Edge
    beginning_chains: int
    beginning_stitch: str
    topless: dict[str, Count] = {}
    pairs: Count = 0


def tally_of(edge: Edge, row: Row | None = None) -> Tally:
    """Everything along an edge that may be counted, and what its row made beside it."""
    grouped = has_groups(edge.line)
    groups = groups_along(edge.line) if grouped else {}
    pairs = pairs_along(edge.line) if grouped else 0
    if pairs and pairs * 2 == edge.stitches:
        groups[PAIRS] = pairs
    begins = list(beginnings(edge.line))
    lengths = _lengths(edge.line) if edge.spaces else {}
    chains: Count = sum(length * number for length, number in lengths.items())
    return Tally(
        edge.stitches,
        total(edge.line, _beginning_in) if begins else 0,
        edge.spaces,
        chains,
        edge.kinds(),
        lengths,
        groups,
        edge,
        begins[0].chains if begins else 0,
        begins[0].stitch if begins else "",
        {} if row is None else tally(row.line, lambda s: s.kind if _is_topless(s) else ""),
        pairs,
    )


def _beginning_in(place: Place) -> int:
    """How many stitches a place counts as that is a beginning chain."""
    return place.counts if place.kind is PlaceKind.TURNING_CHAIN else 0


def _is_topless(stitch: Stitch) -> bool:
    return not stitch.heads and not stitch.along and stitch.kind not in QUIET_KINDS


def _lengths(line: Line[Place]) -> dict[int, Count]:
    result: dict[int, Count] = {}
    _lengths_into(result, line, 1)
    return result


def _lengths_into(result: dict[int, Count], line: Line[Place], times: Count) -> None:
    for piece in line:
        if isinstance(piece, Run):
            if piece.item.kind is PlaceKind.SPACE:
                chains = piece.item.chains
                result[chains] = result.get(chains, 0) + piece.times * times
        elif isinstance(piece, Repeat):
            _lengths_into(result, piece.body, piece.times * times)
        else:
            _lengths_into(result, piece.body, times)
