"""What is known of how a pattern grows, as values.

A *multiple* is the family of numbers that a row comes out even on: `each * k + extra`, for
k repeats. One piece has a multiple of chains and one of stitches, which can differ, and one
of rows, whose repeats are whole sets of rows.
"""

from __future__ import annotations

from collections.abc import Mapping

from msgspec import Struct

from hookwright.notation.tree import Amount
from hookwright.sizing.along_edges import Rate
from hookwright.working.outcome import Outcome


class Multiple(Struct, frozen=True):
    """The numbers `each * k + extra`.

    Attributes:
        each: What one repeat takes; 1 where any number will do.
        extra: What stands beside the repeats, at least 0.
        least: The fewest repeats that the words allow.
    """

    each: int
    extra: int
    least: int = 1

    def at(self, repeats: int) -> int:
        """The number for so many repeats."""
        return self.each * repeats + self.extra

    def __str__(self) -> str:
        return f"{self.each} + {self.extra}" if self.extra else f"{self.each}"


class PartMultiple(Struct, frozen=True):
    """How one part of a pattern grows, in one of its sizes.

    Attributes:
        part: The name of the part; "" for a pattern in one part.
        make: How many of it are made.
        size: Which of the pattern's sizes, from 0.
        repeats: How many repeats it has as written: `stitches.at(repeats)` stitches.
        set_repeats: How many sets of rows it has as written: `rows.at(set_repeats)` rows.
        chains: The multiple of the foundation chain; None where none is made.
        stitches: The multiple of the stitches of its first row.
        rows: The multiple of its rows; None where they cannot be told.
        edge: How many of `stitches.extra` are edge stitches.
        turning: How many of the chains are skipped, or made to turn on.
        reason: Why there is no multiple, in a sentence; "" where there is one. Without a
            multiple `chains`, `stitches` and `rows` are None.
        is_round: Whether it is worked in rounds.
        shared: Sentences on what the equations alone do not fix, and how it was taken.
    """

    part: str
    make: int = 1
    size: int = 0
    repeats: int = 0
    set_repeats: int = 0
    chains: Multiple | None = None
    stitches: Multiple | None = None
    rows: Multiple | None = None
    edge: int = 0
    turning: int = 0
    reason: str = ""
    is_round: bool = False
    shared: tuple[str, ...] = ()


class Root(Struct, frozen=True):
    """A chain that a piece stands on.

    Attributes:
        at: The row that makes it, in working order.
        amount: Its number.
        ring: Whether it is joined into a ring.
        in_passing: Whether no row makes it: the text only tells of it.
    """

    at: int
    amount: Amount
    ring: bool = False
    in_passing: bool = False


class Grown(Struct, frozen=True):
    """A pattern on another chain.

    Attributes:
        by: How many chains more than as written.
        changes: What is added to each number, by the identity of the number: rows written
            alike share theirs.
        outcomes: Its rows, in working order.
        shared: Rows in which several numbers were taken to change alike.
        amounts: The numbers that change.
        floors: The least that a number may be, by its identity, where that is not 1.
        rates: Numbers along an edge that no whole number is added to for each repeat.
        stops: The first row of a later part that does not come out on it; None if all do.
            Its rows end there.
    """

    by: int
    changes: Mapping[int, int]
    outcomes: tuple[Outcome, ...]
    shared: tuple[int, ...]
    amounts: tuple[Amount, ...]
    floors: Mapping[int, int]
    rates: tuple[Rate, ...] = ()
    stops: int | None = None


class Stuck(Struct, frozen=True):
    """A row that does not come out on another chain.

    Attributes:
        at: The row, in working order.
        factor: How many times as many chains have to be added; 0 if unknown.
        for_good: Whether it comes out on no other chain, for nothing in it can change.
        divides: Whether it divides the stitches and does not say how many it leaves.
    """

    at: int
    factor: int = 0
    for_good: bool = False
    divides: bool = False
