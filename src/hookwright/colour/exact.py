"""The best order of few stripes, proven: dynamic programming over what is used already.

What the rest of an order depends on is how many stripes of each colour are used, the last
one or two of them, and for an order that closes also the first ones. Of all ways to the
same state the best is kept (Held and Karp 1962, Bellman 1962, for the shortest round trip).
A worst difference is no sum, so it is a limit: pairs below it are left out, and it is
raised until nothing is left. Of what a step costs, the least that any step to that colour
costs is taken off beforehand, so that costs only grow and what is too dear is let go.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from math import factorial, prod

from hookwright.colour.arrangement import Arrangement, score
from hookwright.colour.facts import Score, Shape

_BREACH = 10**13
_UNIT = 10**4
_STEPS = 1_500_000
_FEW = 2_600
"""Orders that are simply looked at one by one."""

State = tuple[int, int, int, int, int, int]
"""Stripes used (a number with one digit a colour), the last colour, the one before it if
it matters, which way the lightness went last, the second colour if it matters, and which
way the lightness went first."""


class Budget:
    """How many steps may still be taken; never the clock, so that answers repeat."""

    def __init__(self, steps: int = _STEPS) -> None:
        """Begin with so many steps."""
        self.left = steps

    @property
    def is_spent(self) -> bool:
        """Whether something may have been left out for want of steps."""
        return self.left < 0


def looks_at_neighbours(problem: Arrangement) -> bool:
    """Whether every rule looks at stripes that touch, or have one between them."""
    multiples = any(
        problem.counts[a] > 1 or problem.counts[b] > 1 for a, b in problem.together
    )
    return not (problem.random or len(problem.near) > 2 or multiples)


def _closes(problem: Arrangement) -> bool:
    return problem.shape is not Shape.MIRRORED and (
        problem.repeated or problem.shape is Shape.CLOSED
    )


def every_base(problem: Arrangement) -> Iterator[tuple[int, ...]]:
    """Every base there is, if there are few; none if there are many."""
    ways = factorial(sum(problem.counts)) // prod(map(factorial, problem.counts))
    if ways <= _FEW:
        yield from _bases(list(problem.counts), [])


def _bases(left: list[int], begun: list[int]) -> Iterator[tuple[int, ...]]:
    if not any(left):
        yield tuple(begun)
    for colour, count in enumerate(left):
        if count:
            left[colour] -= 1
            yield from _bases(left, [*begun, colour])
            left[colour] += 1


def cost_of(found: Score) -> int:
    """A score as one number that compares the same, the worst difference apart."""
    return found.breaches * _BREACH + found.total * _UNIT + found.rhythm


def cost_of_breaches(breaches: int) -> int:
    """What no order with so many breaches exceeds, and every one with more does."""
    return breaches * _BREACH + _BREACH // 2


def best_base(
    problem: Arrangement, most: int, limit: int | None, budget: Budget
) -> tuple[int, ...]:
    """The best base within the limits; empty if there is none, or the budget was spent.

    Args:
        problem: One of which `looks_at_neighbours` says yes.
        most: The most it may cost.
        limit: The smallest difference of neighbours; for a blend the largest.
        budget: The steps that may be taken; when they are spent, nothing is proven.
    """
    steps = _Steps(problem, most, limit, budget)
    found = [base for firsts in steps.beginnings() for base in steps.run(firsts)]
    if budget.is_spent:
        return ()
    return min(found, key=lambda base: cost_of(score(problem, base)), default=())


class _Steps:
    """The steps from state to state."""

    def __init__(
        self, problem: Arrangement, most: int, limit: int | None, budget: Budget
    ) -> None:
        self.problem = problem
        self.budget = budget
        self.weight = problem.weight
        self.closes = _closes(problem)
        self.length = sum(problem.counts)
        self.digits = [prod(c + 1 for c in problem.counts[:at])
                       for at in range(len(problem.counts))]  # fmt: skip
        self.full = sum(d * c for d, c in zip(self.digits, problem.counts, strict=True))
        self.far = problem.near[1] if len(problem.near) > 1 else None
        self.pair = [
            [self._pair(a, b, limit) for b in range(len(problem.counts))]
            for a in range(len(problem.counts))
        ]
        self.partners: list[list[int]] = [[] for _ in problem.counts]
        for a, b in problem.together:
            if problem.counts[a] and problem.counts[b]:
                self.partners[a].append(b)
                self.partners[b].append(a)
        self._take_off(most)

    def _take_off(self, most: int) -> None:
        """Take off what any step to a colour costs, from the steps and from the limit."""
        size = range(len(self.pair))
        into = [[row[b] for row in self.pair if row[b] is not None] for b in size]
        self.least = [min((c for c in costs if c is not None), default=0) for costs in into]
        self.pair = [
            [None if cost is None else cost - self.least[b] for b, cost in enumerate(row)]
            for row in self.pair
        ]
        steps = sum(c * n for c, n in zip(self.least, self.problem.counts, strict=True))
        self.most = most - steps + (2 * self.length + 2) * self.weight

    def _pair(self, a: int, b: int, limit: int | None) -> int | None:
        """What it costs that two colours touch; None if they must not."""
        problem, apart = self.problem, self.problem.difference[a][b]
        if limit is not None and (apart > limit if problem.blend else apart < limit):
            return None
        cost = (
            problem.near[0][a][b] * _BREACH + (apart if problem.blend else -apart) * _UNIT
        )
        return cost * self.weight

    def beginnings(self) -> Iterator[list[int]]:
        """The first colours that are tried together in one run."""
        there = [colour for colour, count in enumerate(self.problem.counts) if count]
        if not self.closes:
            yield there
        elif self.problem.repeated:
            yield [min(there, key=lambda colour: (self.problem.counts[colour], colour))]
        else:
            yield from ([colour] for colour in there)

    def run(self, firsts: Sequence[int]) -> Iterator[tuple[int, ...]]:
        """The best base that begins with one of these; none if there is none."""
        states: dict[State, int] = {
            (self.digits[first], first, -1, 0, -1, 0): self._first(first)
            for first in firsts
        }
        trail: list[dict[State, State]] = []
        for step in range(1, self.length):
            if self.budget.is_spent:
                return
            states, came_from = self._step(states, step, firsts[0])
            trail.append(came_from)
        ends = [
            (cost + self._end(state, firsts[0]), state)
            for state, cost in states.items()
            if self._can_end(state, firsts[0])
        ]
        ends = [end for end in ends if end[0] <= self.most]
        if ends:
            yield tuple(self._path(min(ends)[1], trail))

    def _first(self, colour: int) -> int:
        """No step leads to the first stripe, unless the order closes."""
        return 0 if self.closes else -self.least[colour]

    def _step(
        self, states: dict[State, int], step: int, first: int
    ) -> tuple[dict[State, int], dict[State, State]]:
        after: dict[State, int] = {}
        came_from: dict[State, State] = {}
        counts, digits = self.problem.counts, self.digits
        for state, cost in states.items():
            used, last = state[0], state[1]
            self.budget.left -= len(counts)
            if self.budget.is_spent:
                break
            for colour, touch in enumerate(self.pair[last]):
                if (
                    touch is None
                    or used // digits[colour] % (counts[colour] + 1) >= (counts[colour])
                ):
                    continue
                new, more = self._next(state, colour, step, first)
                total = cost + touch + more
                if total <= self.most and total < after.get(new, _NEVER):
                    after[new] = total
                    came_from[new] = state
        return after, came_from

    def _next(self, state: State, colour: int, step: int, first: int) -> tuple[State, int]:
        """The state behind a further stripe, and what it costs beside the touching."""
        used, last, before, way, second, way_first = state
        now = _sign(self.problem.lightness[colour] - self.problem.lightness[last])
        cost = self._turn(way, now) if step > 1 else 0
        if self.far is not None and before >= 0:
            cost += self.far[before][colour] * _BREACH * self.weight
        used += self.digits[colour]
        if self.partners[colour]:
            cost += self._alone(used, last, colour, first) * _BREACH
        if step == 1:
            way_first = now if self.closes and self.problem.repeated else 0
            if self.far is not None and self.closes and self.problem.repeated:
                second = colour
            cost += self._seam_of_mirrored(now, colour)
        return (
            used,
            colour,
            last if self.far is not None else -1,
            now,
            second,
            way_first,
        ), cost

    def _turn(self, before: int, now: int) -> int:
        """A stripe between two steps of lightness."""
        turned = before * now < 0
        cost = 0 if turned or not self.problem.light_dark else _BREACH
        if turned:
            cost += 1 if self.problem.blend else -1
        return cost * self.weight

    def _alone(self, used: int, last: int, colour: int, first: int) -> int:
        """Partners that are used already and do not touch this stripe."""
        closing = self.closes and used == self.full
        return sum(
            used // self.digits[partner] % 2 == 1
            and partner != last
            and not (closing and partner == first)
            for partner in self.partners[colour]
        )

    def _seam_of_mirrored(self, way: int, second: int) -> int:
        """Where a mirrored sequence begins again, its second stripe lies on both sides."""
        if self.problem.shape is not Shape.MIRRORED or not self.problem.repeated:
            return 0
        again = self.far[second][second] if self.far is not None else 0
        return again * _BREACH + self._turn(way, -way) // self.weight

    def _can_end(self, state: State, first: int) -> bool:
        return not self.closes or self.pair[state[1]][first] is not None

    def _end(self, state: State, first: int) -> int:
        """What comes behind the last stripe of the base."""
        _, last, before, way, second, way_first = state
        if self.problem.shape is Shape.MIRRORED and self.length > 1:
            again = self.far[before][before] if self.far is not None else 0
            return again * _BREACH + self._turn(way, -way) // self.weight
        touch = self.pair[last][first] if self.closes else None
        if touch is None:
            return 0
        now = _sign(self.problem.lightness[first] - self.problem.lightness[last])
        cost = touch + (self._turn(way, now) if self.length > 1 else 0)
        if self.far is not None and before >= 0:
            cost += self.far[before][first] * _BREACH
        if self.problem.repeated:
            cost += self._turn(now, way_first)
            if self.far is not None and second >= 0:
                cost += self.far[last][second] * _BREACH
        return cost

    @staticmethod
    def _path(state: State, trail: Sequence[dict[State, State]]) -> list[int]:
        path = [state[1]]
        for came_from in reversed(trail):
            state = came_from[state]
            path.append(state[1])
        return path[::-1]


_NEVER = 1 << 80


def _sign(number: int) -> int:
    return (number > 0) - (number < 0)
