"""The general solver finds no better order than ours, and what it proves holds.

Source of the comparison: OR-Tools CP-SAT, by a model of its own.
"""

from __future__ import annotations

import pytest
from colour_texts import checked, worksheet
from order_problems import problem

from hookwright.colour import solver
from hookwright.colour.arrangement import score
from hookwright.colour.orders import arranged
from hookwright.colour.planning import colour_plan

INSTANCES = 200


@pytest.mark.parametrize("part", range(10))
def test_ours_are_the_best_that_the_solver_finds(part: int) -> None:
    for seed in range(1000 + part, 1000 + INSTANCES, 10):
        given = problem(seed)
        ours = arranged(given, 1, seed)[0]
        start = tuple(c for c, count in enumerate(given.counts) for _ in range(count))
        found, proven = solver.solved(given, start)
        assert proven
        assert (seed, score(given, found)) == (seed, ours.score)


SEVERAL = "stripes = 9\nlooks_random = true\n"


def test_several_stripes_of_a_colour_are_proven_where_that_is_asked() -> None:
    read = checked(worksheet(stripes=SEVERAL))
    plain, asked = colour_plan(read, 1), colour_plan(read, 1, prove=True)
    assert not plain.orders[0].proven
    assert asked.orders[0].proven
    assert asked.orders[0].score <= plain.orders[0].score
    assert asked == colour_plan(read, 1, prove=True)


def test_where_it_is_not_installed_that_is_told(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(solver, "is_there", lambda: False)
    plan = colour_plan(checked(worksheet(stripes=SEVERAL)), 1, prove=True)
    assert any("pip install 'hookwright[plan]'" in sentence for sentence in plan.told)
