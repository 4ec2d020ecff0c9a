"""Colours that no rule tells apart, as one: whether rules can hold is then soon seen."""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.colour.arrangement import Arrangement
from hookwright.colour.facts import Shape, Table


def collapsed(problem: Arrangement) -> tuple[Arrangement, list[list[int]]]:
    """The problem with such colours as one, and the colours that each stands for.

    Nothing but breaches is kept: differences are none, and lightness only where light and
    dark take turns.
    """
    lightness = problem.lightness if problem.light_dark else (0,) * len(problem.counts)
    named = {colour for pair in problem.together for colour in pair}
    groups: list[list[int]] = []
    for colour, count in enumerate(problem.counts):
        for group in groups:
            if (
                count == 1
                and colour not in named
                and _is_like(problem, lightness, named, group, colour)
            ):
                group.append(colour)
                break
        else:
            groups.append([colour])
    place = {group[0]: at for at, group in enumerate(groups)}
    return replace(
        problem,
        counts=tuple(sum(problem.counts[colour] for colour in group) for group in groups),
        difference=tuple((0,) * len(groups) for _ in groups),
        lightness=tuple(lightness[group[0]] for group in groups),
        near=tuple(_merged(table, groups) for table in problem.near),
        together=tuple((place[a], place[b]) for a, b in problem.together),
    ), groups


def _is_like(
    problem: Arrangement,
    lightness: Sequence[int],
    named: set[int],
    group: list[int],
    colour: int,
) -> bool:
    """Whether a colour may stand wherever the first of a group may."""
    first = group[0]
    if (
        problem.counts[first] != 1
        or first in named
        or lightness[first] != lightness[colour]
    ):
        return False
    meets_itself = problem.shape is not Shape.ONCE or problem.repeated
    if meets_itself and any(
        table[first][first] != table[first][colour] for table in problem.near[1:]
    ):
        return False
    others = [at for at in range(len(problem.counts)) if at not in {first, colour}]
    return all(
        all(table[first][at] == table[colour][at] for at in others)
        and all(table[a][colour] == table[first][colour] for a in group)
        for table in problem.near
    )


def _merged(table: Table, groups: Sequence[list[int]]) -> Table:
    return tuple(
        tuple(
            table[one[0]][one[1] if len(one) > 1 else one[0]]
            if one is other
            else table[one[0]][other[0]]
            for other in groups
        )
        for one in groups
    )
