"""What does a row come to that goes along edges which no row at hand has left?

"Sc in the end of each of the 8 rows, sc in each of the 10 unworked sts of Rnd 5", "ch 8, sc
in 8 sc of first post": where each of them is told with its number, the numbers add up.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.nested import nested
from hookwright.notation.tree import (
    Chain,
    Join,
    Make,
    Node,
    Often,
    Repeat,
    Target,
    Times,
    Which,
    Yarn,
)
from hookwright.working.nodes import QUIET, is_beginning

PIECE = "piece"


class ToldByNumber(Struct, frozen=True):
    """A row with every edge told by its number.

    Attributes:
        places: How many places they have together.
        nodes: The row as worked over those, one after the other.
    """

    places: int
    nodes: tuple[Node, ...]


def told_by_number(nodes: Sequence[Node], size: int) -> ToldByNumber | None:
    """The row over its edges; None where one of them has no number."""
    places = 0
    made: list[Node] = []
    for node in nodes:
        if isinstance(node, Make) and places and _joins(node):
            made.append(node)
        elif isinstance(node, Repeat):
            times = _times(node.times, size)
            inner = told_by_number(node.body, size) if times else None
            if not times or inner is None:
                return None
            places += times * inner.places
            made.append(replace(node, body=inner.nodes))
        elif isinstance(node, Make):
            number = _number(node, size)
            if number is None:
                return None
            places += number
            made.append(_in_next(node))
        elif isinstance(node, (Chain, Join, Yarn)) or type(node) in QUIET:
            made.append(replace(node, target=None) if isinstance(node, Yarn) else node)
        else:
            return None
    return ToldByNumber(places, tuple(made)) if places else None


def _times(times: Times, size: int) -> int | None:
    """How often a repeat is worked, where its words tell that for certain."""
    number = times.amount.at(size) if times.amount is not None else None
    if number is None or times.often not in (Often.TIMES, Often.MORE):
        return None
    return number + (times.often is Often.MORE)


def _joins(node: Make) -> bool:
    """ "Sl st in first sc": the end of a round goes back to its first stitch."""
    target = node.target
    return node.stitch == "sl st" and target is not None and is_beginning(target)


def _number(node: Make, size: int) -> int | None:
    """How many places a stitch is told to go into."""
    target = node.target
    if target is None:
        return node.amount.at(size) if node.amount is not None and node.legs == 1 else None
    if target.until is not None or target.which is Which.SAME:
        return None
    if target.amount is not None:
        return target.amount.at(size)
    return None if target.which is Which.EACH else 1


def _in_next(node: Make) -> Make:
    if node.target is None:
        return node
    several = (
        node.target.which is Which.EACH and node.amount is not None
    )  # 3 sc in each of 8
    which = Which.EACH if several else Which.NEXT
    next_ones = Target("st", which, node.target.span, amount=node.target.amount)
    return replace(node, target=next_ones)


def names_piece(nodes: Sequence[Node]) -> bool:
    """Whether stitches are told to be those of a piece made before: "of first post"."""
    targets = (getattr(node, "target", None) for node in nested(nodes))
    return any(t is not None and t.of is not None and t.of.noun == PIECE for t in targets)
