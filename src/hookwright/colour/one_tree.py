"""What does the best round trip through all colours cost at least?

A round trip without one of its colours is a tree, so the cheapest tree with the two
cheapest edges to that colour costs no more. Prices on colours, which every round trip pays
alike, make such a tree dearer where too many of its edges meet, until it is a round trip
itself or comes near to one.

Source: Held and Karp 1970, "The traveling-salesman problem and minimum spanning trees".
"""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

from msgspec import Struct

NEVER = inf
_PATIENCE = 8
_FIRST_STEP, _SHORTER = 2.0, 0.7

Costs = Sequence[Sequence[float]]


class OneTree(Struct, frozen=True):
    """The cheapest tree with one loop, at some prices.

    Attributes:
        bound: What no round trip costs less than.
        edges: Its edges.
        degree: How many of them meet at each colour.
    """

    bound: float
    edges: tuple[tuple[int, int], ...]
    degree: tuple[int, ...]

    @property
    def is_round_trip(self) -> bool:
        """Whether two edges meet at every colour."""
        return all(degree == 2 for degree in self.degree)

    def stops(self) -> list[int]:
        """The colours of a round trip in order, from the first on."""
        beside: list[list[int]] = [[] for _ in self.degree]
        for a, b in self.edges:
            beside[a].append(b)
            beside[b].append(a)
        found, before = [0], -1
        while len(found) < len(self.degree):
            here = found[-1]
            ahead = beside[here][0] if beside[here][0] != before else beside[here][1]
            before = here
            found.append(ahead)
        return found


def one_tree(costs: Costs, prices: Sequence[float]) -> OneTree | None:
    """The cheapest tree with one loop; None where there is none, and so no round trip."""
    size = len(costs)
    near = [NEVER] * size
    parent = [-1] * size
    left = list(range(1, size))
    degree = [0] * size
    edges = []
    bound = -2.0 * sum(prices)
    near[left[0]] = 0.0
    while left:
        here = min(left, key=near.__getitem__)
        if near[here] == NEVER:
            return None
        left.remove(here)
        bound += near[here]
        if parent[here] >= 0:
            edges.append((parent[here], here))
            degree[here] += 1
            degree[parent[here]] += 1
        row, price = costs[here], prices[here]
        for other in left:
            cost = row[other] + price + prices[other]
            if cost < near[other]:
                near[other], parent[other] = cost, here
    first = sorted((costs[0][b] + prices[0] + prices[b], b) for b in range(1, size))[:2]
    if len(first) < 2 or first[1][0] == NEVER:
        return None
    for cost, other in first:
        bound += cost
        edges.append((0, other))
        degree[other] += 1
        degree[0] += 1
    return OneTree(bound, tuple(edges), tuple(degree))


class Bound(Struct, frozen=True):
    """The best bound that was found, with its tree and prices.

    Attributes:
        tree: The tree.
        prices: Its prices.
        rounds: How many trees were looked at.
    """

    tree: OneTree | None
    prices: tuple[float, ...]
    rounds: int


def best_bound(costs: Costs, prices: Sequence[float], upper: float, rounds: int) -> Bound:
    """Raise the bound by changing the prices; no tree where there is no round trip.

    Args:
        costs: What an edge costs; NEVER where there is none.
        prices: Where to begin.
        upper: A bound above that is reason to stop.
        rounds: How many trees may be looked at.
    """
    now = list(prices)
    best: OneTree | None = None
    kept = tuple(now)
    step, waited = _FIRST_STEP, 0
    for number in range(1, rounds + 1):
        tree = one_tree(costs, now)
        if tree is None:
            return Bound(None, kept, number)
        if best is None or tree.bound > best.bound or tree.is_round_trip:
            best, kept, waited = tree, tuple(now), 0
        else:
            waited += 1
            if waited >= _PATIENCE:
                step, waited = step * _SHORTER, 0
        if best.is_round_trip or best.bound > upper:
            return Bound(best, kept, number)
        off = [degree - 2 for degree in tree.degree]
        length = step * max(1.0, upper - tree.bound) / sum(d * d for d in off)
        now = [price + length * d for price, d in zip(now, off, strict=True)]
    return Bound(best, kept, rounds)
