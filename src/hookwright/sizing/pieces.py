"""Which pieces does a pattern make, and how does each grow from row to row?

A piece is what is worked in one go: a crown, the sides worked on from it and their ribbing
are one hat. It begins where a chain or a ring is made. What keeps its count grows by its
multiple; what is begun in a ring or widened in every row grows by its number of rounds.
"""

from __future__ import annotations

from collections.abc import Sequence
from enum import StrEnum
from fractions import Fraction
from itertools import pairwise

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.working.made_of import main_stitch_of
from hookwright.working.outcome import Outcome


class Growth(StrEnum):
    """How the counts of a piece go."""

    STEADY = "keeps its count"
    FLAT_ROUND = "grows in every round"
    OVAL = "grows in every round about a chain"
    CAP = "grows, then keeps its count"
    BALL = "grows, keeps its count and is closed again"
    WIDENING = "grows in every row"
    DIAGONAL = "is worked from corner to corner"
    OTHER = "goes up and down"


class Piece(Struct, frozen=True):
    """A piece in one size.

    Attributes:
        parts: The parts of the pattern that it consists of, by number.
        name: The name of the first of them.
        make: How many are made.
        counts: Stitches of each of its rows.
        stitches: What each row is mainly made of; "" where it is no one stitch.
        rounds: Whether each row is a round.
        chain: The chain it begins with; None for a ring made otherwise.
        growth: How its counts go.
        grown: How many rows it grows in.
        more: By how many stitches it grows in a row, on average.
        kinds: What each of its rows is made of: stitches by name, and how many.
        has_spaces: Whether chains lie between its stitches.
    """

    parts: tuple[int, ...]
    name: str
    make: int
    counts: tuple[int, ...]
    stitches: tuple[str, ...]
    rounds: tuple[bool, ...]
    chain: int | None
    growth: Growth
    grown: int = 0
    more: Fraction = Fraction(0)
    kinds: tuple[tuple[tuple[str, int], ...], ...] = ()
    has_spaces: bool = False

    @property
    def most(self) -> int:
        """The largest of its counts; 0 without rows."""
        return max(self.counts, default=0)

    @property
    def in_rounds(self) -> bool:
        """Whether most of its rows are rounds."""
        return sum(self.rounds) * 2 > len(self.rounds)


def pieces_of(checked: Checked, size: int = 0) -> tuple[Piece, ...]:
    """The pieces in working order; rows whose count is open are left out."""
    if size >= len(checked.worked.sizes):
        return ()
    begun: list[list[Outcome]] = []
    for outcome in checked.worked.sizes[size].outcomes:
        if not begun or _begins(outcome, begun[-1]):
            begun.append([])
        begun[-1].append(outcome)
    return tuple(_piece(checked, outcomes) for outcomes in begun)


def _begins(outcome: Outcome, before: Sequence[Outcome]) -> bool:
    """Whether a line begins a piece: it is the first of its part, on a chain or a ring."""
    if outcome.step.part == before[-1].step.part:
        return False
    return outcome.foundation is not None or outcome.below == 0


def _piece(checked: Checked, outcomes: Sequence[Outcome]) -> Piece:
    parts = tuple(dict.fromkeys(outcome.step.part for outcome in outcomes))
    told = checked.reading.pattern.parts
    rows = [o for o in outcomes if o.worked is not None or o.is_open]
    counted = [row for row in rows if isinstance(row.tally.stitches, int)]
    counts = tuple(_number(row) for row in counted)
    rounds = tuple(row.step.is_round for row in counted)
    chain = next((o.foundation for o in outcomes if o.foundation is not None), None)
    alike = _before_edging(rounds)
    own = counts[:alike]
    growth = _growth(own, rounds[:alike], chain)
    grown = own.index(max(own)) + 1 if own else 0
    return Piece(
        parts,
        told[parts[0]].name,
        told[parts[0]].make,
        counts,
        tuple(main_stitch_of(row.worked) for row in counted),
        rounds,
        chain,
        growth,
        grown,
        Fraction(max(own) - own[0], max(1, grown - 1)) if own else Fraction(0),
        tuple(map(_kinds, counted)),
        sum(bool(row.tally.spaces) for row in counted) * 4 >= len(counted) > 0,
    )


def _kinds(row: Outcome) -> tuple[tuple[str, int], ...]:
    found = row.worked.row.kinds() if row.worked is not None else {}
    return tuple((name, n) for name, n in found.items() if isinstance(n, int))


def _before_edging(rounds: Sequence[bool]) -> int:
    """How many rows there are before rounds are worked about rows, or rows on rounds."""
    return next(
        (i for i, is_round in enumerate(rounds) if is_round != rounds[0]), len(rounds)
    )


def _number(row: Outcome) -> int:
    count = row.tally.stitches
    assert isinstance(count, int)
    return count


_FEW = 3
"""With fewer rows nothing is to be told from their counts."""
_RING_CHAIN = 8
"""Chains of a ring at most; longer ones are the middle of an oval."""


def _growth(counts: Sequence[int], rounds: Sequence[bool], chain: int | None) -> Growth:
    if len(counts) < _FEW or max(counts) < counts[0] * Fraction(3, 2):
        return Growth.STEADY
    grown = counts.index(max(counts)) + 1
    steps = [b - a for a, b in pairwise(counts[:grown])]
    if grown < _FEW or any(step < 0 for step in steps):
        return Growth.OTHER
    rest = counts[grown:]
    if not all(rounds[:grown]):
        return Growth.WIDENING if len(rest) < _FEW and not any(rounds) else Growth.OTHER
    of_ring = chain is None or chain <= _RING_CHAIN
    if len(rest) < 2 and len(rest) * 5 <= len(counts):
        return Growth.FLAT_ROUND if of_ring else Growth.OVAL
    if not of_ring:
        return Growth.OTHER
    if rest[-1] * 2 <= max(counts):
        return Growth.BALL
    if all(count * 5 >= max(counts) * 4 for count in rest):
        return Growth.CAP
    return Growth.OTHER
