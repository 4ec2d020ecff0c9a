"""Which stretches of a round are left for the sleeves of a garment?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from msgspec import Struct

from hookwright.shape.columns import Truth
from hookwright.shape.graph import FabricGraph, Joint, Laid

_FEWEST_LEFT = 6
"""Stitches of a sleeve, at least: shorter stretches that are passed over are lace."""
_SHARE_LEFT = 0.06
"""The same of a round."""
_SLEEVES = 2
_SHORTEST = 3
"""Rounds of a yoke, at least, its neck among them."""
_ONCE = 1.6
_LEAST_GROWN, _MOST_GROWN = 1.2, 8.0
"""By how many times a yoke grows from the neck to the underarms, at least and at most."""


class Left(Struct, frozen=True):
    """A stretch of a round that nothing is worked into.

    Attributes:
        course: The round, by its place among the rows of the piece.
        first: The number of its first stitch in the round.
        number: How many stitches it is.
    """

    course: int
    first: int
    number: int

    @property
    def middle(self) -> int:
        """The number of its middle stitch; it may be past the end of the round."""
        return self.first + self.number // 2


def sleeves_left(graph: FabricGraph) -> tuple[Left, Left] | None:
    """What is left for two sleeves by a yoke that is worked from the neck down."""
    found = [
        left
        for at, course in enumerate(graph.courses[:-1])
        if course.closed and course.row and graph.courses[at + 1].closed
        for left in stretches_left(graph, at)
    ]
    if len(found) != _SLEEVES or found[0].course != found[1].course:
        return None
    if not _widens_from_a_neck(graph.courses[: found[0].course + 1]):
        return None
    return found[0], found[1]


def stretches_left(graph: FabricGraph, at: int) -> list[Left]:
    """The longer stretches of a round into which nothing is worked, if anything is."""
    course = graph.courses[at]
    worked = np.zeros(graph.size, dtype=bool)
    worked[graph.leg[:, 1]] = True
    worked[graph.edge[graph.joint == int(Joint.STITCH)].min(axis=1)] = True
    begun = worked[course.nodes]
    if not begun.any():
        return []
    fewest = max(_FEWEST_LEFT, _SHARE_LEFT * course.number)
    return [Left(at, first, number) for first, number in _runs(~begun) if number >= fewest]


def _widens_from_a_neck(yoke: Sequence[Laid]) -> bool:
    """Whether rounds grow from an open ring: not those of a bag with holes for hands."""
    if len(yoke) < _SHORTEST:
        return False
    neck, first, last = yoke[0].number, yoke[1].number, yoke[-1].number
    once = first < _ONCE * neck  # a bag goes round both sides of its chain
    return once and _LEAST_GROWN < last / neck < _MOST_GROWN


def _runs(holds: Truth) -> Iterator[tuple[int, int]]:
    """Where something holds round a ring: where each stretch begins, and how long it is."""
    begins = int(np.flatnonzero(~holds)[0])
    turned = np.roll(holds, -begins).astype(np.int8)
    change = np.flatnonzero(np.diff(turned, prepend=0, append=0))
    for first, end in change.reshape(-1, 2):
        yield int(first) + begins, int(end - first)
