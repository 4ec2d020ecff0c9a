"""Which set of rows does a piece repeat, and how often?

Rows that are others again, by word or by being written alike, make up sets; the rows before
the first set and after the last are beside them.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec import Struct

from hookwright.working.steps import Step

_LONGEST = 60
"""Rows in a set: a longer one is a piece that is worked twice."""


class RowSets(Struct, frozen=True):
    """The sets of rows that a piece repeats.

    Attributes:
        first: Where the first set begins, in working order within the piece.
        each: How many rows a set has.
        times: How often it is worked, whole.
        others: How many rows lie before, after, and in a set cut short.
    """

    first: int
    each: int
    times: int
    others: int


def row_sets(steps: Sequence[Step]) -> RowSets | None:
    """The shortest set that covers most of some rows; None where none does."""
    keys = [step.nodes for step in steps]
    best: RowSets | None = None
    for each in range(1, min(_LONGEST, len(keys) // 2) + 1):
        first, length = _longest_stretch(keys, each)
        if length < 2 * each:
            continue
        times = length // each
        found = RowSets(first, each, times, len(keys) - times * each)
        if best is None or found.times * each > best.times * best.each:
            best = found
    return best


def _longest_stretch(keys: Sequence[object], each: int) -> tuple[int, int]:
    """Where the longest stretch begins in which every row is the one `each` before it."""
    best = (0, 0)
    begun = 0
    for at in range(each, len(keys) + 1):
        if at < len(keys) and keys[at] == keys[at - each]:
            continue
        length = at - begun
        if length > best[1]:
            best = (begun, length)
        begun = at - each + 1
    return best
