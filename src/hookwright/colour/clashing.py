"""Which of her rules clash, where no order holds them all?"""

from __future__ import annotations

from collections.abc import Callable, Sequence

from hookwright.colour.arrangement import Arrangement, score, unfolded
from hookwright.colour.clashes import Rules, Unsure, smallest_clash
from hookwright.colour.collapsing import collapsed
from hookwright.colour.exact import (
    Budget,
    best_base,
    cost_of_breaches,
    every_base,
    looks_at_neighbours,
)
from hookwright.colour.facts import Kind, Order, Palette, Rule, Shape
from hookwright.colour.judging import Laid, broken_rules
from hookwright.colour.wishes import Wishes

_OF_ROWS = {Kind.ROWS, Kind.FAVOURITES, Kind.CARRY, Kind.LIMIT}
_STEPS = 500_000


def clash_of(
    problem_of: Callable[[Sequence[Rule]], Arrangement],
    wishes: Wishes,
    palette: Palette,
    best: Order,
) -> tuple[Rule, ...]:
    """The fewest rules that cannot all hold; empty where all do, or nobody can tell.

    Args:
        problem_of: The problem that some of the rules pose.
        wishes: The rules.
        palette: The colours.
        best: The best order there is; what it breaks shows where to look.
    """
    broken = {breach.rule for breach in best.breaches}
    of_rows = [rule for rule in wishes.rules if rule.kind in _OF_ROWS and rule in broken]
    if of_rows:
        return tuple(_of_rows(wishes, of_rows[0]))
    rules = [rule for rule in wishes.rules if rule.kind not in _OF_ROWS]
    first = frozenset(at for at, rule in enumerate(rules) if rule in broken)
    if not first:
        return ()
    search = _Search(problem_of, rules, palette)
    return tuple(rules[at] for at in sorted(smallest_clash(first, search.broken_under)))


def _of_rows(wishes: Wishes, rule: Rule) -> list[Rule]:
    """Rules of rows do not hang on the order: the broken one, and what it is against."""
    against = {
        Kind.CARRY: (Kind.ROWS, Kind.FAVOURITES),
        Kind.LIMIT: (Kind.ROWS, Kind.FAVOURITES),
        Kind.FAVOURITES: (Kind.ROWS,),
        Kind.ROWS: (),
    }[rule.kind]
    others = [other for kind in against if (other := wishes.rule(kind)) is not None]
    if rule.kind is Kind.CARRY:
        others = [other for other in others if all(rows % 2 for rows in other.choices)]
    elif rule.kind is Kind.LIMIT:
        wide = rule.colours[0] in wishes.favourites
        others = [o for o in others if (o.kind is Kind.FAVOURITES) == wide]
    return [rule, *others]


class _Search:
    """Looks for an order that holds some rules, and says which others it breaks."""

    def __init__(
        self,
        problem_of: Callable[[Sequence[Rule]], Arrangement],
        rules: Sequence[Rule],
        palette: Palette,
    ) -> None:
        self.problem_of = problem_of
        self.rules = rules
        self.palette = palette
        self.budget = Budget(_STEPS)

    def broken_under(self, chosen: Rules) -> Rules | None:
        """See `smallest_clash`."""
        problem = self.problem_of([self.rules[at] for at in sorted(chosen)])
        base = self._holding(problem)
        if not base:
            return None
        colours = tuple(unfolded(base, problem.shape, repeated=problem.repeated))
        closes = problem.repeated and problem.shape is not Shape.ONCE
        whole = (*colours, *(colours[:1] if closes else ()))
        laid = Laid(
            colours, (), problem.repeated, (whole[0], whole[-1]), whole == whole[::-1], {}
        )
        broken = {
            one.breach.rule
            for one in broken_rules(self.palette, self.rules, frozenset(), laid)
        }
        return frozenset(at for at, rule in enumerate(self.rules) if rule in broken)

    def _holding(self, problem: Arrangement) -> tuple[int, ...]:
        """A base that holds all; empty if none does."""
        few, groups = collapsed(problem)
        if looks_at_neighbours(few):
            base = best_base(few, cost_of_breaches(0), None, self.budget)
            if self.budget.is_spent:
                raise Unsure
        else:
            every = list(every_base(few))
            if not every:
                raise Unsure
            base = min(every, key=lambda one: score(few, one))
            base = () if score(few, base).breaches else base
        left = [list(group) for group in groups]
        return tuple(left[at].pop() if len(left[at]) > 1 else left[at][0] for at in base)
