"""What is known of the versions of a pattern, as values."""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct


class Kind(StrEnum):
    """What changed."""

    COUNT = "count"
    PLACE = "where stitches go"
    STITCH = "which stitch"
    COLOUR = "colour"
    ADDED = "row added"
    REMOVED = "row left out"
    STATED = "printed count"
    LISTED = "what is listed"
    WORDING = "wording"

    @property
    def of_fabric(self) -> bool:
        """Whether the piece comes out otherwise."""
        return self in _OF_FABRIC


_OF_FABRIC = {
    Kind.COUNT,
    Kind.PLACE,
    Kind.STITCH,
    Kind.COLOUR,
    Kind.ADDED,
    Kind.REMOVED,
}


class Change(Struct, frozen=True):
    """One change between two versions.

    Attributes:
        kind: What changed.
        part: The part it is in; "" for a pattern in one, or for what stands beside the
            rows.
        rows: What the rows are called: "Row 3", "Rows 4-110"; "" for what is no row.
        before: How it was, in words.
        after: How it is now.
        sizes: The sizes it holds for; empty for all.
        follows: Whether it only follows from a change before it.
        counts: The stitches of the row before and now; None where it has no number.
        first: The number of its first row among all that are worked, from 0.
    """

    kind: Kind
    part: str
    rows: str
    before: str
    after: str
    sizes: tuple[str, ...] = ()
    follows: bool = False
    counts: tuple[int | None, int | None] = (None, None)
    first: int = 0


class Compared(Struct, frozen=True):
    """Two versions compared.

    Attributes:
        old: The name of the older one.
        new: The name of the newer one.
        changes: What changed, in the order of the text.
        sizes: All sizes of the newer one.
    """

    old: str
    new: str
    changes: tuple[Change, ...]
    sizes: tuple[str, ...] = ()

    @property
    def of_fabric(self) -> tuple[Change, ...]:
        """The changes under which the piece comes out otherwise."""
        return tuple(change for change in self.changes if change.kind.of_fabric)
