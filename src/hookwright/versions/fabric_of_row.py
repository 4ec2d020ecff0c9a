"""What does a row make, apart from its words: which stitch, where it stands, in which yarn?

A row is written out stitch by stitch with the places of its feet along the edge below, so
that "3 dc in next st" and "(dc, dc, dc) in next st" are the same, and so is a repeat that
is bracketed otherwise.
"""

from __future__ import annotations

from collections.abc import Iterator

from msgspec import Struct

from hookwright.notation.tree import Yarn
from hookwright.working.conventions import Choice
from hookwright.working.count import Count
from hookwright.working.fabric import Into, Place, PlaceKind, Stitch
from hookwright.working.outcome import Outcome
from hookwright.working.row import WorkedRow
from hookwright.working.sequence import Line, Repeat, Run

MOST_STITCHES = 20_000
_NO_STITCH = frozenset({"skip", "pass", "place"})


class Worked(Struct, frozen=True):
    """One stitch of a row.

    Attributes:
        stitch: Its name, in US terms where the pattern is translated.
        feet: Where it stands: place along the edge below, rows below, part of the place.
        heads: What it leaves: kind, chains, how many it counts as.
        yarn: Its yarn.
    """

    stitch: str
    feet: tuple[tuple[int, int, Into], ...]
    heads: tuple[tuple[PlaceKind, int, int], ...]
    yarn: str | None


class RowMade(Struct, frozen=True):
    """What one row of the plan makes.

    Attributes:
        stitches: Its stitches in order.
        foundation: Chains of a foundation; None where it makes none.
        closed: Whether it is joined into a round.
        turned: Whether the words turn it; None where they do not say.
        is_open: Whether the words do not tell stitch by stitch.
        makes: How many stitches it has; None where that grows or is not told.
        begun_in: The yarns that its words take up, where it only makes a foundation.
        over: Places that its words leave over, and that they lack, where it does not close.
    """

    stitches: tuple[Worked, ...]
    foundation: int | None
    closed: bool
    turned: bool | None
    is_open: bool
    makes: int | None
    over: tuple[Count, Count] = (0, 0)
    begun_in: tuple[str, ...] = ()

    def without_yarn(self) -> tuple[object, ...]:
        """Its stitches without the colours."""
        return tuple((one.stitch, one.feet, one.heads) for one in self.stitches)

    def names(self) -> tuple[str, ...]:
        """Its stitches by name only."""
        return tuple(one.stitch for one in self.stitches)


def row_made(outcome: Outcome, yarn: str | None = None) -> RowMade:
    """What a row makes.

    Args:
        outcome: The row.
        yarn: The yarn that the text puts the whole row in; None where it names its own.
    """
    worked = outcome.worked
    if worked is None:
        taken = tuple(n.name for n in outcome.step.nodes if isinstance(n, Yarn))
        return RowMade(
            stitches=(),
            foundation=outcome.foundation,
            closed=False,
            turned=None,
            is_open=outcome.is_open,
            makes=None,
            begun_in=taken,
        )
    makes = worked.row.makes
    return RowMade(
        stitches=tuple(_stitches(worked, yarn)),
        foundation=outcome.foundation,
        closed=worked.closed,
        turned=outcome.turned,
        is_open=outcome.is_open,
        makes=makes if isinstance(makes, int) else None,
        over=(worked.left, _lacking(outcome, worked)),
    )


def _lacking(outcome: Outcome, worked: WorkedRow) -> Count:
    """Places that the words ask for and that are not there, also where fewer are worked."""
    fewer = Choice.AS_MANY_AS_FIT in outcome.readings
    return outcome.literal_missing if fewer else worked.missing


def _stitches(worked: WorkedRow, yarn: str | None) -> Iterator[Worked]:
    at = worked.start if isinstance(worked.start, int) else 0
    for number, (stitch, own) in enumerate(_one_by_one(worked.row.line)):
        if number >= MOST_STITCHES:
            return
        if stitch.kind not in _NO_STITCH:
            feet = tuple((at + foot.step, foot.down, foot.into) for foot in stitch.feet)
            heads = tuple(_head(head) for head in stitch.heads)
            yield Worked(stitch.kind, feet, heads, yarn or own)
        at += stitch.along


def _head(head: Place) -> tuple[PlaceKind, int, int]:
    return head.kind, head.chains, head.counts


def _one_by_one(line: Line[Stitch]) -> Iterator[tuple[Stitch, str | None]]:
    for piece in line:
        if isinstance(piece, Run):
            for _ in range(_times(piece.times)):
                yield piece.item, piece.yarn
        elif isinstance(piece, Repeat):
            for _ in range(_times(piece.times)):
                yield from _one_by_one(piece.body)
        else:
            yield from _one_by_one(piece.body)


def _times(times: object) -> int:
    return min(times, MOST_STITCHES) if isinstance(times, int) else 0
