"""The best order as a problem for a general solver, where ours does not reach.

Stripes are places that colours are put in; what a rule asks is a sum over them. The four
numbers of a score are sought one after the other: breaches, the worst neighbours, the sum,
the rhythm. OR-Tools is brought in only here and only when asked (it comes with `pip install
'hookwright[plan]'`). It works alone and for a fixed number of its own steps, so that the
same question has the same answer.
"""

from __future__ import annotations

import importlib
import importlib.util
from collections.abc import Iterator, Sequence
from typing import Any

from hookwright.colour.arrangement import (
    LONGEST_SQUARE,
    Arrangement,
    ahead,
    score,
    unfolded,
)

_STEPS = 20.0
"""Of the solver's own deterministic time, for each of the four numbers."""

Base = tuple[int, ...]
Literal = Any
"""A yes or no of the solver, which ships no types."""


def is_there() -> bool:
    """Whether the solver is installed."""
    return importlib.util.find_spec("ortools") is not None


def solved(problem: Arrangement, base: Base, steps: float = _STEPS) -> tuple[Base, bool]:
    """The best base, from a good one, and whether it is proven.

    Args:
        problem: What is arranged.
        base: A good base to begin with.
        steps: How long may be looked for each number.
    """
    if len(base) < 2:
        return base, True
    model = _Model(problem)
    proven = True
    for number in range(4):
        base, sure = model.best(number, base, steps)
        proven = proven and sure
        reached = score(problem, base)
        model.keep(number, (reached.breaches, reached.worst, reached.total, reached.rhythm))
    return base, proven


