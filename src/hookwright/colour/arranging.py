"""Rules and a palette as a problem to be arranged: which stripes, and what they cost."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import permutations

from hookwright.colour.arrangement import Arrangement
from hookwright.colour.facts import Kind, Palette, Rule, Shape, Table
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
) -> Arrangement:
    """The problem that some rules pose; rules of rows have no part in it."""
    kinds = {rule.kind for rule in rules}
    together = tuple(
        (rule.colours[0], rule.colours[1]) for rule in rules if rule.kind is Kind.TOGETHER
    )
    return Arrangement(
        counts=tuple(counts),
        difference=palette.difference,
        lightness=tuple(shade.lightness for shade in palette.shades),
        near=_near(palette, rules),
        together=together,
        shape=shape_of(rules),
        repeated=repeated,
        blend=blend,
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
    size = len(palette.shades)
    tables = [[[0] * size for _ in range(size)] for _ in range(reach)]
    for rule in rules:
        for distance, a, b in _broken(palette, rule):
            tables[distance - 1][a][b] += 1
    return tuple(tuple(map(tuple, table)) for table in tables)


def _broken(palette: Palette, rule: Rule) -> Iterator[tuple[int, int, int]]:
    """At which distance do which colours break a rule?"""
    every = range(len(palette.shades))
    match rule.kind:
        case Kind.NEIGHBOURS:
            yield from ((1, a, a) for a in every)
        case Kind.APART:
            yield from ((1, a, b) for a, b in permutations(rule.colours, 2))
        case Kind.CONTRAST:
            for a, b in permutations(every, 2):
                if palette.difference[a][b] < rule.number:
                    yield 1, a, b
        case Kind.SPREAD:
            for a, b in permutations(every, 2):
                if is_similar(palette, a, b):
                    yield from ((1, a, b), (2, a, b))
        case Kind.GAP:
            yield from ((far, a, a) for far in range(2, rule.number + 1) for a in every)
        case _:
            return


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
