"""A whole pattern worked: each row over the edge before it, in its likeliest reading."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator

from hookwright.notation.tree import Pattern
from hookwright.working import evidence
from hookwright.working.evidence import Assumption
from hookwright.working.goals import rows_reaching
from hookwright.working.hook import EACH_WORD, Effort
from hookwright.working.outcome import WorkedPattern, Working
from hookwright.working.plan import Plan, plan_of
from hookwright.working.reading_state import State
from hookwright.working.search import Search

_Planned = tuple[Plan, list[Assumption]]
"""A plan, and the ways to work it that are to be tried."""


def work_pattern(pattern: Pattern, terms: str | None = None) -> WorkedPattern:
    """Works every row of a pattern, in every size."""
    used = terms or pattern.terms or "US"
    effort = Effort(gives_up=True)  # for all sizes: what is hard in one is hard in each
    sizes = [
        _work_to_goals(pattern, size, used, effort, planned)
        for size, planned in enumerate(_planned(pattern, used))
    ]
    return WorkedPattern(pattern, tuple(_in_accord(pattern, sizes, used, effort)), used)


def _in_accord(
    pattern: Pattern, sizes: list[Working], terms: str, effort: Effort
) -> Iterator[Working]:
    """The sizes under the conventions of most of them.

    A pattern has one way to count for all its sizes: a wrong count in one of them is a
    slip there, and no convention.
    """
    taken = Counter(working.assumption.conventions for working in sizes)
    common = max(taken, key=taken.__getitem__)
    for size, working in enumerate(sizes):
        if working.assumption.conventions == common:
            yield working
            continue
        ways = evidence.assumptions(pattern, working.plan.steps, terms)
        own = [way for way in ways if way.conventions == common]
        planned = (working.plan, own)
        yield _work_size(pattern, size, terms, effort, planned) if own else working


def _work_to_goals(
    pattern: Pattern, size: int, terms: str, effort: Effort, planned: _Planned
) -> Working:
    """A size worked; then again with as many rows as the counts told as goals take."""
    working = _work_size(pattern, size, terms, effort, planned)
    for _ in range(len(working.plan.goals)):
        reached = rows_reaching(working, size)
        if reached is None:
            break
        plan = plan_of(pattern.parts, size, pattern.sizes, reached)
        ways = evidence.assumptions(pattern, plan.steps, terms)
        working = _work_size(pattern, size, terms, effort, (plan, ways))
    return working


def _planned(pattern: Pattern, terms: str) -> Iterator[_Planned]:
    """The plan of each size: one for all, where no row asks which size is worked."""
    plan: Plan | None = None
    ways: list[Assumption] = []
    for size in range(max(1, len(pattern.sizes))):
        if plan is None or plan.differs:
            plan = plan_of(pattern.parts, size, pattern.sizes)
            ways = evidence.assumptions(pattern, plan.steps, terms)
        yield plan, ways


def _work_size(
    pattern: Pattern, size: int, terms: str, effort: Effort, planned: _Planned
) -> Working:
    plan, ways = planned
    effort.allow(EACH_WORD * sum(len(step.nodes) for step in plan.steps))
    best: tuple[int, State, Assumption] | None = None
    rivals: list[Assumption] = []
    costs: list[int] = []
    for way in ways:
        if best is not None and way.cost > best[0]:
            break  # customary ways come first: no later one can cost less
        worker = Search(pattern, size, terms, way.conventions, effort)
        limit = best[0] - way.cost if best else None
        state = worker.run(plan.steps, limit, [cost - way.cost for cost in costs])
        if state is None:
            continue
        cost = state.total() + way.cost
        if best is None or cost < best[0]:
            best, rivals = (cost, state, way), []
            costs = [way.cost + after for after in worker.costs]
        elif cost == best[0]:
            rivals.append(way)
    assert best is not None
    cost, state, way = best
    return Working(state.outcomes, state.habit, way, cost, tuple(rivals), plan)
