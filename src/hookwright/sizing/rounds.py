"""How many rounds or rows make a wanted size, where a piece grows in every one of them?

A circle or square gains two row heights across in every round. A cap is a circle as wide as
its girth over pi, and then keeps its count; an oval is a circle drawn out along a chain; a
ball of radius R has 2 pi R sin(r h / R) / w stitches in round r, with stitches w wide and
rounds h high. Flat is what gains 2 pi h / w stitches a round as a circle and 8 h / w as a
square. Source: geometry; the increases agree with the trade's 6 sc, 8 hdc, 12 dc a round
(getting your circles flat, craftymaria.blogspot.com/2009/06).
"""

from __future__ import annotations

import math
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from hookwright.sizing.fitting import Bracket, bracket
from hookwright.sizing.pitch import Pitch

_PI = Fraction(math.pi)
_MOST_ROUNDS = 2_000
"""Rounds of a ball that are worked out one by one."""


class Cap(Struct, frozen=True):
    """A cap that is to be made.

    Attributes:
        stitches: Around, a whole number of increases.
        crown: Rounds of the crown, in which it grows.
        straight: Rounds that keep their count.
        diameter: Of the crown, flat.
    """

    stitches: int
    crown: int
    straight: int
    diameter: Fraction


class Ball(Struct, frozen=True):
    """A ball that is to be made: the stitches of its rounds, from pole to pole."""

    counts: tuple[int, ...]

    @property
    def most(self) -> int:
        """Stitches of its widest round."""
        return max(self.counts)

    @property
    def growing(self) -> int:
        """Rounds up to its widest."""
        return self.counts.index(self.most) + 1


TWICE = Fraction(2)
"""A circle, square or hexagon gains its round's height on both sides."""
OF_TRIANGLE = Fraction(2 * math.sqrt(3)).limit_denominator(10**6)
"""The side of a triangle over the height of a round, which is its inner radius."""


def rounds_across(wanted: Fraction, row: Pitch, share: Fraction = TWICE) -> Bracket:
    """The rounds of a piece so wide.

    Args:
        wanted: How wide.
        row: What a round takes.
        share: How much wider a round makes it, in heights of the round.
    """
    return bracket(wanted, share * row.mm)


def across(rounds: int, row: Pitch, share: Fraction = TWICE) -> Pitch:
    """How wide a circle or square of so many rounds is, or the side of a triangle."""
    return row.times(share * rounds)


def flat_increases(stitch: Pitch, row: Pitch) -> Fraction:
    """The stitches that a flat circle gains in a round."""
    return 2 * _PI * row.mm / stitch.mm


def oval_chain(wanted: Fraction, width: Fraction, stitch: Pitch, turning: int) -> int:
    """The chain in the middle of an oval or a rectangle worked from its centre outwards.

    Args:
        wanted: How long the piece is to be.
        width: How wide it comes: as much as the rounds add to its length too.
        stitch: What a stitch takes.
        turning: Chains skipped at its end.
    """
    return max(1, round((wanted - width) / stitch.mm)) + turning


def cap_for(
    girth: Fraction,
    height: Fraction | None,
    stitch: Pitch,
    row: Pitch,
    first: int,
    more: int,
) -> Cap:
    """A cap by its girth and its height from the middle of the crown to the brim.

    Args:
        girth: How far around.
        height: Measured along the fabric; None to let it end with the crown.
        stitch: What a stitch takes.
        row: What a round takes.
        first: Stitches of the first round.
        more: Stitches that each round of the crown gains.
    """
    rounds = bracket(girth, more * stitch.mm, (first - more) * stitch.mm).nearest
    straight = 0
    if height is not None:
        straight = max(0, bracket(height, row.mm, rounds * row.mm, 0).nearest)
    return Cap(first + (rounds - 1) * more, rounds, straight, girth / _PI)


def ball_for(diameter: Fraction, stitch: Pitch, row: Pitch, fewest: int = 3) -> Ball:
    """The rounds of a ball, each as many stitches as its place on the sphere has room for.

    Args:
        diameter: How wide across.
        stitch: What a stitch takes.
        row: What a round takes.
        fewest: Stitches that a round has at least, beside the poles.
    """
    radius, high = float(diameter) / 2, float(row.mm)
    rounds = min(int(math.pi * radius / high), _MOST_ROUNDS)
    counts = [
        round(2 * math.pi * radius * math.sin(number * high / radius) / float(stitch.mm))
        for number in range(1, rounds + 1)
    ]
    while len(counts) > 1 and counts[-1] < fewest:
        del counts[-1]
    return Ball(tuple(max(fewest, count) for count in counts) or (fewest,))


def rows_to_width(wanted: Fraction, stitch: Pitch, first: int, more: Fraction) -> Bracket:
    """The rows of a piece that gains stitches in every row, until it is so wide."""
    return bracket(wanted, stitch.mm * more, stitch.mm * (first - more))


def schedule(counts: tuple[int, ...]) -> str:
    """Counts round after round as a pattern tells them: "6, 12, 18, 18 (4 rounds)"."""
    told: list[str] = []
    times = 1
    for before, count in pairwise((*counts, -1)):
        if before == count:
            times += 1
            continue
        told.append(str(before) if times == 1 else f"{before} ({times} rounds)")
        times = 1
    return ", ".join(told)
