"""The best order of many colours that come once each, proven: branch and bound.

An order that begins again behind its end is a round trip through the colours; one that does
not is a round trip through them and a place of its own, to which it is free to go. What no
round trip costs less than is compared with the best order known; where it is no more, an
edge is taken for good in one half of the round trips and left out in the other. What a rule
asks beyond neighbours, and the rhythm among equals, is looked at in whole orders.

Source: Held and Karp 1971, "The traveling-salesman problem and minimum spanning trees: part
II"; Volgenant and Jonker 1982, "A branch and bound algorithm for the symmetric traveling
salesman problem based on the 1-tree relaxation".
"""

from __future__ import annotations

from collections.abc import Iterator
from heapq import heappop, heappush

from msgspec import Struct
from msgspec.structs import replace

from hookwright.colour.arrangement import Arrangement, score
from hookwright.colour.facts import Score, Shape
from hookwright.colour.one_tree import NEVER, Bound, best_bound

_SURE = 1e-6
"""What is less than that is no difference: costs are whole numbers."""
_FORCED = 1e8
"""What is taken off the cost of an edge that is to be taken."""
_FIRST_ROUNDS, _ROUNDS = 250, 30
_NOBODY = -1
_WORK = 3_000_000
"""Edges that may be looked at for one proof; never the clock, so that answers repeat."""

Base = tuple[int, ...]
Edge = tuple[int, int]


class Trees:
    """How many trees may still be looked at."""

    def __init__(self, colours: int) -> None:
        """Begin with as many as a proof for so many colours may take."""
        self.left = _WORK // (colours + 1) ** 2

    @property
    def is_spent(self) -> bool:
        """Whether something may have been left out for want of them."""
        return self.left < 0


def proven_round_trip(problem: Arrangement, base: Base) -> tuple[Base, bool]:
    """The best base from a good one without breaches, and whether it is proven.

    First a better worst pair is sought, then the best of those that have no worse one.

    Args:
        problem: One that `comes_once` says yes of.
        base: A good base without breaches.
    """
    colours = sum(problem.counts)
    trees = Trees(colours)
    while True:
        worst = score(problem, base).worst
        limit = worst - 1 if problem.blend else 1 - worst
        better = Proof(problem, limit, trees).better(base, any_will_do=True)
        if not better:
            break
        base = better
    sure = not trees.is_spent
    trees = Trees(colours)
    limit = abs(score(problem, base).worst)
    base = Proof(problem, limit, trees).better(base)
    return base, sure and not trees.is_spent


def comes_once(problem: Arrangement) -> bool:
    """Whether every colour comes once at most, and three do."""
    return max(problem.counts) == 1 and sum(problem.counts) > 2


class _Part(Struct, frozen=True):
    """Some of the round trips: those with some edges, and without some others.

    Attributes:
        costs: What an edge costs.
        taken: Edges that are taken.
        prices: Prices to begin with.
        first: The colour that may have any pair beside it, for the order begins and ends
            there; none for all that are held to it, None where that is open.
        held: Colours that are not the first, where that is open.
    """

    costs: tuple[tuple[float, ...], ...]
    taken: frozenset[Edge]
    prices: tuple[float, ...]
    first: int | None = _NOBODY
    held: frozenset[int] = frozenset()

    def holds(self, at: int) -> bool:
        """Whether no bad pair may lie beside a colour."""
        return at in self.held if self.first is None else at != self.first


