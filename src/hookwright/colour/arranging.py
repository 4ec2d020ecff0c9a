"""Rules and a palette as a problem to be arranged: which stripes, and what they cost."""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.colour.facts import Kind, Palette, Rule, Shape, Table
from hookwright.colour.problem import Problem
from hookwright.colour.wishes import SIMILAR


def shape_of(rules: Sequence[Rule]) -> Shape:
    """How what is arranged becomes the sequence."""
    kinds = {rule.kind for rule in rules}
    if Kind.MIRRORED in kinds:
        return Shape.MIRRORED
    return Shape.CLOSED if Kind.FIRST_LAST in kinds else Shape.ONCE


def problem_of(
    palette: Palette,
    rules: Sequence[Rule],
    counts: Sequence[int],
    *,
    repeated: bool,
    blend: bool,
) -> Problem:
    """The problem that some rules pose; rules of rows have no part in it."""
    kinds = {rule.kind for rule in rules}
    together = tuple(
        (rule.colours[0], rule.colours[1]) for rule in rules if rule.kind is Kind.TOGETHER
    )
    return Problem(
        tuple(counts),
        palette.difference,
        tuple(shade.lightness for shade in palette.shades),
        _near(palette, rules),
        together,
        shape_of(rules),
        repeated,
        blend,
        light_dark=Kind.LIGHT_DARK in kinds,
        random=Kind.RANDOM in kinds,
    )


def is_similar(palette: Palette, one: int, other: int) -> bool:
    """Whether two colours look alike."""
    return one != other and palette.difference[one][other] < SIMILAR


def _near(palette: Palette, rules: Sequence[Rule]) -> tuple[Table, ...]:
    """How many rules two colours break at each distance."""
    reach = max((rule.number for rule in rules if rule.kind is Kind.GAP), default=1)
    if any(rule.kind is Kind.SPREAD for rule in rules):
        reach = max(reach, 2)
    size = range(len(palette.shades))
    return tuple(
        tuple(
            tuple(
                sum(_breaks(palette, rule, distance, a, b) for rule in rules) for b in size
            )
            for a in size
        )
        for distance in range(1, reach + 1)
    )


def _breaks(palette: Palette, rule: Rule, distance: int, a: int, b: int) -> bool:
    """Whether two colours so far from each other break a rule."""
    match rule.kind:
        case Kind.NEIGHBOURS:
            return distance == 1 and a == b
        case Kind.APART:
            return distance == 1 and {a, b} == set(rule.colours)
        case Kind.CONTRAST:
            return distance == 1 and a != b and palette.difference[a][b] < rule.number
        case Kind.SPREAD:
            return distance <= 2 and is_similar(palette, a, b)
        case Kind.GAP:
            return 2 <= distance <= rule.number and a == b
        case _:
            return False


def shares(stripes: int, most: Sequence[int | None]) -> list[int]:
    """So many stripes shared evenly, none with more than its most.

    What cannot be shared evenly goes to the first colours. Where the limits leave stripes
    over, these are shared as if there were none.
    """
    counts = [0] * len(most)
    while stripes:
        free = [at for at, top in enumerate(most) if top is None or counts[at] < top]
        free = free or list(range(len(most)))
        least = min(counts[at] for at in free)
        counts[next(at for at in free if counts[at] == least)] += 1
        stripes -= 1
    return counts
