"""Does a chain agree with the multiple that a pattern states?

A multiple may be of chains or of stitches, and chains to turn on may be added or not: a
chain agrees where one of these ways fits.
"""

from __future__ import annotations

from hookwright.notation.tree import Multiple, Pattern
from hookwright.working.outcome import Working

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
