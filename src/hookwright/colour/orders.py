"""Several good orders of the stripes that differ from each other.

The first is the best that is found, proven where that can be; each further one differs
from all before it in a third of its pairs of neighbours at least, read from either end.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from random import Random

from msgspec import Struct

from hookwright.colour.arrangement import Arrangement, score
from hookwright.colour.differing import differ, pairs_of
from hookwright.colour.exact import (
    Budget,
    best_base,
    cost_of,
    cost_of_breaches,
    every_base,
    looks_at_neighbours,
)
from hookwright.colour.facts import Score
from hookwright.colour.round_trips import comes_once, proven_round_trip
from hookwright.colour.searching import Base, good_base

_TRIES = 4
"""How often a different order is looked for with ever more weight on the difference."""
_STARTS = 2
_MANY = 15
"""With more colours that come once, what trees do not prove, states prove no more."""
_DEAR = 30.0
"""What it costs in the search that two colours touch which are not to."""


class Arranged(Struct, frozen=True):
    """A base, how good it is, and whether none is better."""

    base: Base
    score: Score
    proven: bool


def arranged(problem: Arrangement, wanted: int, seed: int) -> tuple[Arranged, ...]:
    """So many orders, or as many as there are that differ enough; the best first."""
    random = Random(seed)  # noqa: S311 - chance for looks, not for secrets
    first = best(problem, random)
    found = [first]
    while len(found) < wanted:
        other = _different(problem, random, [one.base for one in found])
        if other is None:
            break
        found.append(Arranged(other, score(problem, other), proven=False))
    return tuple(sorted(found, key=lambda one: (one.score, not one.proven, one.base)))


def best(problem: Arrangement, random: Random) -> Arranged:
    """The best order that is found, and whether it is proven to be the best."""
    base = good_base(problem, random)
    if comes_once(problem) and not score(problem, base).breaches:
        base, proven = proven_round_trip(problem, base)
        if proven:
            return Arranged(base, score(problem, base), proven)
    others = [good_base(problem, random) for _ in range(_STARTS - 1)]
    base = min((base, *others), key=lambda one: (score(problem, one), one))
    base = _bettered(problem, random, base)
    proven = False
    if comes_once(problem) and not score(problem, base).breaches:
        base, proven = proven_round_trip(problem, base)
        if proven or sum(problem.counts) > _MANY:
            return Arranged(base, score(problem, base), proven)
    if looks_at_neighbours(problem):
        base, proven = _proven(problem, base)
    elif every := list(every_base(problem)):
        base, proven = min(every, key=lambda one: (score(problem, one), one)), True
    return Arranged(base, score(problem, base), proven)


def _bettered(problem: Arrangement, random: Random, base: Base) -> Base:
    """The same after looking for orders without pairs as bad as its worst one."""
    size = range(len(problem.counts))
    for _ in range(_STARTS):
        limit = _harder(problem, score(problem, base))
        sign = 1 if problem.blend else -1
        dear = [
            [_DEAR * (sign * problem.difference[a][b] > sign * limit) for b in size]
            for a in size
        ]
        other = good_base(problem, random, dear)
        if score(problem, other) >= score(problem, base):
            break
        base = other
    return base


def _proven(problem: Arrangement, base: Base) -> tuple[Base, bool]:
    """The best base, from a good one, and whether it is proven within the budget.

    First fewer breaches are sought, then a better worst pair, then the best of all those
    that have neither more breaches nor a worse pair.
    """
    budget = Budget()
    while (reached := score(problem, base)).breaches:
        most = cost_of_breaches(reached.breaches - 1)
        better = best_base(problem, most, None, budget)
        if not better or score(problem, better) >= reached:
            break
        base = better
    most = cost_of_breaches(reached.breaches)
    while better := best_base(problem, most, _harder(problem, reached), budget):
        if score(problem, better) >= reached:  # a single stripe has no neighbours
            break
        base, reached = better, score(problem, better)
    best_of_all = best_base(problem, cost_of(reached), abs(reached.worst), budget)
    return best_of_all or base, bool(best_of_all)


def _harder(problem: Arrangement, reached: Score) -> int:
    """The next limit of the differences of neighbours."""
    return reached.worst - 1 if problem.blend else 1 - reached.worst


def _different(problem: Arrangement, random: Random, known: Sequence[Base]) -> Base | None:
    """A good base that differs from those known; None if none was found."""
    pairs = [Counter(pairs_of(problem, base)) for base in known]

    def accept(base: Base) -> bool:
        return all(differ(problem, base, other) for other in known)

    weight = 0.5
    for _ in range(_TRIES):
        base = good_base(problem, random, _shared(problem, pairs, weight), accept)
        if accept(base):
            return base
        weight *= 4
    return None


def _shared(
    problem: Arrangement, known: Sequence[Counter[tuple[int, int]]], weight: float
) -> list[list[float]]:
    """What it costs to put side by side what lies so in an order that is there already."""
    size = range(len(problem.counts))
    return [
        [weight * sum((min(a, b), max(a, b)) in one for one in known) for b in size]
        for a in size
    ]
