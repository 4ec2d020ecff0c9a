"""Which row of one version is which row of the other?

Rows that make the very same are laid side by side, whatever they are called; between them
the rest goes by its numbers, then in order.
"""

from __future__ import annotations

from collections.abc import Hashable, Iterator, Sequence
from difflib import SequenceMatcher

Pair = tuple[int | None, int | None]
"""The place of a row in the older and in the newer version; None where it is in one
only."""


def aligned(
    old: Sequence[Hashable],
    new: Sequence[Hashable],
    old_names: Sequence[Hashable],
    new_names: Sequence[Hashable],
) -> Iterator[Pair]:
    """Pairs in working order.

    Args:
        old: What each row of the older version makes.
        new: The same of the newer one.
        old_names: What each row is called: part and number.
        new_names: The same of the newer one.
    """
    first = _alike(old, new)
    last = _alike(old[first:][::-1], new[first:][::-1])
    yield from ((n, n) for n in range(first))
    end_old, end_new = len(old) - last, len(new) - last
    matcher = SequenceMatcher(None, old[first:end_old], new[first:end_new], autojunk=False)
    for tag, a, b, c, d in matcher.get_opcodes():
        mine, other = range(first + a, first + b), range(first + c, first + d)
        if tag == "equal":
            yield from zip(mine, other, strict=True)
        else:
            yield from _by_name(mine, other, old_names, new_names)
    yield from ((end_old + n, end_new + n) for n in range(last))


def _alike(one: Sequence[Hashable], other: Sequence[Hashable]) -> int:
    """How many rows are alike from the beginning."""
    pairs = zip(one, other, strict=False)
    return next((n for n, (a, b) in enumerate(pairs) if a != b), min(len(one), len(other)))


def _by_name(
    mine: Sequence[int],
    other: Sequence[int],
    old_names: Sequence[Hashable],
    new_names: Sequence[Hashable],
) -> Iterator[Pair]:
    if len(mine) == len(other):
        yield from zip(mine, other, strict=True)
        return
    named = {new_names[n]: n for n in reversed(other)}
    used: set[int] = set()
    for n in mine:
        found = named.get(old_names[n])
        if found is not None and found not in used:
            used.add(found)
            yield n, found
        else:
            yield n, None
    yield from ((None, n) for n in other if n not in used)
