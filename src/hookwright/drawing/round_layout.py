"""Where do the stitches of a piece lie when its rounds are drawn one outside the other?

So is drawn what stands up, and what has more stitches than lie flat. Each round lies
outside the one before, far enough out for all of its symbols. Its stitches stand as
straight over their feet as they can, and as evenly around, whichever it begins with.
Rounds about a chain are ovals: straight along both its sides, half circles at its ends.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np
from msgspec import Struct

from hookwright.drawing.opened_rows import rows_opened
from hookwright.drawing.over_feet import (
    Standing,
    along_row,
    fanned,
    goes_about_chain,
    kept_apart,
    least_gaps,
    risen,
    standing,
)
from hookwright.shape.columns import Real, Whole
from hookwright.shape.energy import Complex
from hookwright.shape.graph import FabricGraph, Laid

_EVEN = 0.6
"""How much an even spread around weighs beside standing straight."""
_FEW = 12.0
"""Rounds of more stitches are held more evenly, for what one of them is off is less."""
_EVEN_ALONG = 0.25
"""The same for ovals, along whose sides stitches stand one over the other."""
_LEAST_HEIGHT = 0.8
"""How far one round lies outside the next at the least, in widths."""


class Oval(Struct, frozen=True):
    """A way round two half circles and what is straight between them.

    It is told from the left end of the straight side below, anticlockwise. Figures are in
    widths of a stitch.

    Attributes:
        half: Half the length of a straight side; 0 for a circle.
        far: How far out it is: the radius of its ends.
    """

    half: float
    far: float

    @property
    def long(self) -> float:
        """How long the way round is."""
        return 4 * self.half + 2 * np.pi * self.far

    @property
    def _ends(self) -> Real:
        """Where its four parts end: below, right, above, left."""
        part = [2 * self.half, np.pi * self.far] * 2
        return np.cumsum([0.0, *part])

    def at(self, along: Real) -> Real:
        """How far round, in parts: 0 to 1 below, to 2 at the right, to 4 in all."""
        ends = self._ends
        turns, rest = np.divmod(along, max(self.long, 1e-9))
        found: Real = 4 * turns + np.interp(rest, _rising(ends), np.arange(5.0))
        return found

    def along(self, parts: Real) -> Real:
        """How far along the way, from how far round in parts."""
        turns, rest = np.divmod(parts, 4.0)
        found: Real = turns * self.long + np.interp(rest, np.arange(5.0), self._ends)
        return found

    def parts_of(self, points: Complex) -> Real:
        """(k,) how far round points lie, in parts, by what is nearest in the middle."""
        core = np.clip(points.real, -self.half, self.half)
        off = points - core
        below = (points.real + self.half) / max(2 * self.half, 1e-9)
        side = np.where(off.imag < 0, below, 3 - below)
        right = 1.5 + np.angle(off) / np.pi
        left = 3.5 + np.angle(-off) / np.pi
        straight = np.abs(points.real) < self.half
        found: Real = np.where(straight, side, np.where(points.real > 0, right, left))
        return np.mod(found, 4.0)

    def points(self, parts: Real, far: Real) -> Complex:
        """(k,) complex, the points at places in parts, each as far out as it is told."""
        rest = np.mod(parts, 4.0)
        side, share = np.floor(rest), rest % 1
        below, above = 2 * self.half * share - self.half, self.half * (1 - 2 * share)
        angle = np.pi * (share - 0.5) + np.where(side == 3, np.pi, 0.0)
        straight = np.where(side == 0, below - 1j * far, above + 1j * far)
        centre = np.where(side == 1, self.half, -self.half)
        found: Complex = np.where(
            side % 2 == 0, straight, centre + far * np.exp(1j * angle)
        )
        return found


def _rising(ends: Real) -> Real:
    """Ends that are one and the same, told apart so that a place lies in one part."""
    return ends + 1e-12 * np.arange(len(ends))


class _Laid(Struct):
    """What is laid so far.

    Attributes:
        parts: (n,) how far round each node is, in parts of its oval.
        far: (n,) how far out.
        half: Half the straight side of the ovals.
        out: How far out the outermost lies.
    """

    parts: Real
    far: Real
    half: float
    out: float


def rounds_flat(graph: FabricGraph) -> Complex:
    """(n,) complex, where each node lies, in widths of a stitch."""
    start = graph.courses[0]
    rounds = [course for course in graph.courses if course.row and course.number]
    about = goes_about_chain(graph)
    laid = _Laid(
        np.zeros(graph.size),
        np.zeros(graph.size),
        (start.number - 1) / 2 if about else 0.0,
        0.0 if about or start.number == 1 else start.number / (2 * np.pi),
    )
    position: Complex = np.zeros(graph.size, dtype=complex)
    if rounds and not rounds[0].closed and any(course.closed for course in rounds):
        return _about_rows(graph, rounds, laid)
    if about:
        position[start.nodes] = np.linspace(laid.half, -laid.half, start.number)
    elif start.number > 1:
        _lay(graph, start, laid, position)
    for course in rounds:
        _lay(graph, course, laid, position)
    return position


def _about_rows(graph: FabricGraph, rows: Sequence[Laid], laid: _Laid) -> Complex:
    """Rounds about the rows that a piece begins on, as of a bag about its base."""
    first = next(at for at, course in enumerate(rows) if course.closed)
    position = rows_opened(graph, rows[first].row)
    own = np.flatnonzero(graph.row < rows[first].row)
    lies = position[own]
    corner = complex(lies.real.min() + np.ptp(lies.real) / 2, np.ptp(lies.imag) / 2)
    corner += 1j * float(lies.imag.min())
    high = float(np.ptp(lies.imag))
    turned = 1j if high > float(np.ptp(lies.real)) else 1.0
    position[own] = lies = (lies - corner) * turned
    wide, high = float(np.ptp(lies.real)), float(np.ptp(lies.imag))
    laid.half, laid.out = (wide - high) / 2, _CORNERS * high / 2
    oval = Oval(laid.half, laid.out)
    laid.parts[own], laid.far[own] = oval.parts_of(lies), laid.out
    for course in rows[first:]:
        _lay(graph, course, laid, position)
    return position


_CORNERS = 1.25
"""Of half the height of rows: so far out a round lies that clears their corners."""


def _lay(graph: FabricGraph, course: Laid, laid: _Laid, position: Complex) -> None:
    """Lays a round outside what is laid."""
    gaps = least_gaps(graph, course)
    room = (float(gaps.sum()) - 4 * laid.half) / (2 * np.pi)
    tall = max(course.height, _LEAST_HEIGHT) if course.row else 0.0
    oval = Oval(laid.half, max(laid.out + tall, room))
    feet = standing(graph, course)
    if course.row == 1 and laid.half:
        wanted = course.direction * oval.along(_about_chain(graph, feet))
    else:
        held = laid.far[feet.base] > 0
        feet = Standing(feet.own[held], feet.base[held])
        wanted = course.direction * oval.along(laid.parts[feet.base])
        if not course.closed and len(feet.own):
            wanted = _as_wide(wanted, oval.far / laid.far[feet.base], oval.long)
    along = _around(course, feet, wanted, oval, gaps)
    laid.parts[course.nodes] = oval.at(course.direction * along)
    far = oval.far + risen(graph, course, along)
    laid.far[course.nodes], laid.out = far, float(far.max())
    position[course.nodes] = oval.points(laid.parts[course.nodes], far)


def _as_wide(wanted: Real, farther: Real, long: float) -> Real:
    """Where the feet of a row are on its way, no farther apart than they stand.

    A row that goes on from a part of a round, as of a strap, does not fan out with it.
    """
    turn = 2 * np.pi / long
    near = np.unwrap(wanted * turn) / turn
    middle = float(near.mean())
    found: Real = middle + (near - middle) / farther
    return found


def _around(course: Laid, feet: Standing, wanted: Real, oval: Oval, gaps: Real) -> Real:
    """How far along its way each stitch of a round stands."""
    number = course.number
    each = oval.long / number
    if not course.closed and len(feet.own):
        return _part_round(course, feet, wanted, oval, gaps)
    own: Real = each * np.arange(float(number))
    if not len(feet.own):
        return own
    # How far each foot is off an even spread; brought near each other before they are used.
    turn = 2 * np.pi / oval.long
    off = (wanted - own[feet.own]) * turn
    mean = np.angle(np.exp(1j * off).mean())
    off = (mean + np.angle(np.exp(1j * (off - mean)))) / turn
    weight = np.bincount(feet.own, minlength=number)
    pull = np.bincount(feet.own, off, minlength=number)
    one = np.eye(number)
    even = 2 * one - np.roll(one, 1, 0) - np.roll(one, -1, 0)
    held = _EVEN * number / _FEW if not oval.half else _EVEN_ALONG
    matrix = np.diag(weight) + held * even
    found = own + np.linalg.solve(matrix, pull).astype(float)
    return _clear(found, gaps, oval.long)


def _clear(along: Real, gaps: Real, long: float) -> Real:
    """Places round a round, none too near the next, the last not too near the first."""
    found = kept_apart(along, gaps)
    most = long - float(gaps[-1])
    if len(found) > 1 and found[-1] - found[0] > most:
        # What is too much is taken from the gaps that have more than they need.
        gap = np.diff(found)
        spare = np.maximum(gap - gaps[:-1], 0.0)
        over = float(found[-1] - found[0] - most)
        share = min(1.0, over / max(float(spare.sum()), 1e-9))
        shorter = np.append(0.0, np.cumsum(gap - share * spare))
        found = found.mean() - shorter.mean() + shorter
    return found


def _part_round(course: Laid, feet: Standing, wanted: Real, oval: Oval, gaps: Real) -> Real:
    """How far along its way each stitch of a row stands that goes round in part."""
    order = np.argsort(feet.own, kind="stable")
    feet = Standing(feet.own[order], feet.base[order])
    turn = 2 * np.pi / oval.long
    near = np.unwrap(wanted[order] * turn) / turn
    near = fanned(feet, near, float(gaps.mean()))
    span = float(near[-1] - near[0]) / max(1, int(feet.own[-1] - feet.own[0]))
    step = max(span, float(gaps.mean()))
    return kept_apart(along_row(course.number, feet, near, step), gaps)


def _about_chain(graph: FabricGraph, feet: Standing) -> Real:
    """How far round its oval each foot of the first round about a chain is, in parts.

    It goes along the chain from its last one to its first, round that, and back along the
    other side; those in the chain at either end share the half circle there.
    """
    last = graph.courses[0].number - 1
    chain = _from_the_right(graph, feet.base)
    share = 1 - chain / max(1, last)
    order = np.arange(len(chain))
    turn = np.flatnonzero(chain == chain.max())
    there, back = order < turn[0], order > turn[-1]
    found = np.where(there, -1 - share, share)
    at_turn = ~there & ~back
    found[at_turn] = -1 + _spread(int(at_turn.sum()))
    ends = np.flatnonzero((chain == 0) & back)
    found[ends] = 1 + _spread(len(ends) + 1)[:-1]
    begun = np.flatnonzero((chain == 0) & there)
    found[begun[:-1]] = -2 - _spread(len(begun))[: len(begun) - 1][::-1] / 2
    return found


def _from_the_right(graph: FabricGraph, base: Whole) -> Whole:
    """How many chains each foot is from the one that is worked into first."""
    start = graph.courses[0]
    chain = base - start.first
    return chain if chain[0] < start.number / 2 else start.number - 1 - chain


def _spread(number: int) -> Real:
    """Shares of a half circle, evenly."""
    found: Real = (np.arange(number) + 0.5) / max(1, number)
    return found
