"""What does a row make, apart from its words: which stitch, where it stands, in which yarn?

A row is written out stitch by stitch with the places of its feet along the edge below, so
that "3 dc in next st" and "(dc, dc, dc) in next st" are the same, and so is a repeat that
is bracketed otherwise. Of what is written out only a digest is kept, so that a long pattern
takes no more room than its text.
"""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache
from hashlib import blake2b
from itertools import islice

from msgspec import Struct

from hookwright.notation.tree import Yarn
from hookwright.working.conventions import Choice
from hookwright.working.count import Count
from hookwright.working.fabric import Stitch
from hookwright.working.outcome import Outcome
from hookwright.working.row import WorkedRow
from hookwright.working.sequence import Line, Repeat, Run, convert

MOST_STITCHES = 20_000
"""What lies beyond in a row is compared as it is bracketed."""
_NO_STITCH = frozenset({"skip", "pass", "place"})
Names = tuple[tuple[str, str], ...]
"""Names with those that they had before, in pairs."""


class Fabric(Struct, frozen=True, cache_hash=True):
    """Digests of the stitches of a row.

    Attributes:
        whole: Of all there is to them.
        bare: Of all but their yarn.
        names: Of which they are.
        spaces: Of the chains of the spaces they leave.
        yarns: The yarns they are worked in, in the order they first come.
    """

    whole: str = ""
    bare: str = ""
    names: str = ""
    spaces: str = ""
    yarns: tuple[str | None, ...] = ()


class RowMade(Struct, frozen=True, cache_hash=True):
    """What one row of the plan makes.

    Attributes:
        fabric: Its stitches.
        foundation: Chains of a foundation; None where it makes none.
        closed: Whether it is joined into a round.
        turned: Whether the work is turned behind it; None for a foundation.
        is_open: Whether the words do not tell stitch by stitch.
        makes: How many stitches it has; None where that grows or is not told.
        over: Places that its words leave over, and that they lack, where it does not close.
        begun_in: The yarns that its words take up, where it only makes a foundation.
    """

    fabric: Fabric
    foundation: int | None
    closed: bool
    turned: bool | None
    is_open: bool
    makes: int | None
    over: tuple[Count, Count] = (0, 0)
    begun_in: tuple[str, ...] = ()


def row_made(
    outcome: Outcome, yarn: str | None = None, colours: Names = (), stitches: Names = ()
) -> RowMade:
    """What a row makes.

    Args:
        outcome: The row.
        yarn: The yarn that the text puts the whole row in; None where it names its own.
        colours: Colours that have another name now, with the one they had.
        stitches: The same of stitches.
    """
    worked = outcome.worked
    if worked is None:
        taken = (node.name for node in outcome.step.nodes if isinstance(node, Yarn))
        before = dict(colours)
        return RowMade(
            fabric=Fabric(),
            foundation=outcome.foundation,
            closed=False,
            turned=None,
            is_open=outcome.is_open,
            makes=None,
            begun_in=tuple(before.get(name, name) for name in taken),
        )
    start = worked.start if isinstance(worked.start, int) else 0
    makes = worked.row.makes
    return RowMade(
        fabric=_fabric(_without_words(worked.row.line), start, yarn, colours, stitches),
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


def _without_words(line: Line[Stitch]) -> Line[Stitch]:
    return convert(line, lambda run: (Run(run.item, run.times, None, run.yarn),))


@lru_cache(maxsize=4096)
def _fabric(
    line: Line[Stitch], start: int, yarn: str | None, colours: Names, stitches: Names
) -> Fabric:
    """The digests of a row; rows that are worked again are written out once."""
    digests = [blake2b(digest_size=16) for _ in range(4)]
    yarns: dict[str | None, None] = {}
    before, known = dict(colours), dict(stitches)
    for name, place, spaces, own in islice(_written(line, start), MOST_STITCHES):
        named = yarn or own
        named = before.get(named, named) if named is not None else None
        kind = known.get(name, name)
        yarns[named] = None
        told = (f"{kind}{place}{named}", f"{kind}{place}", kind, spaces)
        for digest, words in zip(digests, told, strict=True):
            digest.update(f"{words};".encode())
    if len(list(islice(_written(line, start), MOST_STITCHES + 1))) > MOST_STITCHES:
        for digest in digests:
            digest.update(repr(line).encode())
    whole, bare, names, spaces = (digest.hexdigest() for digest in digests)
    return Fabric(whole, bare, names, spaces, tuple(yarns))


def _written(line: Line[Stitch], start: int) -> Iterator[tuple[str, str, str, str | None]]:
    """Each stitch: its name, where it stands and what it leaves, its spaces, its yarn."""
    at = start
    for stitch, yarn in _one_by_one(line):
        if stitch.kind not in _NO_STITCH:
            feet = [(at + foot.step, foot.down, str(foot.into)) for foot in stitch.feet]
            heads = [(str(one.kind), one.chains, one.counts) for one in stitch.heads]
            spaces = [one.chains for one in stitch.heads if one.chains]
            yield stitch.kind, f"{feet}{heads}", f"{spaces}" if spaces else "", yarn
        at += stitch.along


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
    return min(times, MOST_STITCHES + 1) if isinstance(times, int) else 0
