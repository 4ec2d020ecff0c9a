"""What does each movement of a row make, and which stitches of the graph are that?

The graph of a fabric holds tops and chains. What has no top is not in it: a beginning chain
that counts as nothing, a join, slip stitches on the way, a picot.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from hookwright.shape.columns import nodes_made
from hookwright.shape.graph import FabricGraph, Laid
from hookwright.working.fabric import WORKED_CHAIN, PlaceKind, Stitch
from hookwright.working.outcome import Outcome
from hookwright.working.sequence import Line, Run

BEGINNING = "tch"


class Move(Struct, frozen=True):
    """One movement of the hook.

    Attributes:
        stitch: What it is.
        first: The first node that it makes, or that is made next.
        nodes: How many nodes it makes.
        place: How much of the edge below was used before it, in `extent`.
    """

    stitch: Stitch
    first: int
    nodes: int
    place: int

    @property
    def is_beginning(self) -> bool:
        """Whether it is the chain a row begins with."""
        return self.stitch.kind == BEGINNING

    @property
    def standing(self) -> int:
        """The chains that stand at a beginning, for a stitch or for none."""
        heads = self.stitch.heads if self.is_beginning else ()
        return sum(head.chains for head in heads if head.kind is PlaceKind.TURNING_CHAIN)

    @property
    def is_slip_on_the_way(self) -> bool:
        """Whether it is a slip stitch that leaves nothing to work into."""
        return self.stitch.kind.startswith("sl st") and not self.nodes


def moves_of(outcome: Outcome, course: Laid) -> list[Move]:
    """The movements of a row, in working order; those that only pass over are left out."""
    worked = outcome.worked
    assert worked is not None
    node, place = course.first, 0
    found = []
    outward = dict(course.own_chains)
    for stitch in _each(worked.row.line):
        own = outward.pop(node - course.first, 0)
        found += [Move(WORKED_CHAIN, node + chain, 1, place) for chain in range(own)]
        node += own
        made = sum(map(nodes_made, stitch.heads))
        if made or stitch.heads or stitch.feet or stitch.kind not in _NOTHING:
            found.append(Move(stitch, node, made, place))
        node += made
        place += stitch.passes + stitch.spaces
    return found


def travelled(graph: FabricGraph, number: int, move: Move) -> int | None:
    """The stitch of the row below that a slip stitch at the start of a row goes into.

    None for a round, and where that is not told by counting the stitches before it.
    """
    course, below = graph.courses[number], graph.courses[number - 1]
    if course.closed or not below.row or below.direction == course.direction:
        return None
    at = move.place + min(0, move.stitch.feet[0].step)
    own = below.nodes[::-1]
    if not 0 <= at < len(own) or graph.is_chain[own[:at]].any():
        return None
    return int(own[at])


_NOTHING = ("skip", "pass", "place")


def _each(line: Line[Stitch]) -> Iterator[Stitch]:
    for piece in line:
        times = getattr(piece, "times", 1)
        for _ in range(times if isinstance(times, int) else 0):
            if isinstance(piece, Run):
                yield piece.item
            else:
                yield from _each(piece.body)
