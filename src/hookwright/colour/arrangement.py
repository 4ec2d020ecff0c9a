"""Stripes to be arranged, as numbers: what an order is judged by.

What is arranged is the *base*: for a mirrored sequence its first half with the middle, for
one whose last stripe is the first again all but the last. `unfolded` tells the whole.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from hookwright.colour.facts import Score, Shape, Table

LONGEST_SQUARE = 6
"""Stripes that the eye takes in as one sequence: our own choice."""


class Arrangement(Struct, frozen=True):
    """Stripes to be arranged.

    Attributes:
        counts: How many stripes of each colour the base has.
        difference: How different every two colours are.
        lightness: How light each is.
        near: For each distance from 1 on, how many rules are broken by two colours that
            far from each other.
        together: Pairs that lie side by side somewhere.
        shape: How the base becomes the sequence.
        repeated: Whether the sequence begins again behind its end.
        blend: Whether neighbours are to be alike.
        light_dark: Whether every stripe is lighter, or darker, than both its neighbours.
        random: Whether no sequence of stripes is to be followed by itself.
    """

    counts: tuple[int, ...]
    difference: Table
    lightness: tuple[int, ...]
    near: tuple[Table, ...]
    together: tuple[tuple[int, int], ...] = ()
    shape: Shape = Shape.ONCE
    repeated: bool = False
    blend: bool = False
    light_dark: bool = False
    random: bool = False

    @property
    def weight(self) -> int:
        """How often every place of the base stands in the sequence."""
        return 2 if self.shape is Shape.MIRRORED else 1


def unfolded(base: Sequence[int], shape: Shape, *, repeated: bool) -> list[int]:
    """The sequence as it is worked once, without what comes behind its last repeat."""
    if shape is Shape.MIRRORED:
        back = list(base[-2::-1])
        return [*base, *(back[:-1] if repeated else back)]
    if shape is Shape.CLOSED and not repeated:
        return [*base, *base[:1]]
    return list(base)


def ahead(stripes: Sequence[int], distance: int, *, repeated: bool) -> list[int]:
    """For each stripe the one so far ahead; of a sequence that begins again, around it."""
    if not repeated:
        return list(stripes[distance:])
    turn = distance % len(stripes)
    return [*stripes[turn:], *stripes[:turn]]


def turns(lightness: Sequence[int], stripes: Sequence[int], *, repeated: bool) -> int:
    """How many stripes are lighter, or darker, than both their neighbours."""
    behind = ahead(stripes, 1, repeated=repeated)
    steps = [lightness[b] - lightness[a] for a, b in zip(stripes, behind, strict=False)]
    following = ahead(steps, 1, repeated=repeated) if steps else []
    return sum(a * b < 0 for a, b in zip(steps, following, strict=False))


def squares(stripes: Sequence[int]) -> list[tuple[int, int]]:
    """Where a sequence of two to six stripes is followed by itself: place and length."""
    found = []
    for length in range(2, min(LONGEST_SQUARE, len(stripes) // 2) + 1):
        alike = 0
        for at in range(len(stripes) - length):
            alike = alike + 1 if stripes[at] == stripes[at + length] else 0
            if alike >= length:
                found.append((at - length + 1, length))
    return found


def score(problem: Arrangement, base: Sequence[int]) -> Score:
    """How good an order is."""
    repeated = problem.repeated
    stripes = unfolded(base, problem.shape, repeated=repeated)
    pairs = list(zip(stripes, ahead(stripes, 1, repeated=repeated), strict=False))
    apart = [problem.difference[a][b] for a, b in pairs]
    turned = turns(problem.lightness, stripes, repeated=repeated)
    breaches = _breaches(problem, stripes, pairs)
    if problem.light_dark:
        breaches += (len(stripes) if repeated else max(0, len(stripes) - 2)) - turned
    if problem.blend:
        return Score(breaches, max(apart, default=0), sum(apart), turned)
    return Score(breaches, -min(apart, default=0), -sum(apart), -turned)


def _breaches(
    problem: Arrangement, stripes: Sequence[int], pairs: Sequence[tuple[int, int]]
) -> int:
    found = sum(problem.near[0][a][b] for a, b in pairs)
    for distance, table in enumerate(problem.near[1:], 2):
        far = ahead(stripes, distance, repeated=problem.repeated)
        found += sum(table[a][b] for a, b in zip(stripes, far, strict=False))
    if problem.together:
        touching = {*pairs, *((b, a) for a, b in pairs)}
        found += sum(pair not in touching for pair in problem.together)
    return found + (len(squares(stripes)) if problem.random else 0)
