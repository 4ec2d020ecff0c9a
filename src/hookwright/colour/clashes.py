"""Which rules cannot all hold? The smallest set of them that clash.

Of every order that is met, the rules it breaks are one way to mend the clash, so a set of
rules that clash has a member in each of these. The smallest set with that property is
tried: if an order holds it, that order breaks others, and is one way more; if it is proven
that none does, the set is the smallest there is.

Source: Ignatiev, Previti, Liffiton and Marques-Silva 2015, "Smallest MUS extraction with
minimal hitting set dualization".
"""

from __future__ import annotations

from collections.abc import Callable, Iterator, Sequence
from itertools import combinations

_ROUNDS = 40
_LARGEST = 5
"""Rules in a clash; to be told that more clash helps nobody."""

Rules = frozenset[int]


def smallest_clash(first: Rules, broken_under: Callable[[Rules], Rules | None]) -> Rules:
    """The fewest rules that cannot all hold; empty where that is not found out.

    Args:
        first: The rules that some order breaks.
        broken_under: Which rules an order breaks that holds the given ones; None where
            none does. It raises `Unsure` where that cannot be told.
    """
    ways = [first]
    for _ in range(_ROUNDS):
        tried = next(_hitting(ways), None)
        if tried is None:
            return frozenset()
        try:
            broken = broken_under(tried)
        except Unsure:
            return frozenset()
        if broken is None:
            return tried
        ways.append(broken)
    return frozenset()


class Unsure(Exception):  # noqa: N818 - nothing is wrong: there is too much to look at
    """It cannot be told whether some rules can hold."""


def _hitting(ways: Sequence[Rules]) -> Iterator[Rules]:
    """Sets with a member in each of some sets, the smallest first."""
    members = sorted(frozenset().union(*ways))
    for size in range(1, _LARGEST + 1):
        for chosen in map(frozenset, combinations(members, size)):
            if all(chosen & way for way in ways):
                yield chosen
