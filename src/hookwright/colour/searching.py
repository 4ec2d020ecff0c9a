"""A good order of many stripes, by trying changes; nothing is proven.

Stripes change places, stretches are turned round, and what is better stays; at first also
what is a little worse (annealing, Kirkpatrick, Gelatt and Vecchi 1983). How much is tried
depends on the number of stripes and never on the clock, so that the same seed always gives
the same order.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import exp
from random import Random

from hookwright.colour.facts import Score, Shape
from hookwright.colour.problem import Problem, ahead, score, squares, turns, unfolded

_WORK = 72_000
"""Stripes looked at while annealing."""
_MOST_CHANGES = 3_000
_POLISH = 60_000
"""Stripes looked at while the result is polished."""
_BREACH = 60.0
_HOT, _COLD = 3.0, 0.05

Base = tuple[int, ...]
Cost = Sequence[Sequence[float]]


def good_base(
    problem: Problem,
    random: Random,
    shared: Cost | None = None,
    accept: Callable[[Base], bool] = lambda _: True,
    start: Base = (),
) -> Base:
    """A good base.

    Args:
        problem: What is arranged.
        random: Where chance comes from.
        shared: What it costs besides that two colours touch.
        accept: Which bases may be taken; the one given back is one of them if any was met.
        start: Where to begin; at random if it is empty.
    """
    base = list(start) or [
        colour for colour, count in enumerate(problem.counts) for _ in range(count)
    ]
    if not start:
        random.shuffle(base)
    if len(base) > 2:
        base = _annealed(problem, random, base, _costs(problem, shared))
    return _polished(problem, tuple(base), accept)


def _costs(problem: Problem, shared: Cost | None) -> list[list[float]]:
    """What it costs that two colours touch: much where they are alike."""
    size = range(len(problem.counts))
    apart = sorted(problem.difference[a][b] for a in size for b in range(a))
    middle = max(1, apart[len(apart) // 2]) if apart else 1
    costs = []
    for a in size:
        row = []
        for b in size:
            d = problem.difference[a][b]
            ratio = d / middle if problem.blend else middle / max(d, middle / 4)
            more = shared[a][b] if shared is not None else 0.0
            row.append(ratio**4 + _BREACH * problem.near[0][a][b] + more)
        costs.append(row)
    return costs


def _energy(problem: Problem, base: Sequence[int], costs: Cost) -> float:
    half = problem.shape is Shape.MIRRORED  # the other half is the same again
    repeated = problem.repeated and not half
    stripes = base if half else unfolded(base, problem.shape, repeated=repeated)
    behind = ahead(stripes, 1, repeated=repeated)
    energy = sum([costs[a][b] for a, b in zip(stripes, behind, strict=False)])
    for distance, table in enumerate(problem.near[1:], 2):
        far = ahead(stripes, distance, repeated=repeated)
        energy += _BREACH * sum(
            [table[a][b] for a, b in zip(stripes, far, strict=False)]
        )
    if problem.light_dark:
        energy -= _BREACH * turns(problem.lightness, stripes, repeated=repeated)
    if problem.random:
        energy += _BREACH * len(squares(stripes))
    if problem.together:
        touching = set(zip(stripes, behind, strict=False))
        energy += _BREACH * sum(
            (a, b) not in touching and (b, a) not in touching for a, b in problem.together
        )
    return energy


def _annealed(
    problem: Problem, random: Random, base: list[int], costs: Cost
) -> list[int]:
    steps = max(400, min(_MOST_CHANGES, _WORK // len(base)))
    now = _energy(problem, base, costs)
    best, best_energy = base, now
    cooling = (_COLD / _HOT) ** (1 / steps)
    heat = _HOT
    for _ in range(steps):
        heat *= cooling
        other = _changed(base, random)
        energy = _energy(problem, other, costs)
        if energy <= now or random.random() < exp((now - energy) / heat):
            base, now = other, energy
            if now < best_energy:
                best, best_energy = base, now
    return best


def _changed(base: list[int], random: Random) -> list[int]:
    """Two stripes change places, a stretch is turned round, or one stripe moves."""
    length = len(base)
    low = int(random.random() * length)
    high = int(random.random() * length)
    if low > high:
        low, high = high, low
    how = random.random()
    other = base[:]
    if how < _SWAPS:
        other[low], other[high] = other[high], other[low]
    elif how < _TURNS:
        other[low : high + 1] = other[low : high + 1][::-1]
    else:
        other.insert(high, other.pop(low))
    return other


_SWAPS, _TURNS = 0.35, 0.75


def _polished(problem: Problem, base: Base, accept: Callable[[Base], bool]) -> Base:
    """The base after every single change that betters it."""
    left = _POLISH // max(1, len(base))
    best, so_far = base, _judged(problem, base, accept)
    better = True
    while better and left > 0:
        better = False
        for other in _neighbours(best):
            left -= 1
            if left < 0:
                break
            found = _judged(problem, other, accept)
            if found < so_far:
                best, so_far, better = other, found, True
                break
    return best


def _judged(
    problem: Problem, base: Base, accept: Callable[[Base], bool]
) -> tuple[bool, Score]:
    return not accept(base), score(problem, base)


def _neighbours(base: Base) -> list[Base]:
    length = len(base)
    found = []
    for low in range(length):
        for high in range(low + 1, length):
            found.append((*base[:low], *base[low : high + 1][::-1], *base[high + 1 :]))
            if high - low > 2:  # nearer ones are the same as a stretch turned round
                swapped = list(base)
                swapped[low], swapped[high] = swapped[high], swapped[low]
                found.append(tuple(swapped))
            if high - low > 1:
                found.append((*base[:low], *base[low + 1 : high + 1], base[low], *base[high + 1 :]))
                found.append((*base[:low], base[high], *base[low:high], *base[high + 1 :]))
    return found
