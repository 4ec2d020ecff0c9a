"""The best order is what looking at every order finds.

Source of the comparison: every arrangement of a few stripes, one by one.
"""

from __future__ import annotations

from itertools import permutations, product
from random import Random

import pytest
from order_problems import problem

from hookwright.colour.arrangement import Arrangement, score, squares, unfolded
from hookwright.colour.differing import differ, pairs_of
from hookwright.colour.facts import Score, Shape
from hookwright.colour.orders import arranged

INSTANCES = 240


def best_of_all(given: Arrangement) -> Score:
    """The score of the best of all arrangements."""
    base = [colour for colour, count in enumerate(given.counts) for _ in range(count)]
    return min(score(given, order) for order in set(permutations(base)))


@pytest.mark.parametrize("ten", range(INSTANCES // 10))
def test_the_first_order_is_the_best_of_all(ten: int) -> None:
    for seed in range(ten * 10, ten * 10 + 10):
        given = problem(seed)
        found = arranged(given, 1, seed)[0]
        assert found.proven
        assert (seed, found.score) == (seed, best_of_all(given))
        assert found.score == score(given, found.base)


def plain(codes: int, **more: object) -> Arrangement:
    """So many colours on a line, a hundredth apart: 0, 1, 2, ..."""
    apart = tuple(tuple(100 * abs(a - b) for b in range(codes)) for a in range(codes))
    twins = tuple(tuple(int(a == b) for b in range(codes)) for a in range(codes))
    lightness = tuple(100 * a for a in range(codes))
    return Arrangement((1,) * codes, apart, lightness, (twins,), **more)  # type: ignore[arg-type]


@pytest.mark.parametrize("codes", range(2, 15))
def test_on_a_line_of_colours_neighbours_are_half_of_it_apart(codes: int) -> None:
    # By hand: the middle one of 2k has one k away at most, of 2k + 1 also k; and
    # k, 2k, k - 1, 2k - 1, ... reaches it.
    found = arranged(plain(codes), 1, 1)[0]
    assert found.proven
    assert -found.score.worst == 100 * (codes // 2)


@pytest.mark.parametrize("codes", range(2, 13))
def test_a_blend_of_colours_on_a_line_is_the_line(codes: int) -> None:
    found = arranged(plain(codes, blend=True), 1, 1)[0]
    assert found.proven
    assert found.base in {tuple(range(codes)), tuple(reversed(range(codes)))}
    assert found.score == Score(0, 100, 100 * (codes - 1), 0)


@pytest.mark.parametrize("codes", range(3, 13))
def test_a_blend_round_a_ring_has_steps_of_two(codes: int) -> None:
    # By hand: a ring goes up over every second colour and down over the others.
    found = arranged(plain(codes, blend=True, repeated=True), 1, 1)[0]
    assert found.proven
    assert found.score.worst == 200


@pytest.mark.parametrize("seed", range(6))
def test_orders_differ_in_a_third_of_their_neighbours(seed: int) -> None:
    given = plain(8, shape=list(Shape)[seed % 3], repeated=seed > 2)
    found = arranged(given, 6, seed)
    assert len(found) == 6
    for one, other in product(found, found):
        if one is other:
            continue
        pairs, others = (set(pairs_of(given, found.base)) for found in (one, other))
        assert 3 * len(pairs - others) >= len(pairs)
        assert differ(given, one.base, other.base)
        assert differ(given, one.base, other.base[::-1])
        assert one.score == score(given, one.base)
    assert [one.score for one in found] == sorted(one.score for one in found)


def test_an_order_read_from_its_other_end_is_the_same() -> None:
    given = plain(9)
    assert not differ(given, range(9), range(8, -1, -1))
    ring = plain(9, repeated=True)
    assert not differ(ring, range(9), [*range(4, 9), *range(4)])


def test_the_same_seed_gives_the_same_orders_and_another_one_others() -> None:
    given = plain(24, repeated=True)
    first, again, other = (arranged(given, 4, seed) for seed in (1, 1, 2))
    assert first == again
    assert [one.base for one in first] != [one.base for one in other]


def test_many_colours_are_not_said_to_be_proven() -> None:
    random = Random(5)  # noqa: S311 - chance for a test
    light = tuple(random.randrange(100_00) for _ in range(24))
    apart = tuple(tuple(abs(a - b) for b in light) for a in light)
    twins = tuple(tuple(int(a == b) for b in range(24)) for a in range(24))
    found = arranged(
        Arrangement((1,) * 24, apart, light, (twins, twins), repeated=True), 3, 1
    )
    assert len(found) == 3
    assert not any(one.proven for one in found)
    assert all(one.score.breaches == 0 for one in found)
    assert all(sorted(one.base) == list(range(24)) for one in found)


def test_what_is_followed_by_itself_is_found() -> None:
    # By hand.
    assert squares([0, 1, 0, 1]) == [(0, 2)]
    assert squares([0, 1, 2, 0, 1, 2, 0]) == [(0, 3), (1, 3)]
    # Thue 1906: over three letters a word of any length can be free of squares; this one
    # is the beginning of his (OEIS A007814's kin A036577).
    assert squares([2, 1, 0, 2, 0, 1, 2, 1, 0, 1, 2, 0, 2, 1, 0, 2, 0, 1, 2, 0]) == []


def test_unfolding_doubles_no_middle() -> None:
    # C8 of a designer's sums: the middle of a mirrored sequence counts once.
    assert unfolded([0, 1, 2], Shape.MIRRORED, repeated=False) == [0, 1, 2, 1, 0]
    assert unfolded([0, 1, 2], Shape.MIRRORED, repeated=True) == [0, 1, 2, 1]
    assert unfolded([0, 1, 2], Shape.CLOSED, repeated=False) == [0, 1, 2, 0]
    assert unfolded([0, 1, 2], Shape.CLOSED, repeated=True) == [0, 1, 2]
