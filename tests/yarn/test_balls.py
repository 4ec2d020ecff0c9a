"""Whole balls are rounded up once, and prices are exact."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from hypothesis import given, settings
from hypothesis import strategies as some

from hookwright.yarn.balls import bought, cost_of, instead, left_over, whole_balls

LENGTHS = some.fractions(Fraction(0), Fraction(5_000_000), max_denominator=1000)
BALLS = some.fractions(Fraction(10_000), Fraction(900_000), max_denominator=1000)
SHARES = some.fractions(Fraction(0), Fraction(1, 2), max_denominator=100)


@settings(max_examples=60)
@given(LENGTHS, BALLS)
def test_so_many_balls_are_enough_and_one_fewer_is_not(
    need: Fraction, ball: Fraction
) -> None:
    balls = whole_balls(need, ball)
    assert balls * ball >= need
    assert (balls - 1) * ball < need or not balls
    assert 0 <= left_over(balls, ball, need) < ball or not need


@settings(max_examples=60)
@given(LENGTHS, BALLS, SHARES)
def test_the_ends_of_the_joins_are_part_of_the_need(
    need: Fraction, ball: Fraction, over: Fraction
) -> None:
    tail = Fraction(150)
    found = bought(need, ball, over, tail)
    assert found.need == need + 2 * found.joins * tail
    assert found.had == found.need * (1 + over)
    assert found.balls == whole_balls(found.had, ball)
    assert found.joins >= whole_balls(found.need, ball) - 1


@settings(max_examples=40)
@given(some.integers(0, 900), some.integers(1, 99_999))
def test_a_price_is_what_so_many_times_a_ball_costs(balls: int, pence: int) -> None:
    price = Decimal(pence) / 100
    assert cost_of(balls, price) * 100 == balls * pence


def test_a_price_of_a_third_of_a_penny_is_not_rounded() -> None:
    assert cost_of(3, Decimal("6.333")) == Decimal("18.999")


@settings(max_examples=40)
@given(some.integers(1, 99), BALLS, BALLS)
def test_balls_of_another_yarn_are_at_least_as_long(
    balls: int, ball: Fraction, other: Fraction
) -> None:
    assert instead(balls, ball, other) * other >= balls * ball
