"""How many whole balls, what do they cost, and what is left of them?

Balls are rounded once, up, for nobody sells a part of one. Prices are decimals.
"""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction
from math import ceil

from msgspec import Struct


class Bought(Struct, frozen=True):
    """Whole balls.

    Attributes:
        balls: How many.
        joins: Where a second, third, ... of them begins, by the likeliest need.
        need: The likeliest need, the ends of the joins with it.
        had: The length that is to be had, the allowance with it.
    """

    balls: int
    joins: int
    need: Fraction
    had: Fraction


def whole_balls(need: Fraction, ball: Fraction) -> int:
    """Whole balls for a length, or a weight: up, once."""
    return ceil(need / ball)


def bought(need: Fraction, ball: Fraction, over: Fraction, tail: Fraction) -> Bought:
    """The balls for a need.

    Each join of two balls leaves two ends to weave in, which take yarn themselves: j joins
    are the fewest for which need + 2 j ends are no more than j + 1 balls.

    Args:
        need: The likeliest need.
        ball: The length of a ball.
        over: What is to be had over the need, in parts of it.
        tail: The length of an end.
    """
    room = ball - 2 * tail
    joins = max(0, ceil((need - ball) / (room if room > 0 else ball)))
    whole = need + 2 * joins * tail
    had = whole * (1 + over)
    return Bought(whole_balls(had, ball), joins, whole, had)


def cost_of(balls: int, price: Decimal) -> Decimal:
    """What so many balls cost."""
    return balls * price


def left_over(balls: int, ball: Fraction, need: Fraction) -> Fraction:
    """What is likely left of the balls."""
    return balls * ball - need


def instead(balls: int, ball: Fraction, other: Fraction) -> int:
    """Balls of another yarn for so many of one: by their length, never by their weight."""
    return whole_balls(balls * ball, other)


def rows_from(grams: Fraction, keep: Fraction, per_row: Fraction) -> int:
    """Whole rows that some yarn is enough for, with a reserve kept: down."""
    return max(0, (grams - keep) // per_row)
