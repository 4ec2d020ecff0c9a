"""Does a chain agree with the multiple that a pattern states?

A multiple may be of chains or of stitches, and chains to turn on may be added or not: a
chain agrees where one of these ways fits.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.notation.tree import Multiple, Pattern
from hookwright.working.count import Linear
from hookwright.working.fabric import foundation
from hookwright.working.outcome import Working
from hookwright.working.reading_state import State
from hookwright.working.sides import Sides

_MOST_TURNING = 4
"""Chains that custom adds to a multiple of stitches for the first stitch."""


def agrees_with_multiple(pattern: Pattern, working: Working, chains: int) -> bool:
    """Whether a chain agrees with the multiple that a pattern states, if it states one."""
    stated = pattern.multiples
    return len(stated) != 1 or fits(stated[0], working, chains)


def fits(stated: Multiple, working: Working, chains: int) -> bool:
    """Whether a chain agrees with one multiple."""
    if not stated.each:
        return True
    added = (0, stated.turning) if stated.of_chains else range(_MOST_TURNING + 1)
    numbers = [chains - more for more in added]
    first = next((o for o in working.outcomes if o.worked is not None), None)
    if first is not None and not stated.of_chains:
        stitches = first.tally.stitches
        numbers.extend([stitches] if isinstance(stitches, int) else [])
    return any((number - stated.extra) % stated.each == 0 for number in numbers)


def over_multiple(state: State, stated: Sequence[Multiple]) -> list[State]:
    """The piece begun on a chain of "6 + 1", where no number is told: of 6k + 1 chains.

    Where nothing says how many chains are added to turn on, every usual number is tried.
    """
    if len(stated) != 1 or not stated[0].each:
        return []
    (multiple,) = stated
    said = multiple.turning or multiple.of_chains
    added = [multiple.turning] if said else range(_MOST_TURNING + 1)
    numbers = [Linear.of(multiple.extra + more, multiple.each) for more in added]
    return [
        replace(state, edge=foundation(number), has_chain=True, sides=Sides(number))
        for number in numbers
    ]
