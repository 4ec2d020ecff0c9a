"""Do two orders differ in a third of their pairs of neighbours, from whichever end?

Where colours come once it is counted which colours touch. Where they come often, any two
touch somewhere; then orders differ as well if other colours touch in a third of the places.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence

from hookwright.colour.arrangement import Arrangement, ahead, unfolded
from hookwright.colour.facts import Shape

Pair = tuple[int, int]


def pairs_of(problem: Arrangement, base: Sequence[int]) -> list[Pair]:
    """The pairs of neighbours of a sequence, each with the first colour first."""
    stripes = unfolded(base, problem.shape, repeated=problem.repeated)
    behind = ahead(stripes, 1, repeated=problem.repeated)
    return [(min(a, b), max(a, b)) for a, b in zip(stripes, behind, strict=False)]


def differ(problem: Arrangement, one: Sequence[int], other: Sequence[int]) -> bool:
    """Whether a third of the pairs of neighbours at least are others."""
    pairs, others = pairs_of(problem, one), pairs_of(problem, other)
    if 3 * (Counter(pairs) - Counter(others)).total() >= len(pairs):
        return True
    if max(problem.counts) < 2:
        return False
    return all(
        3 * sum(a != b for a, b in zip(pairs, way, strict=True)) >= len(pairs)
        for way in _ways(problem, others)
    )


def _ways(problem: Arrangement, pairs: list[Pair]) -> Iterator[list[Pair]]:
    """The same order as it may be begun: at either end, a ring at any stripe."""
    is_ring = problem.repeated and problem.shape is not Shape.MIRRORED
    for way in (pairs, pairs[::-1]):
        for at in range(len(pairs) if is_ring else 1):
            yield way[at:] + way[:at]
