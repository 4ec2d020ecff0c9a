"""Orders of many colours that are proven: against states one by one, and by hand."""

from __future__ import annotations

from random import Random

import pytest
from colour_texts import planned, worksheet

from hookwright.colour.arrangement import Arrangement, score
from hookwright.colour.exact import Budget, best_base, cost_of
from hookwright.colour.facts import Shape
from hookwright.colour.one_tree import best_bound, one_tree
from hookwright.colour.orders import arranged, best
from hookwright.colour.round_trips import comes_once, proven_round_trip
from hookwright.colour.searching import good_base


def problem(seed: int, colours: int, *, rules: bool = True) -> Arrangement:
    """Colours by chance, each once, with rules that some orders hold."""
    random = Random(seed)  # noqa: S311 - chance for a test
    size = range(colours)
    apart = [[0] * colours for _ in size]
    for a in size:
        for b in range(a):
            apart[a][b] = apart[b][a] = random.randrange(5_00, 90_00)
    near = [[int(a == b) for b in size] for a in size]
    far = [[0] * colours for _ in size]
    if rules:
        for table in (near, far):
            a, b = random.sample(size, 2)
            table[a][b] = table[b][a] = 1
    together = (tuple(random.sample(size, 2)),) if rules and seed % 3 == 0 else ()
    return Arrangement(
        (1,) * colours,
        tuple(map(tuple, apart)),
        tuple(random.randrange(100_00) for _ in size),
        (tuple(map(tuple, near)), tuple(map(tuple, far))),
        together,  # type: ignore[arg-type]
        list(Shape)[seed % 3],
        repeated=seed % 4 < 2,
        blend=seed % 5 == 0,
        light_dark=rules and seed % 7 == 0,
    )


@pytest.mark.parametrize("seed", range(24))
def test_they_are_those_of_going_from_state_to_state(seed: int) -> None:
    given = problem(seed, 8)
    start = good_base(given, Random(seed))  # noqa: S311 - chance for a test
    if score(given, start).breaches:
        start = best(given, Random(seed)).base  # noqa: S311 - the same
    if score(given, start).breaches:
        return
    base, proven = proven_round_trip(given, start)
    reached = score(given, base)
    assert proven
    assert reached.breaches == 0
    # nothing has a better worst pair, and of those with it nothing is better
    harder = reached.worst - 1 if given.blend else 1 - reached.worst
    assert not best_base(given, 10**12, harder, Budget())
    same = best_base(given, cost_of(reached), abs(reached.worst), Budget())
    assert score(given, same) == reached


@pytest.mark.parametrize("seed", [0, 1, 2, 5])
def test_two_dozen_colours_are_proven(seed: int) -> None:
    given = problem(seed, 24, rules=False)
    found = arranged(given, 1, seed)[0]
    assert found.proven
    assert sorted(found.base) == list(range(24))
    assert found.score == score(given, found.base)


@pytest.mark.parametrize("colours", [15, 20, 26])
def test_on_a_line_of_many_colours_neighbours_are_half_of_it_apart(colours: int) -> None:
    # By hand: the middle one of 2k has one k away at most, of 2k + 1 also k.
    size = range(colours)
    apart = tuple(tuple(100 * abs(a - b) for b in size) for a in size)
    twins = tuple(tuple(int(a == b) for b in size) for a in size)
    given = Arrangement((1,) * colours, apart, (0,) * colours, (twins,))
    found = best(given, Random(1))  # noqa: S311 - chance for a test
    assert -found.score.worst == 100 * (colours // 2)


def test_no_round_trip_costs_less_than_its_bound() -> None:
    random = Random(4)  # noqa: S311 - chance for a test
    size = 9
    costs = [[random.randrange(1, 99) * 1.0 for _ in range(size)] for _ in range(size)]
    costs = [[costs[max(a, b)][min(a, b)] for b in range(size)] for a in range(size)]
    bound = best_bound(costs, [0.0] * size, 10**6, 200)
    assert bound.tree is not None
    for _ in range(300):
        way = random.sample(range(size), size)
        cost = sum(costs[a][b] for a, b in zip(way, [*way[1:], way[0]], strict=True))
        assert cost >= bound.tree.bound - 1e-6
    lone = [[float("inf")] * size for _ in range(size)]
    assert one_tree(lone, [0.0] * size) is None


def test_colours_that_come_twice_are_none_of_its_business() -> None:
    given = problem(1, 6)
    assert comes_once(given)
    assert not comes_once(Arrangement((2, 1, 1), given.difference, (0,) * 3, given.near))


def test_an_order_that_ends_as_it_begins_keeps_its_rules_where_it_is_turned_round() -> None:
    # Turned round as a list it would begin with another colour, and other stripes would lie
    # two apart across the seam.
    random = Random(112)  # noqa: S311 - chance for a test
    codes = [f"#{random.randrange(1 << 24):06x}" for _ in range(12)]
    wishes = "first_equals_last = true\nspread_similar = true\n"
    plan = planned(worksheet(codes, wishes), orders=4)
    assert len(plan.orders) == 4
    assert plan.orders[0].proven
    assert all(order.breaches == () for order in plan.orders)
