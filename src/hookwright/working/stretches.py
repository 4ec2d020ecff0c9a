"""How many stretches of stitches lie along an edge, with chain spaces between them?

A granny square is counted so: "(8 groups)" are the threes between its spaces, two of them
in each corner, whatever was worked in one place.
"""

from __future__ import annotations

from msgspec import Struct

from hookwright.working.count import Count
from hookwright.working.fabric import Edge, Place, is_space
from hookwright.working.sequence import Line, Piece, Repeat, Run


class _Stretches(Struct, frozen=True):
    """Stretches along some places, and whether they touch the ends."""

    number: Count = 0
    first: bool = False
    last: bool = False
    empty: bool = True


_NOTHING = _Stretches()
_SPACE = _Stretches(empty=False)
_STITCHES = _Stretches(1, first=True, last=True, empty=False)


def stretches(edge: Edge) -> Count:
    """The stretches of stitches between the spaces of an edge."""
    along = _along(edge.line)
    around = edge.closed and along.first and along.last and edge.spaces
    return along.number - 1 if around else along.number


def _along(line: Line[Place]) -> _Stretches:
    result = _NOTHING
    for piece in line:
        result = _joined(result, _of(piece))
    return result


def _of(piece: Piece[Place]) -> _Stretches:
    if isinstance(piece, Run):
        if is_space(piece.item):
            return _SPACE
        return _STITCHES if piece.item.counts else _NOTHING
    body = _along(piece.body)
    if not isinstance(piece, Repeat):
        return body
    joints = piece.times - 1 if body.first and body.last else 0
    return _Stretches(body.number * piece.times - joints, body.first, body.last, body.empty)


def _joined(a: _Stretches, b: _Stretches) -> _Stretches:
    if a.empty or b.empty:
        return b if a.empty else a
    met = 1 if a.last and b.first else 0
    return _Stretches(a.number + b.number - met, a.first, b.last, empty=False)
