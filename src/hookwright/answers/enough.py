"""How many balls, rows or pieces is some yarn enough for? Plain arithmetic."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import ceil, floor


def balls_for(need: Fraction, in_ball: Fraction) -> int:
    """Whole balls for a need, rounded up: a maker buys whole balls."""
    return ceil(need / in_ball)


def rows_from(yarn: Fraction, each_row: Fraction, kept: Fraction = Fraction(0)) -> int:
    """Whole rows from some yarn, rounded down, with some of it kept for what comes after.

    Grams and metres do as well, if all three are the same.
    """
    return max(0, floor((yarn - kept) / each_row))


def rows_of_growing(yarn: Fraction, rows: Sequence[Fraction]) -> int:
    """How many of the next rows some yarn is enough for, each row with what it takes."""
    left = yarn
    for number, row in enumerate(rows):
        left -= row
        if left < 0:
            return number
    return len(rows)


def shared_out(limits: Sequence[Fraction], each: Fraction) -> tuple[int, int]:
    """How many rows several colours are enough for, and which of them ends first.

    Returns:
        Whole rows of the colour that ends first, and its number from 0.
    """
    rows = [rows_from(limit, each) for limit in limits]
    least = min(range(len(rows)), key=rows.__getitem__)
    return rows[least], least
