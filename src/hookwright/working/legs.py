"""Two legs joined into one round: round the one, along a chain, round the other, and back.

"Ch 3, sc around first leg, sc in each ch, sc around second leg, sc along the other side of
the chain": the words name each stretch, and what they come to is a round over all of them.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from itertools import pairwise

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import (
    Amount,
    Chain,
    InOnePlace,
    Join,
    Make,
    Node,
    Remark,
    Repeat,
    Tail,
    Target,
    Which,
    Yarn,
)
from hookwright.regex import regex
from hookwright.working.count import Count
from hookwright.working.fabric import Edge, top
from hookwright.working.outcome import Outcome
from hookwright.working.sequence import Run
from hookwright.working.sides import UNDERSIDE

LEG, OTHER_SIDE = "leg", "elsewhere"
_LEG_WORD = regex(r"\b(?:legs?|foot|feet)\b", re.IGNORECASE)
_BOTH = regex(r"\b(?:both|two|whole|all)\b", re.IGNORECASE)


class Legs(Struct, frozen=True):
    """Two legs, in the order they were made.

    Attributes:
        first: How many stitches the one ends with.
        second: How many the other does.
        chains: Chains already made on the second, for the bridge between them.
    """

    first: int
    second: int
    chains: int = 0


def legs_at_hand(outcomes: Sequence[Outcome], parts: Sequence[str]) -> Legs | None:
    """The last two legs worked, or one that is made twice; None where nothing is."""
    made = [outcome for outcome in outcomes if outcome.worked is not None]
    second = made[-1] if made else None
    if second is None:
        return None
    chains = outcomes[-1].foundation or 0
    named = [o for o in made if _LEG_WORD.search(parts[o.step.part])]
    others = [o for o in named if o.step.part != second.step.part]
    first = others[-1] if others and second in named else second
    numbers = [o.worked.edge.stitches for o in (first, second) if o.worked is not None]
    if not all(isinstance(number, int) and number for number in numbers):
        return None
    return Legs(_whole(numbers[0]), _whole(numbers[1]), chains)


def _whole(number: Count) -> int:
    return number if isinstance(number, int) else 0


def names_leg(nodes: Sequence[Node]) -> bool:
    """Whether some instructions speak of a leg."""
    return any(_is_of_leg(node) for node in nodes)


def joins_legs(nodes: Sequence[Node]) -> bool:
    """Whether a row is worked from one leg to another, or round both."""
    placed = [node for node in nodes if not isinstance(node, Remark) and _is_of_leg(node)]
    worked = sum(isinstance(node, Make) for node in placed)
    worked += sum(  # "dc 15 round the first leg, ...": the words stand behind the stitch
        isinstance(make, Make) and isinstance(remark, Remark) and _is_of_leg(remark)
        for make, remark in pairwise(nodes)
    )
    joined = any(isinstance(node, Join) for node in placed)
    both = any(
        isinstance(make, Make) and _is_of_leg(remark) and _is_of_both((remark,))
        for make, remark in pairwise(nodes)
    )
    return worked > 1 or both or (joined and any(isinstance(n, Make) for n in nodes))


def _is_of_leg(node: Node) -> bool:
    if isinstance(node, Remark):
        return _LEG_WORD.search(node.words) is not None
    target = getattr(node, "target", None)
    return target is not None and (target.noun == LEG or _of_leg(target))


def _of_leg(target: Target) -> bool:
    return target.of is not None and target.of.noun == LEG


def without_legs(nodes: Sequence[Node]) -> Sequence[Node]:
    """The instructions with "of the first leg" left out: the stitches are what is meant."""
    return [_without_leg(node) for node in nodes] if names_leg(nodes) else nodes


def _without_leg(node: Node) -> Node:
    if isinstance(node, (Make, Yarn, InOnePlace)) and node.target and _of_leg(node.target):
        return replace(node, target=replace(node.target, of=None))
    return node


def around_legs(
    nodes: Sequence[Node], legs: Legs, stitch: str, size: int
) -> tuple[list[Node], Edge] | None:
    """The instructions as so many stitches after the other, and the round they go over.

    None where they are more than stretches along the legs and the chain between them.
    """
    if any(isinstance(node, (InOnePlace, Repeat, Tail)) for node in nodes):
        return None
    bridge = next((node for node in nodes if isinstance(node, Chain)), None)
    line = [node for node in nodes if node is not bridge]
    if any(isinstance(node, Chain) for node in line):
        return None
    chains = (bridge.amount.at(size) or 0) if bridge is not None else legs.chains
    way = _Way([legs.second, legs.first], chains, size)
    result: list[Node] = []
    for at, node in enumerate(line):
        if isinstance(node, Make):
            result.extend(way.stretch(node, line[at + 1 :]))
        elif isinstance(node, Join) and at < len(line) - 1:
            if node.stitch != "sl st":  # "join to first leg with sc"
                result.append(Make(node.stitch, node.span))
        elif not isinstance(node, Yarn) or node.target is None:
            result.append(node)
    total = legs.first + legs.second + 2 * chains
    return result, Edge((Run(top(stitch), total),), closed=True)


class _Way(Struct):
    """The way round, as far as it is gone.

    Attributes:
        legs: The stitches of the legs still to come, the next one last.
        chains: The chains of the bridge.
        size: Which size is worked.
    """

    legs: list[int]
    chains: int
    size: int

    def stretch(self, make: Make, after: Sequence[Node]) -> list[Node]:
        """One instruction, as stitches in so many places or in all that are left."""
        target = make.target
        if target is None:
            return [make]
        if make.stitch == "sl st":
            return []
        each = target.which is Which.EACH
        if target.amount is not None or (target.noun == "st" and not each):
            return [_in_next(make, target.amount)]
        if target.noun in _CHAIN:
            along = each or make.amount is None
            return [self._over(make, self.chains) if along else replace(make, target=None)]
        if target.noun == LEG:
            whole = self._leg()
            return [self._over(make, whole) if each else replace(make, target=None)]
        rest = not any(isinstance(node, Make) for node in after) or _is_of_both(after[:1])
        return [make if rest else self._over(make, self._leg())]

    def _leg(self) -> int:
        return self.legs.pop() if len(self.legs) > 1 else self.legs[0]

    def _over(self, make: Make, number: int) -> Make:
        return _in_next(make, Amount((number,), make.span))


_CHAIN = frozenset(("ch", UNDERSIDE, OTHER_SIDE))


def _in_next(make: Make, number: Amount | None) -> Make:
    return replace(make, target=Target("st", Which.EACH, make.span, number or _one(make)))


def _one(make: Make) -> Amount:
    return Amount((1,), make.span)


def _is_of_both(nodes: Sequence[Node]) -> bool:
    return any(isinstance(node, Remark) and _BOTH.search(node.words) for node in nodes)