class Proof:
    """Looks for an order that is better than the best one known."""

    def __init__(self, problem: Arrangement, limit: int, trees: Trees) -> None:
        """Get ready.

        Args:
            problem: One that `comes_once` says yes of.
            limit: The smallest difference of neighbours; for a blend the largest.
            trees: How many trees may be looked at.
        """
        self.problem = problem
        self.trees = trees
        self.there = [at for at, count in enumerate(problem.counts) if count]
        self.free = problem.shape is Shape.MIRRORED or not (
            problem.repeated or problem.shape is Shape.CLOSED
        )
        self.costs = tuple(map(tuple, self._costs(limit)))
        strict = problem.repeated or problem.shape is not Shape.CLOSED
        self.first = _NOBODY if strict else None
        self.bad = self._bad()

    def _costs(self, limit: int) -> list[list[float]]:
        """What it costs that two colours touch; the place of its own is the first."""
        problem, rows = self.problem, []
        sign = 1 if problem.blend else -1
        for a in self.there:
            row = []
            for b in self.there:
                apart = problem.difference[a][b]
                bad = apart > limit if problem.blend else apart < limit
                never = a == b or bad or problem.near[0][a][b] or problem.near[0][b][a]
                row.append(NEVER if never else float(sign * apart))
            rows.append(row)
        if self.free:
            return [[NEVER, *[0.0] * len(rows)], *([0.0, *row] for row in rows)]
        return rows

    def _bad(self) -> dict[int, frozenset[Edge]]:
        """For each colour the pairs that no order has on both sides of it.

        Where the first stripe comes again behind the last, this holds of all colours but
        the first, whichever that is.
        """
        problem, own = self.problem, int(self.free)
        far = problem.near[1] if len(problem.near) > 1 else None
        light = problem.lightness
        places = list(enumerate(self.there, own))

        def is_bad(a: int, b: int, c: int) -> bool:
            if far is not None and (far[a][c] or far[c][a]):
                return True
            up, on = light[b] - light[a], light[c] - light[b]
            return problem.light_dark and up * on >= 0

        return {
            at: frozenset(
                (one, other)
                for one, a in places
                for other, c in places
                if len({one, at, other}) == 3 and is_bad(a, b, c)
            )
            for at, b in places
        }

    def _first(self, costs: tuple[tuple[float, ...], ...]) -> _Part:
        """All round trips: those with every pair that is to lie side by side."""
        part = _Part(costs, frozenset(), (0.0,) * len(costs), self.first)
        places = {colour: at for at, colour in enumerate(self.there, int(self.free))}
        for a, b in self.problem.together:
            if a in places and b in places and a != b:
                part = self._with(part, places[a], places[b])
        return part

    def better(self, best: Base, *, any_will_do: bool = False) -> Base:
        """The best order within the limit; the one known where none is better.

        Args:
            best: The best one known, without breaches.
            any_will_do: Whether to be content with the first that holds every rule, and not
                to ask that it is better in sum; then nothing is given back where none is.
        """
        costs, size = self.costs, len(self.costs)
        weight = self.problem.weight
        reached = score(self.problem, best)
        known: Base = () if any_will_do else best
        upper = reached.total / weight
        if any_will_do:
            if self._is_impossible():
                return ()
            dearest = max(c for row in costs for c in row if c < NEVER)
            upper = dearest * size + 1
        waiting: list[tuple[float, int, _Part, Bound]] = []
        number = 0
        root = self._bounded([self._first(costs)], upper, _FIRST_ROUNDS)
        for part, bound in root:
            heappush(waiting, (_cost(part, bound), number, part, bound))
        while waiting and not self.trees.is_spent:
            cost, _, part, bound = heappop(waiting)
            if cost > upper + _SURE:
                break
            assert bound.tree is not None
            if bound.tree.is_round_trip:
                found = self._best_of(bound.tree.stops())
                if found is not None and (any_will_do or found[0] < reached):
                    reached, known = found
                    if any_will_do:
                        return known
                    upper = reached.total / weight
            for child, own in self._bounded(self._halves(part, bound), upper, _ROUNDS):
                number += 1
                heappush(waiting, (_cost(child, own), number, child, own))
        return known

    def _is_impossible(self) -> bool:
        """Whether prices alone show that there is no round trip: it would cost nothing."""
        costs = tuple(tuple(0.0 if c < NEVER else c for c in row) for row in self.costs)
        bound = best_bound(costs, (0.0,) * len(costs), _SURE, _FIRST_ROUNDS)
        self.trees.left -= bound.rounds
        return bound.tree is None or bound.tree.bound > _SURE

    def _bounded(
        self, parts: list[_Part], upper: float, rounds: int
    ) -> Iterator[tuple[_Part, Bound]]:
        """Those parts that may hold something better, with their bounds."""
        for part in parts:
            offset = _FORCED * len(part.taken)
            bound = best_bound(part.costs, part.prices, upper + _SURE - offset, rounds)
            self.trees.left -= bound.rounds
            if bound.tree is None:
                continue
            if _cost(part, bound) <= upper + _SURE:
                yield replace(part, prices=bound.prices), bound

    def _best_of(self, stops: list[int]) -> tuple[Score, Base] | None:
        """The best base of a round trip, from either end; None where it breaks a rule."""
        if self.free:
            path = [self.there[at - 1] for at in stops[1:]]
            ways = [path, path[::-1]]
        else:
            ring = [self.there[at] for at in stops]
            turns = range(1 if self.problem.repeated else len(ring))
            ways = [[*ring[at:], *ring[:at]] for at in turns]
            ways += [way[::-1] for way in ways]
        found, base = min((score(self.problem, way), tuple(way)) for way in ways)
        return None if found.breaches else (found, base)

    def _halves(self, part: _Part, bound: Bound) -> list[_Part]:
        """The round trips without an edge of the tree, and those with it."""
        tree = bound.tree
        assert tree is not None
        free = [edge for edge in tree.edges if _key(*edge) not in part.taken]
        own = free
        if tree.is_round_trip:
            amiss = self._amiss(tree.stops(), part)
            if amiss and part.first is None and not part.holds(amiss[0][1]):
                at = amiss[0][1]
                held = replace(part, held=part.held | {at})
                return [self._held_to(replace(part, first=at)), self._held_to(held)]
            if amiss:
                a, b, c = amiss[0]
                own = [e for e in ((a, b), (b, c)) if _key(*e) not in part.taken]
        else:
            crowded = max(range(len(tree.degree)), key=lambda at: tree.degree[at])
            own = [edge for edge in free if crowded in edge] or free
        if not own:
            return []
        a, b = max(own, key=lambda e: (part.costs[e[0]][e[1]], e))
        return [_without(part, {_key(a, b)}), self._with(part, a, b)]

    def _amiss(self, stops: list[int], part: _Part) -> list[tuple[int, int, int]]:
        """Bad pairs with the colour between them, those that may not be there first."""
        ring = [stops[-1], *stops, stops[0]]
        threes = zip(ring, ring[1:], ring[2:], strict=False)
        found = [(a, b, c) for a, b, c in threes if (a, c) in self.bad.get(b, ())]
        found = [three for three in found if three[1] != part.first]
        return sorted(found, key=lambda three: not part.holds(three[1]))

    def _held_to(self, part: _Part) -> _Part:
        """A part without the edges that make a bad pair with one that is taken."""
        shut: set[Edge] = set()
        for edge in part.taken:
            for one, at in (edge, edge[::-1]):
                if part.holds(at):
                    own = self.bad.get(at, frozenset())
                    shut |= {_key(at, other) for a, other in own if a == one}
        return _without(part, shut)

    def _with(self, part: _Part, a: int, b: int) -> _Part:
        """A part with an edge taken, without all that no round trip has then."""
        rows = [list(row) for row in part.costs]
        rows[a][b] = rows[b][a] = rows[a][b] - _FORCED
        taken = part.taken | {_key(a, b)}
        whole = replace(part, costs=tuple(map(tuple, rows)), taken=taken)
        return self._held_to(_without(whole, _shut(taken, len(rows))))


