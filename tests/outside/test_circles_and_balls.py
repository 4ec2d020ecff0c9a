"""Rounds whose counts come from geometry: circles, crowns, balls, hyperbolic rows.

A flat circle grows by what it begins with, for a ring one stitch height wider is 2 pi heights
longer. The formulas stand beside the checks; the pattern is written from them.
"""

from __future__ import annotations

from itertools import pairwise
from math import ceil, floor, pi, sin

import pytest
from working_texts import errors, made

SPIRAL = "US terms. Work in a spiral; do not join."


def over(below: int, above: int, stitch: str = "sc") -> str:
    """A round in words that comes out at a count, its changes spread evenly."""
    change = abs(above - below)
    if not change:
        return f"{stitch.title()} in each st around."
    used = 1 if above > below else 2
    made_so = f"2 {stitch} in next st" if above > below else f"{stitch}2tog"
    length, longer = divmod(below, change)
    groups = [
        f"({_plain(each - used, stitch)}{made_so}) {times} times"
        for each, times in ((length, change - longer), (length + 1, longer))
        if times
    ]
    return f"{', '.join(groups)}."


def _plain(number: int, stitch: str) -> str:
    if not number:
        return ""
    return f"{stitch} in next {f'{number} sts' if number > 1 else 'st'}, "


def rounds(counts: list[int], stitch: str = "sc") -> str:
    """A pattern in rounds with these counts."""
    first = f"Rnd 1: {counts[0]} {stitch} in magic ring. ({counts[0]})"
    later = [
        f"Rnd {number}: {over(below, above, stitch)} ({above})"
        for number, (below, above) in enumerate(pairwise(counts), start=2)
    ]
    return "\n\n".join([SPIRAL, first, *later]) + "\n"


@pytest.mark.parametrize(("stitch", "first"), [("sc", 6), ("hdc", 8), ("dc", 12)])
def test_flat_circles_grow_by_what_they_begin_with(stitch: str, first: int) -> None:
    """Source: craftymaria.blogspot.com 2009/06 and doradoes.co.uk 2020/12/12: 6, 8 and 12."""
    counts = [first * number for number in range(1, 9)]
    assert made(rounds(counts, stitch)) == counts
    assert errors(rounds(counts, stitch)) == []


@pytest.mark.parametrize(("stitch", "first"), [("sc", 6), ("hdc", 8), ("dc", 12)])
def test_a_round_of_a_circle_has_an_increase_every_n_less_one(
    stitch: str, first: int
) -> None:
    """Source: crochetrebellion.com, circle: round n increases after every n - 1 stitches."""
    text = "\n\n".join(
        [
            SPIRAL,
            f"Rnd 1: {first} {stitch} in magic ring. ({first})",
            f"Rnd 2: 2 {stitch} in each st around. ({2 * first})",
            (
                f"Rnd 3: *{stitch} in next st, 2 {stitch} in next st; rep from * around. "
                f"({3 * first})"
            ),
            (
                f"Rnd 4: *{stitch} in next 2 sts, 2 {stitch} in next st; rep from * around. "
                f"({4 * first})"
            ),
        ]
    )
    assert made(text) == [first, 2 * first, 3 * first, 4 * first]
    assert errors(text) == []


@pytest.mark.parametrize(
    ("stitch", "first", "around_in", "stitches_per_in", "row_in", "expected"),
    [
        # A dc half an inch high and a quarter wide: 22 in around are 7 in across.
        ("dc", 12, 22.0, 4.0, 0.5, 84),
        ("sc", 6, 22.0, 3.5, 0.27, 78),
        ("hdc", 8, 13.5, 4.0, 0.32, 56),
    ],
)
def test_a_crown_ends_with_the_stitches_of_its_size(
    stitch: str,
    first: int,
    around_in: float,
    stitches_per_in: float,
    row_in: float,
    expected: int,
) -> None:
    """Common practice, checked on three sizes of a published table: diameter = around / pi,
    rounds = diameter / (2 x row), stitches = around x gauge, to a whole number of increases.
    """
    number = round(around_in * stitches_per_in / first)
    assert number * first == expected
    assert number == pytest.approx(around_in / pi / 2 / row_in, abs=0.6)
    counts = [first * n for n in range(1, number + 1)] + [expected] * 3
    assert made(rounds(counts, stitch)) == counts
    assert errors(rounds(counts, stitch)) == []


def ball(radius: float, row: float, width: float) -> list[int]:
    """Stitches of a ball, round by round from pole to pole, all in the same measure.

    Round r lies at the angle r h / R from the pole, on a circle of 2 pi R sin(r h / R).
    """
    last = floor(pi * radius / row)
    around = (2 * pi * radius * sin(r * row / radius) for r in range(1, last + 1))
    counts = [round(length / width) for length in around]
    # A round that more than halves the one below is drawn shut instead.
    while counts[-1] < ceil(counts[-2] / 2):
        counts.pop()
    return counts


@pytest.mark.parametrize(
    ("radius", "row", "width"),
    [(6.0, 1.0, 1.0), (5.0, 0.9, 1.0), (8.0, 0.92, 1.0), (4.0, 1.0, 1.0), (30.0, 5.5, 6.0)],
)
def test_a_ball_by_its_formula_is_worked_as_counted(
    radius: float, row: float, width: float
) -> None:
    """Geometry: the circles of a sphere; no rule of thumb in between."""
    counts = ball(radius, row, width)
    assert made(rounds(counts)) == counts
    assert errors(rounds(counts)) == []


def test_a_ball_of_radius_six_widens_to_38_and_narrows_again() -> None:
    """By hand: 2 pi 6 sin(1/6) = 6.25, and at the belt 2 pi 6 = 37.7."""
    counts = ball(6.0, 1.0, 1.0)
    assert counts[0] == 6
    assert max(counts) == 38


def test_a_wrong_round_of_a_ball_is_told() -> None:
    text = rounds(ball(6.0, 1.0, 1.0))
    assert errors(text.replace("(35)", "(36)")) == [("stated-count", "(36)")]


def test_doubling_each_round_is_hyperbolic() -> None:
    """Source: timaryart.blogspot.com 2009/03: 6, 12, 24, 48, 96."""
    text = "\n\n".join(
        [
            f"{SPIRAL}\n\nRnd 1: 6 sc in magic ring. (6)",
            *(
                f"Rnd {n}: 2 sc in each st around. ({6 * 2 ** (n - 1)})"
                for n in range(2, 6)
            ),
        ]
    )
    assert made(text) == [6, 12, 24, 48, 96]
    assert errors(text) == []


@pytest.mark.parametrize(
    ("every", "counts"),
    [(4, [20, 25]), (3, [27, 36, 48, 64]), (5, [25, 30, 36]), (10, [100, 110, 121])],
)
def test_one_more_in_every_nth_keeps_a_constant_ratio(
    every: int, counts: list[int]
) -> None:
    """Source: sites.google.com/site/phanyamada, hyperbolic model with rate 5/4: 20 to 25.

    Mathematics of the hyperbolic plane (Henderson and Taimina): n (N + 1) / N a row.
    """
    later = [
        f"Row {number}: Ch 1, *sc in next {every - 1} sts, 2 sc in next st; rep from * "
        f"across. Turn. ({count})"
        for number, count in enumerate(counts[1:], start=2)
    ]
    first = f"Row 1: Sc in 2nd ch from hook and in each ch across. Turn. ({counts[0]})"
    text = "\n\n".join([f"Ch {counts[0] + 1}.", first, *later])
    assert made(text)[1:] == counts
    assert errors(text) == []
