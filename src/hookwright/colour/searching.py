"""A good order of many stripes, by trying changes; nothing is proven.

It is put together stripe by stripe. Then stripes change places, stretches are turned round,
and what is better stays; at first also what is a little worse (annealing, Kirkpatrick,
Gelatt and Vecchi 1983). How much is tried depends on the number of stripes and never on the
clock, so that the same seed always gives the same order.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from math import exp
from random import Random

from hookwright.colour.arrangement import (
    LONGEST_SQUARE,
    Arrangement,
    ahead,
    score,
    squares,
    turns,
    unfolded,
)
from hookwright.colour.facts import Shape

_WORK = 110_000
"""What is looked at while annealing: stripes, each once for every rule of far ones."""
_MOST_CHANGES = 2_500
_POLISH = 80_000
"""The same while the result is polished."""
_SOWINGS = 3
_TAKEN_UP = 150
"""How often stripes are taken up again while a base is put together."""
_HASTE = 1.0
"""How much sooner a colour comes of which much is left."""
_BREACH = 60.0
_HOT, _COLD = 3.0, 0.05

Base = tuple[int, ...]
Cost = Sequence[Sequence[float]]


def good_base(
    problem: Arrangement,
    random: Random,
    shared: Cost | None = None,
    accept: Callable[[Base], bool] = lambda _: True,
) -> Base:
    """A good base.

    Args:
        problem: What is arranged.
        random: Where chance comes from.
        shared: What it costs besides that two colours touch.
        accept: Which bases may be taken; the one given back is one of them if any was met.
    """
    costs = _costs(problem, shared)
    base = min(
        (_sown(problem, random, costs) for _ in range(_SOWINGS)),
        key=lambda one: _energy(problem, one, costs),
    )
    if len(base) > 2:
        base = _annealed(problem, random, base, costs)
    return _polished(problem, tuple(base), accept)


def _sown(problem: Arrangement, random: Random, costs: Cost) -> list[int]:
    """A base put together stripe by stripe, each the best that is left there.

    Where every colour would break a rule, some stripes are taken up again; where that does
    not help either, the rule is broken.
    """
    left = list(problem.counts)
    base: list[int] = []
    options = [_options(problem, base, left, random, costs)]
    again = _TAKEN_UP
    while any(left):
        if options[-1] and again > 0 and options[-1][0][0] >= _BREACH / 2:
            options[-1].clear()
        if not options[-1]:
            again -= 1
            options.pop()
            if not options:
                return _sown_anyhow(problem, random)
            left[base.pop()] += 1
            continue
        colour = options[-1].pop(0)[1]
        left[colour] -= 1
        base.append(colour)
        options.append(_options(problem, base, left, random, costs))
    return base


def _sown_anyhow(problem: Arrangement, random: Random) -> list[int]:
    """A base by chance."""
    base = [colour for colour, count in enumerate(problem.counts) for _ in range(count)]
    random.shuffle(base)
    return base


def _options(
    problem: Arrangement, base: list[int], left: list[int], random: Random, costs: Cost
) -> list[tuple[float, int]]:
    """The colours that are left, the best first, with what each costs."""
    most = max(left)
    return sorted(
        (
            _cost_of_next(problem, base, colour, costs)
            - _HASTE * count / most
            + random.random(),
            colour,
        )
        for colour, count in enumerate(left)
        if count
    )


def _cost_of_next(problem: Arrangement, base: list[int], colour: int, costs: Cost) -> float:
    """What a further stripe costs, by what lies before it."""
    if not base:
        return 0.0
    last = base[-1]
    cost = costs[last][colour]
    for distance, table in enumerate(problem.near[1:], 2):
        if distance <= len(base):
            cost += _BREACH * table[base[-distance]][colour]
    if problem.light_dark and len(base) > 1:
        light = problem.lightness
        now, before = light[colour] - light[last], light[last] - light[base[-2]]
        cost += _BREACH * (now * before >= 0)
    if problem.random:
        near = [*base[1 - 2 * LONGEST_SQUARE :], colour]
        lengths = range(2, min(LONGEST_SQUARE, len(near) // 2) + 1)
        cost += _BREACH * sum(near[-n:] == near[-2 * n : -n] for n in lengths)
    return cost


def _effort(problem: Arrangement) -> int:
    """How much there is to look at in one order."""
    looks = 1 + len(problem.near) + problem.light_dark + 4 * problem.random
    return max(1, sum(problem.counts) * problem.weight * looks)


def _costs(problem: Arrangement, shared: Cost | None) -> list[list[float]]:
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


def _energy(problem: Arrangement, base: Sequence[int], costs: Cost) -> float:
    half = problem.shape is Shape.MIRRORED  # the other half is the same again
    repeated = problem.repeated and not half
    stripes = base if half else unfolded(base, problem.shape, repeated=repeated)
    behind = ahead(stripes, 1, repeated=repeated)
    energy = sum([costs[a][b] for a, b in zip(stripes, behind, strict=False)])
    for distance, table in enumerate(problem.near[1:], 2):
        far = ahead(stripes, distance, repeated=repeated)
        energy += _BREACH * sum([table[a][b] for a, b in zip(stripes, far, strict=False)])
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
    problem: Arrangement, random: Random, base: list[int], costs: Cost
) -> list[int]:
    steps = max(200, min(_MOST_CHANGES, _WORK // _effort(problem)))
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


def _polished(problem: Arrangement, base: Base, accept: Callable[[Base], bool]) -> Base:
    """The base after every single change that betters it."""
    left = _POLISH // _effort(problem)
    best, reached, taken = base, score(problem, base), accept(base)
    better = True
    while better and left > 0:
        better = False
        for other in _neighbours(best):
            left -= 1
            if left < 0:
                break
            found = score(problem, other)
            if taken and found >= reached:
                continue
            accepted = accept(other)
            if (not accepted, found) < (not taken, reached):
                best, reached, taken, better = other, found, accepted, True
                break
    return best


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
                found.append(
                    (*base[:low], *base[low + 1 : high + 1], base[low], *base[high + 1 :])
                )
                found.append((*base[:low], base[high], *base[low:high], *base[high + 1 :]))
    return found