def _cost(part: _Part, bound: Bound) -> float:
    """What no round trip of a part costs less than, edges that are taken at their price."""
    assert bound.tree is not None
    return bound.tree.bound + _FORCED * len(part.taken)


def _key(a: int, b: int) -> Edge:
    return (a, b) if a < b else (b, a)


def _without(part: _Part, edges: set[Edge]) -> _Part:
    """A part without some edges."""
    rows = [list(row) for row in part.costs]
    for a, b in edges:
        rows[a][b] = rows[b][a] = NEVER
    return replace(part, costs=tuple(map(tuple, rows)))


def _shut(taken: frozenset[Edge], size: int) -> set[Edge]:
    """Edges that no round trip with those taken has: third ones, and loops too small."""
    beside: dict[int, list[int]] = {}
    for a, b in taken:
        beside.setdefault(a, []).append(b)
        beside.setdefault(b, []).append(a)
    shut = {
        _key(at, other)
        for at, own in beside.items()
        if len(own) > 1
        for other in range(size)
        if other != at and other not in own
    }
    for at, own in beside.items():
        if len(own) == 1 and len(taken) < size - 1:
            last, before = own[0], at
            while len(beside[last]) == 2:
                last, before = next(o for o in beside[last] if o != before), last
            if _key(at, last) not in taken:
                shut.add(_key(at, last))
    return shut
