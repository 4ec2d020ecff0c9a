"""Which parts of a pattern change size together, and by what does each number change?

A front and a back that stand on chains of their own and are as wide as one another are one
size: what is added to the one is added to the other. A part of another width that stands on
its own chain stays as it is, and is told.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.notation.tree import Amount
from hookwright.regex import regex
from hookwright.sizing.along_edges import Rate
from hookwright.sizing.facts import Grown, PartMultiple
from hookwright.sizing.multiples import Growth, Solved
from hookwright.sizing.slots import amounts_in


class Together(Struct, frozen=True):
    """The parts of one size that change together.

    Attributes:
        changes: What one repeat more adds to each number, by the identity of the number.
        amounts: The numbers that change.
        rates: Numbers along an edge that are rounded for each size.
        stops: The first row that does not come out at another size; None if all do.
        apart: The parts that stand on chains of their own and stay, by number.
    """

    changes: Mapping[int, int]
    amounts: tuple[Amount, ...] = ()
    rates: tuple[Rate, ...] = ()
    stops: int | None = None
    apart: tuple[int, ...] = ()


def main_part(growth: Growth) -> PartMultiple | None:
    """The first part that has a multiple: the one that a size is told of."""
    return next((part for part in growth.parts.values() if not part.reason), None)


def with_alike(growths: Mapping[int, Growth], every: Sequence[Growth]) -> dict[int, Growth]:
    """Sizes with the parts that change together: as wide as one another in every size.

    Args:
        growths: The sizes at work.
        every: All sizes of the text: parts may be as wide in one of them by chance.
    """
    alike = [
        number for number in _alike(every[0]) if all(number in _alike(own) for own in every)
    ]
    return {size: replace(one, alike=tuple(alike)) for size, one in growths.items()}


def _alike(growth: Growth) -> list[int]:
    """The main part, and those that begin on their own and are as wide, by number."""
    main = main_part(growth)
    begun = {growth.growing.steps[one.root.at].part for one in growth.solved}
    return [
        number
        for number, part in growth.parts.items()
        if main is not None
        and (part is main or (number in begun and is_as_wide(part, main)))
    ]


def rows_alike(growth: Growth) -> list[int]:
    """Those of them whose rows come in the same sets, so that they grow higher together."""
    main = main_part(growth)
    return [
        number
        for number in growth.alike
        if main is not None
        and growth.parts[number].rows == main.rows
        and growth.parts[number].set_repeats == main.set_repeats
    ]


_OTHERS = regex(
    r"\b(?:sleeves?|straps?|cuffs?|collars?|pockets?|hoods?|belts?|ties?|bands?|flaps?)\b",
    re.IGNORECASE,
)


def is_as_wide(part: PartMultiple, main: PartMultiple) -> bool:
    """Whether a part is as wide as the main one, and that not by chance.

    A sleeve may have as many stitches as a front has, and is no wider for a wider front.
    """
    named = [_OTHERS.search(one.part) is not None for one in (part, main)]
    return (
        not part.reason
        and named[0] == named[1]
        and part.stitches is not None
        and part.stitches == main.stitches
        and part.repeats == main.repeats
    )


def growing_together(growth: Growth) -> Together | None:
    """What changes with the size of the main part; None where nothing can."""
    found = [
        (_part_of(growth, one), one.found)
        for one in growth.solved
        if isinstance(one.found, Grown) and one.found.changes and _grows(growth, one.found)
    ]
    own = [(part, grown) for part, grown in found if part in growth.alike]
    moved = own or found[:1]
    if not moved:
        return None
    changes: dict[int, int] = {}
    amounts: dict[int, Amount] = {}
    for part, grown in moved:
        in_it = {id(a) for a in _amounts_of(growth, part)}
        for amount in grown.amounts:
            key = id(amount)
            both = key in changes and key not in in_it
            changes[key] = grown.changes[key] + (changes[key] if both else 0)
            amounts[key] = amount
    parts = {part for part, _ in moved}
    apart = dict.fromkeys(_part_of(growth, one) for one in growth.solved)
    stops = [grown.stops for _, grown in moved if grown.stops is not None]
    return Together(
        changes,
        tuple(amounts.values()),
        tuple({id(rate.amount): rate for _, one in moved for rate in one.rates}.values()),
        min(stops, default=None),
        tuple(part for part in apart if part not in parts and _has_multiple(growth, part)),
    )


def _has_multiple(growth: Growth, part: int) -> bool:
    return part in growth.parts and not growth.parts[part].reason


def _part_of(growth: Growth, one: Solved) -> int:
    return growth.growing.steps[one.root.at].part


def _amounts_of(growth: Growth, part: int) -> Iterator[Amount]:
    """The numbers of the rows of a part."""
    for step in growth.growing.steps:
        if step.part == part:
            yield from amounts_in(step.nodes)


def _grows(growth: Growth, grown: Grown) -> bool:
    """Whether any row has other counts on the longer chain."""
    return any(
        was.worked is not None
        and now.worked is not None
        and was.worked.row.makes != now.worked.row.makes
        for was, now in zip(growth.growing.base, grown.outcomes, strict=False)
    )
