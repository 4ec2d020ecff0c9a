"""Was a row worked before, in this text or in another one?

What a row comes to follows from its instructions, the edge, the custom and the stitches
that the pattern defines. It is kept with the movements it took: they are counted again
where it is met again, and where fewer may still be tried it is worked anew. So a text comes
to the same whatever was worked before it.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Generic, TypeVar

from msgspec import Struct

from hookwright.notation.tree import Definition, Node
from hookwright.remembered import Numbered, Remembered
from hookwright.working.conventions import Conventions
from hookwright.working.hook import Effort

Tried = TypeVar("Tried")


class _Worked(Struct, Generic[Tried]):
    """What a row came to, and the movements that took."""

    tried: Tried
    movements: int


class WorkedBefore(Generic[Tried]):
    """Rows by everything that they follow from."""

    def __init__(self, most: int) -> None:
        """Keep so many at most."""
        self._rows: Remembered[tuple[int, object], _Worked[Tried]] = Remembered(most)
        self._customs: Numbered[tuple[object, ...]] = Numbered(1_000)

    def custom(
        self,
        own: Mapping[str, Definition],
        conventions: Conventions,
        terms: str,
    ) -> int:
        """The number of what holds for all rows of a pattern."""
        return self._customs.of((tuple(own.items()), conventions, terms))

    def get(
        self, custom: int, key: object, effort: Effort, nodes: tuple[Node, ...]
    ) -> Tried | None:
        """What a row came to, if as many movements may be tried now."""
        found = self._rows.get((custom, key))
        if found is None:
            return None
        effort.new_row(nodes)
        if found.movements > effort.in_row:
            return None
        effort.take(found.movements)
        return found.tried

    def keep(self, custom: int, key: object, tried: Tried, movements: int) -> None:
        """Keep what a row came to that could be tried to the end."""
        self._rows.keep((custom, key), _Worked(tried, movements))
