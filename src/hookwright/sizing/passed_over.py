"""How many places of the row below does a row pass in silence?

A row that does not grow with the one below passes what is more on its way to "the last", so
places passed in numbers that are not passed as written tell that it does not come out.
"""

from __future__ import annotations

from hookwright.working.fabric import PASS, Stitch
from hookwright.working.sequence import Group, Line, Piece, Run


def passes(line: Line[Stitch]) -> frozenset[int]:
    """How many places are passed in silence at once, each number that occurs."""
    found: set[int] = set()
    run = 0
    for piece in line:
        passed = _all_passed(piece)
        if passed is not None:
            run += passed
            continue
        found.add(run)
        run = 0
        if not isinstance(piece, Run):
            found |= passes(piece.body)
    return frozenset(found | {run}) - {0}


def _all_passed(piece: Piece[Stitch]) -> int | None:
    """How many places a piece of a row passes in silence; None where it works any."""
    if isinstance(piece, Run):
        is_pass = piece.item.kind == PASS.kind
        return _times(piece) * (piece.item.passes + piece.item.spaces) if is_pass else None
    inner = 0
    for own in piece.body:
        passed = _all_passed(own)
        if passed is None:
            return None
        inner += passed
    return inner * _times(piece)


def _times(piece: Piece[Stitch]) -> int:
    """How often a piece of a row comes; in the rows of a size that is a plain number."""
    times = 1 if isinstance(piece, Group) else piece.times
    return times if isinstance(times, int) else times.fixed