class _Model:
    """The stripes with what is asked of them."""

    def __init__(self, problem: Arrangement) -> None:
        self.cp: Any = importlib.import_module("ortools.sat.python.cp_model")
        self.problem = problem
        self.model = self.cp.CpModel()
        size, many = len(problem.counts), sum(problem.counts)
        new = self.model.NewBoolVar
        self.has = [[new(f"{at} {colour}") for colour in range(size)] for at in range(many)]
        for own in self.has:
            self.model.AddExactlyOne(own)
        for colour, count in enumerate(problem.counts):
            self.model.Add(sum(own[colour] for own in self.has) == count)
        places = unfolded(range(many), problem.shape, repeated=problem.repeated)
        self.places = places
        self._pairs: dict[tuple[int, int, int, int], Literal] = {}
        behind = ahead(places, 1, repeated=problem.repeated)
        self.touching = list(zip(places, behind, strict=False))
        turns = list(self._turns())
        self.numbers = [
            sum(self._breaches()) + (len(turns_in(problem, places)) - sum(turns))
            * problem.light_dark,
            self._worst(),
            self._total(),
            sum(turns) if problem.blend else -sum(turns),
        ]  # fmt: skip

    def best(self, number: int, hint: Base, steps: float) -> tuple[Base, bool]:
        """The base for which a number is least, those before it kept."""
        self.model.ClearHints()
        for at, own in enumerate(self.has):
            for colour, here in enumerate(own):
                self.model.AddHint(here, hint[at] == colour)
        self.model.Minimize(self.numbers[number])
        solver = self.cp.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.random_seed = 1
        solver.parameters.max_deterministic_time = steps
        found = solver.Solve(self.model)
        if found not in {self.cp.OPTIMAL, self.cp.FEASIBLE}:
            return hint, False
        base = tuple(
            next(c for c, here in enumerate(own) if solver.Value(here)) for own in self.has
        )
        better = min(hint, base, key=lambda one: (score(self.problem, one), one))
        return better, found == self.cp.OPTIMAL

    def keep(self, number: int, reached: Sequence[int]) -> None:
        """Nothing worse in a number from here on."""
        self.model.Add(self.numbers[number] <= reached[number])

    def _pair(self, i: int, a: int, j: int, b: int) -> Literal:
        """Whether one place has one colour and another place another."""
        if i > j:
            i, a, j, b = j, b, i, a
        if (i, a, j, b) not in self._pairs:
            both = self.model.NewBoolVar("")
            one, other = self.has[i][a], self.has[j][b]
            self.model.AddBoolOr([one.Not(), other.Not(), both])
            self.model.AddImplication(both, one)
            self.model.AddImplication(both, other)
            self._pairs[i, a, j, b] = both
        return self._pairs[i, a, j, b]

    def _colours(self) -> Iterator[tuple[int, int]]:
        size = range(len(self.problem.counts))
        return ((a, b) for a in size for b in size)

    def _both(self, i: int, j: int, a: int, b: int) -> Literal:
        """The same, where both may be one place."""
        if i != j:
            return self._pair(i, a, j, b)
        return self.has[i][a] if a == b else 0

    def _breaches(self) -> Iterator[Literal]:
        for distance, table in enumerate(self.problem.near, 1):
            far = ahead(self.places, distance, repeated=self.problem.repeated)
            for i, j in zip(self.places, far, strict=False):
                for a, b in self._colours():
                    if table[a][b]:
                        yield table[a][b] * self._both(i, j, a, b)
        for a, b in self.problem.together:
            yield 1 - self._any([
                literal for i, j in self.touching
                for literal in (self._both(i, j, a, b), self._both(i, j, b, a))
                if not isinstance(literal, int)
            ])  # fmt: skip
        if self.problem.random:
            yield from self._squares()

    def _any(self, literals: Sequence[Literal]) -> Literal:
        found = self.model.NewBoolVar("")
        self.model.AddMaxEquality(found, list(literals) or [0])
        return found

    def _all(self, literals: Sequence[Literal]) -> Literal:
        found = self.model.NewBoolVar("")
        self.model.AddMinEquality(found, list(literals))
        return found

    def _squares(self) -> Iterator[Literal]:
        """Every place where two to six stripes are followed by the same again."""
        size = range(len(self.problem.counts))
        for length in range(2, min(LONGEST_SQUARE, len(self.places) // 2) + 1):
            alike = []
            for i, j in zip(self.places, self.places[length:], strict=False):
                same = [self._both(i, j, a, a) for a in size]
                alike.append(self._any(same))
            for at in range(len(alike) - length + 1):
                yield self._all(alike[at : at + length])

    def _worst(self) -> Literal:
        """The difference of the worst neighbours, as the score has it."""
        most = max((d for row in self.problem.difference for d in row), default=0)
        worst = self.model.NewIntVar(-most, most, "worst")
        sign = 1 if self.problem.blend else -1
        for i, j in self.touching:
            apart = self._apart(i, j)
            self.model.Add(worst >= sign * apart)
        if not self.touching:
            self.model.Add(worst == 0)
        return worst

    def _apart(self, i: int, j: int) -> Literal:
        """How different the colours of two places are."""
        return sum(
            self.problem.difference[a][b] * self._both(i, j, a, b)
            for a, b in self._colours()
            if self.problem.difference[a][b]
        )

    def _total(self) -> Literal:
        sign = 1 if self.problem.blend else -1
        return sum(sign * self._apart(i, j) for i, j in self.touching)

    def _turns(self) -> Iterator[Literal]:
        """For each stripe between two others if it is lighter, or darker, than both."""
        light = self.problem.lightness
        for i, j, k in turns_in(self.problem, self.places):
            darker: list[Literal] = []
            lighter: list[Literal] = []
            for down, found in ((True, darker), (False, lighter)):
                for one, other in ((i, j), (k, j)):
                    found.append(self._any([
                        self._both(one, other, a, b) for a, b in self._colours()
                        if (light[a] > light[b] if down else light[a] < light[b])
                        and not isinstance(self._both(one, other, a, b), int)
                    ]))  # fmt: skip
            yield self._any([self._all(darker), self._all(lighter)])


def turns_in(problem: Arrangement, places: Sequence[int]) -> list[tuple[int, int, int]]:
    """Every three stripes behind one another."""
    one, two = (ahead(places, n, repeated=problem.repeated) for n in (1, 2))
    return list(zip(places, one, two, strict=False))
