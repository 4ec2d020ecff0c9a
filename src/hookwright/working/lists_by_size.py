"""Which numbers of some instructions are told for each size, and is one lacking?"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from hookwright.notation.tree import Amount
from hookwright.source import Span


def lists_by_size(value: object) -> Iterator[Amount]:
    """Every list with a number a size among some instructions and counts."""
    if isinstance(value, Amount):
        if len(value.values) > 1:
            yield value
    elif isinstance(value, tuple):
        for item in value:
            yield from lists_by_size(item)
    elif isinstance(value, Struct) and not isinstance(value, Span):
        for name in value.__struct_fields__:
            inner = getattr(value, name)
            if isinstance(inner, (tuple, Struct)):
                yield from lists_by_size(inner)


def is_by_size(value: object) -> bool:
    """Whether any number among some instructions may be another one in another size."""
    return next(lists_by_size(value), None) is not None


def lacks_number(value: object, size: int) -> bool:
    """Whether some list is too short to have a number for a size; a dash is one."""
    return any(size >= len(amount.values) for amount in lists_by_size(value))
