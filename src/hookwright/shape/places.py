"""An edge as columns: the places that rows are worked into."""

from __future__ import annotations

import numpy as np
from msgspec import Struct

from hookwright.shape.columns import Table, Whole, check_size, spread
from hookwright.working.fabric import Edge, Place, PlaceKind
from hookwright.working.fabric import extent as extent_of


class Places(Struct, frozen=True, eq=False):
    """An edge as columns: its places that count as a stitch, or are a space.

    Attributes:
        kinds: The kinds of place that occur, each once.
        kind: (p,) which of the kinds each place is.
        units: (p,) its `extent`.
        in_ring: Whether the edge is the centre of a ring.
    """

    kinds: tuple[PlaceKind, ...]
    kind: Whole
    units: Whole
    in_ring: bool

    def number(self, kind: PlaceKind) -> int:
        """How many places are of a kind."""
        if kind not in self.kinds:
            return 0
        return int(np.count_nonzero(self.kind == self.kinds.index(kind)))


def places_of(edge: Edge) -> Places:
    """The places of an edge as columns.

    Raises:
        TooLarge: With more places than are laid out.
    """
    check_size(edge.line)
    table = Table([], {})
    items = spread(edge.line, table)
    places: list[Place] = [run.item for run in table.runs]  # type: ignore[misc] # as put in
    kinds = tuple(dict.fromkeys(place.kind for place in places))
    kind = np.array([kinds.index(place.kind) for place in places], dtype=np.int64)
    units = np.array([extent_of(place) for place in places], dtype=np.int64)
    solid = items[units[items] > 0] if len(items) else items
    return Places(kinds, kind[solid], units[solid], PlaceKind.RING in kinds)
