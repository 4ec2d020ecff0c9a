"""How many stretches of stitches lie along an edge, with chain spaces between them?

A granny square is counted so: "(8 groups)" are the threes between its spaces, two of them
in each corner, whatever was worked in one place.
"""

from __future__ import annotations

from msgspec import Struct
from msgspec.structs import replace

from hookwright.working.count import Count
from hookwright.working.fabric import Edge, Place, is_space
from hookwright.working.sequence import Line, Piece, Repeat, Run


class _Stretches(Struct, frozen=True):
    """Stretches along some places.

    Attributes:
        before: Stitches before the first space, or all where there is no space.
        after: Stitches behind the last space.
        inner: Stretches with a space at either end.
        sizes: How many stitches these have.
        spaced: Whether there is a space.
    """

    before: Count = 0
    after: Count = 0
    inner: Count = 0
    sizes: frozenset[Count] = frozenset()
    spaced: bool = False


_NOTHING = _Stretches()
_SPACE = _Stretches(spaced=True)


def stretches(edge: Edge) -> Count:
    """The stretches of stitches between the spaces of an edge."""
    return _whole(edge).inner


def stretches_alike(edge: Edge) -> tuple[Count, Count]:
    """How many there are, and of how many stitches each; 0 stitches where they differ."""
    whole = _whole(edge)
    sizes = [*whole.sizes]
    return whole.inner, sizes[0] if len(sizes) == 1 and edge.spaces else 0


def _whole(edge: Edge) -> _Stretches:
    """All stretches as inner ones: those at the ends too, which meet in a round."""
    along = _along(edge.line)
    if edge.closed and along.spaced:
        return _joined(_joined(_SPACE, _Stretches(along.after)), _led(along))
    return _joined(_joined(_SPACE, along), _SPACE)


def _led(along: _Stretches) -> _Stretches:
    """The stretches of a round, but for what it ends with, and a space behind them."""
    return _joined(replace(along, after=0), _SPACE)


def _along(line: Line[Place]) -> _Stretches:
    result = _NOTHING
    for piece in line:
        result = _joined(result, _of(piece))
    return result


def _of(piece: Piece[Place]) -> _Stretches:
    if isinstance(piece, Run):
        if is_space(piece.item):
            return _SPACE
        return _Stretches(piece.times * piece.item.counts)
    body = _along(piece.body)
    if not isinstance(piece, Repeat) or piece.times == 1:
        return body
    if not body.spaced:
        return replace(body, before=body.before * piece.times)
    twice = _joined(body, body)
    joint = twice.inner - body.inner * 2
    inner = body.inner * piece.times + joint * (piece.times - 1)
    return replace(twice, inner=inner)


def _joined(a: _Stretches, b: _Stretches) -> _Stretches:
    if not a.spaced:
        return replace(b, before=a.before + b.before)
    if not b.spaced:
        return replace(a, after=a.after + b.before)
    met = a.after + b.before
    sizes = a.sizes | b.sizes
    if not met:
        return _Stretches(a.before, b.after, a.inner + b.inner, sizes, spaced=True)
    inner = a.inner + b.inner + 1
    return _Stretches(a.before, b.after, inner, sizes | {met}, spaced=True)
