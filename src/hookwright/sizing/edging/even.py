"""How is a number spread evenly, and which small fraction comes close to another?

All of it is whole numbers and fractions. Source: the even spread by floors is that of a
line drawn on a grid (Bresenham); it is the same as sharing S stitches among n sections.
"""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

from hookwright.sizing.facts import Multiple

MOST_ROWS_TOLD = 8
"""A rhythm over more rows than this is none that a maker keeps in her head."""
_WORTH_OF_A_ROW = Fraction(15, 1000)
"""How much nearness one row more in the rhythm has to bring: 1.5 parts in 100."""


_FLAT = Fraction(8, 100)


def shares(whole: int, sections: int) -> tuple[int, ...]:
    """A whole in even sections, no two of which differ by more than 1."""
    return tuple(
        (i + 1) * whole // sections - i * whole // sections for i in range(sections)
    )


def middles(whole: int, points: int) -> tuple[int, ...]:
    """Points spread evenly over places 0 to whole - 1, with half a gap at either end."""
    return tuple((2 * i + 1) * whole // (2 * points) for i in range(points))


def rate(exact: Fraction) -> Fraction:
    """The small fraction for a number of stitches a row: near it, and over few rows.

    It is off by no more than lies flat, if any is so near. Each further row of the rhythm
    has to be worth 1.5 % of nearness: 1.75 stays 7 in 4 rows, 1.88 becomes 2 a row, 0.95
    becomes 1.
    """
    near = list(_near(exact))
    flat = [number for number in near if abs(number / exact - 1) <= _FLAT]
    return min(flat or near, key=lambda number: (_cost(number, exact), number.denominator))


def _near(exact: Fraction) -> Iterator[Fraction]:
    for rows in range(1, MOST_ROWS_TOLD + 1):
        yield Fraction(max(1, round(exact * rows)), rows)


def _cost(near: Fraction, exact: Fraction) -> Fraction:
    return abs(near / exact - 1) + _WORTH_OF_A_ROW * near.denominator


def change_to_fit(stitches: int, multiple: Multiple, least: int = 1) -> int:
    """The smallest number of stitches more, or fewer, that a border's repeat fits.

    Of two as small the increase is taken: an edge of one too many eases in.
    """
    over = (stitches - multiple.extra) % multiple.each
    fewer, more = -over, (multiple.each - over) % multiple.each
    fits = fewer if over < multiple.each - over else more
    shortest = multiple.at(max(least, multiple.least))
    return fits if stitches + fits >= shortest else shortest - stitches
