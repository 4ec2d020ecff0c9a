"""Which numbers of some instructions are told for each size, and what is told for one?"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from msgspec import Struct
from msgspec.structs import astuple

from hookwright.notation.rebuilding import rebuilt
from hookwright.notation.tree import Amount, Node
from hookwright.source import Span


def lists_by_size(value: object) -> Iterator[Amount]:
    """Every list with a number a size among some instructions and counts."""
    if isinstance(value, tuple):
        for item in value:
            yield from lists_by_size(item)
    elif isinstance(value, Struct):
        yield from _lists_within(value)


@lru_cache(maxsize=4096)  # an instruction stands in many rows
def _lists_within(value: Struct) -> tuple[Amount, ...]:
    found: list[Amount] = []
    waiting: list[object] = [value]
    while waiting:
        one = waiting.pop()
        if type(one) in _HOLDS_NOTHING:
            continue
        if isinstance(one, Amount):
            if len(one.values) > 1:
                found.append(one)
        elif isinstance(one, tuple):
            waiting.extend(reversed(one))
        elif isinstance(one, Struct):
            waiting.extend(reversed(astuple(one)))
    return tuple(found)


_HOLDS_NOTHING = frozenset((Span, str, int, bool, type(None)))


def is_by_size(value: object) -> bool:
    """Whether any number among some instructions may be another one in another size."""
    return next(lists_by_size(value), None) is not None


def lacks_number(value: object, size: int) -> bool:
    """Whether some list is too short to have a number for a size; a dash is one."""
    return any(size >= len(amount.values) for amount in lists_by_size(value))


@lru_cache(maxsize=4096)
def in_size(nodes: tuple[Node, ...], size: int) -> tuple[Node, ...]:
    """Some instructions as a text for one size alone would tell them, where they stand.

    "Sc in next 10 (11, 12) sts" of the second size is what "sc in next 11 (12, 13) sts" is
    of the first. Where a list has no number for the size, nothing is changed.
    """
    if lacks_number(nodes, size):
        return nodes

    def own(value: object) -> object:
        if not isinstance(value, Amount) or len(value.values) == 1:
            return value
        return Amount((value.at(size),), value.span)

    return tuple(rebuilt(node, own) if is_by_size(node) else node for node in nodes)
