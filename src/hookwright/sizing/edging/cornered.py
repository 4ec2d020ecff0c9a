"""Rounds with corners, in which a border's repeat fits every side.

Each round begins in the middle stitch of a corner and ends there, so that every side lies
whole between two corners. A side is counted between the middles of its two corners.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from msgspec import Struct

from hookwright.sizing.edging.base import fitted
from hookwright.sizing.edging.borders import KINDS, Border
from hookwright.sizing.edging.dressing import fit_told
from hookwright.sizing.edging.even import change_to_fit
from hookwright.sizing.edging.facts import Wish
from hookwright.sizing.edging.ground import CannotBe
from hookwright.sizing.edging.moves import CORNER, Move, Moves, free, plain, several
from hookwright.sizing.facts import Multiple

IN_CORNER = 3
"""Stitches in the middle stitch of a corner: each side gains one at either end."""


class Cornered(Struct, frozen=True):
    """The rounds of an edging with corners.

    Attributes:
        rounds: Their movements.
        sides: Stitches between two corners under the border, side by side.
        changes: By how many of them each side was made to fit.
        multiple: What a side is fitted to; None where any number will do.
    """

    rounds: tuple[Moves, ...]
    sides: tuple[int, ...]
    changes: tuple[int, ...]
    multiple: Multiple | None = None


def rounds_from_a_corner(
    first: Moves, sides: Sequence[int], wish: Wish, again: Sequence[Moves] = ()
) -> Cornered | CannotBe:
    """The rounds over a first one, the last of them a border where one is wanted.

    Args:
        first: The first round, from the middle of a corner to the middle of that corner.
        sides: How many stitches of it lie between the middles of two corners.
        wish: What is asked for.
        again: What the second round works along each side; empty for plain stitches.
    """
    border = KINDS.get(wish.kind) if wish.repeat is None else None
    multiple = wish.repeat or (border.multiple if border is not None else None)
    rounds, changes = [first], [0] * len(sides)
    if any(again):
        rounds.append(_graded_round(again, sides, wish.stitch))
        sides = [number + 2 for number in sides]
    plain_rounds = max(1, wish.rows - (border is not None))
    if multiple is not None and any(change_to_fit(n, multiple) for n in sides):
        plain_rounds = max(plain_rounds, 2)
    for number in range(1, plain_rounds):
        if multiple is not None and number == plain_rounds - 1:
            changes = [change_to_fit(n + 2, multiple) for n in sides]
        between = [fitted(n, c, wish.stitch) for n, c in zip(sides, changes, strict=True)]
        if any(side is None for side in between):
            return CannotBe("A side is too short for the repeat of the border.")
        rounds.append(_plain_round([side or () for side in between], wish.stitch))
        sides = [n + c + 2 for n, c in zip(sides, changes, strict=True)]
    if border is not None:
        rounds.append(_border_round(border, sides))
    return Cornered(tuple(rounds), tuple(sides), tuple(changes), multiple)


def _plain_round(between: Sequence[Moves], stitch: str) -> Moves:
    first, *others = between
    corner = several(IN_CORNER, stitch)
    found: list[Move] = [several(2, stitch), CORNER, *first]
    for side in others:
        found += [CORNER, corner, CORNER, *side]
    return (*found, CORNER, back_in_corner(stitch))


def _graded_round(again: Sequence[Moves], sides: Sequence[int], stitch: str) -> Moves:
    """A second round, graded on some sides; its corners are as tall as what is beside."""
    between = [
        side or (plain(stitch),) * number for side, number in zip(again, sides, strict=True)
    ]
    begins = [
        side[0].stitch if told else "" for side, told in zip(between, again, strict=True)
    ]
    first = between[0][0].stitch
    found: list[Move] = [several(2, first), CORNER, *between[0]]
    for at, side in enumerate(between[1:], start=1):
        beside = begins[at] or between[at - 1][-1].stitch
        found += [CORNER, several(IN_CORNER, beside), CORNER, *side]
    return (*found, CORNER, back_in_corner(first))


def back_in_corner(stitch: str, noun: str = "st", number: int = 1) -> Move:
    """The last stitches of a corner, in the place where the round began."""
    some = f"{number} " if number > 1 else ""
    words = f"{some}{{{stitch}}} in same {noun} as first {{{stitch}}}"
    return free(words, makes=number)


def _border_round(border: Border, sides: Sequence[int]) -> Moves:
    found: list[Move] = []
    for number in sides:
        found += [*border.corner, CORNER, *border.over(number), CORNER]
    return tuple(found)


def fits_told(found: Cornered, names: Sequence[str]) -> Iterator[str]:
    """How the repeat fits each side, in sentences; alike sides are told once."""
    multiple = found.multiple
    if multiple is None or multiple.each == 1:
        return
    sides = list(zip(names, found.sides, found.changes, strict=True))
    if len({(number, change) for _, number, change in sides}) == 1:
        sides = [("each side", *sides[0][1:])]
    for name, number, change in sides:
        fits = fit_told(multiple, number, change)
        yield f"Between two corners {name} has {number} sts: {fits}."
