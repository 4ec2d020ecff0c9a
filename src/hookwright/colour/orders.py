"""Several good orders of the stripes that differ from each other.

The first is the best that is found, proven where that can be; each further one differs
from all before it in a third of its pairs of neighbours at least, read from either end.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from random import Random

from msgspec import Struct

from hookwright.colour.exact import (
    Budget,
    best_base,
    cost_of,
    cost_of_breaches,
    looks_at_neighbours,
)
from hookwright.colour.facts import Score
from hookwright.colour.problem import Problem, ahead, score, unfolded
from hookwright.colour.searching import Base, good_base

_TRIES = 5
"""How often a different order is looked for with ever more weight on the difference."""
_STARTS = 2


class Arranged(Struct, frozen=True):
    """A base, how good it is, and whether none is better."""

    base: Base
    score: Score
    proven: bool


def arranged(problem: Problem, wanted: int, seed: int) -> tuple[Arranged, ...]:
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


def best(problem: Problem, random: Random) -> Arranged:
    """The best order that is found, and whether it is proven to be the best."""
    bases = [good_base(problem, random) for _ in range(_STARTS)]
    base = min(bases, key=lambda one: (score(problem, one), one))
    proof = _proven(problem, base) if looks_at_neighbours(problem) else ()
    return Arranged(proof or base, score(problem, proof or base), bool(proof))


def _proven(problem: Problem, base: Base) -> Base:
    """The best base, from a good one; empty where proving it takes too many steps.

    First fewer breaches are sought, then a better worst pair, then the best of all those
    that have neither more breaches nor a worse pair.
    """
    budget = Budget()
    while (reached := score(problem, base)).breaches:
        most = cost_of_breaches(reached.breaches - 1)
        better = best_base(problem, most, None, budget)
        if not better:
            break
        base = better
    most = cost_of_breaches(reached.breaches)
    while better := best_base(problem, most, _harder(problem, reached), budget):
        base, reached = better, score(problem, better)
    return best_base(problem, cost_of(reached), abs(reached.worst), budget)


def _harder(problem: Problem, reached: Score) -> int:
    """The next limit of the differences of neighbours."""
    return reached.worst - 1 if problem.blend else 1 - reached.worst


def pairs_of(problem: Problem, base: Sequence[int]) -> Counter[tuple[int, int]]:
    """The pairs of neighbours of a sequence, whichever end it is read from."""
    stripes = unfolded(base, problem.shape, repeated=problem.repeated)
    behind = ahead(stripes, 1, repeated=problem.repeated)
    return Counter(
        (min(a, b), max(a, b)) for a, b in zip(stripes, behind, strict=False)
    )


def differ(one: Counter[tuple[int, int]], other: Counter[tuple[int, int]]) -> bool:
    """Whether a third of the pairs of neighbours at least are others."""
    return 3 * (one - other).total() >= one.total()


def _different(problem: Problem, random: Random, known: Sequence[Base]) -> Base | None:
    """A good base that differs from those known; None if none was found."""
    pairs = [pairs_of(problem, base) for base in known]

    def accept(base: Base) -> bool:
        own = pairs_of(problem, base)
        return all(differ(own, other) for other in pairs)

    weight = 0.5
    for _ in range(_TRIES):
        base = good_base(problem, random, _shared(problem, pairs, weight), accept)
        if accept(base):
            return base
        weight *= 4
    return None


def _shared(
    problem: Problem, known: Sequence[Counter[tuple[int, int]]], weight: float
) -> list[list[float]]:
    """What it costs to put side by side what lies so in an order that is there already."""
    size = range(len(problem.counts))
    return [
        [weight * sum((min(a, b), max(a, b)) in one for one in known) for b in size]
        for a in size
    ]
