"""Where does each row of a chart begin, and which way is it worked?

The number of a row stands where the row begins, with an arrow the way it is worked, and a
chip of its yarn where a piece has several. A round has its number in the gap at its seam.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.drawing.bounds import words_width
from hookwright.drawing.lying import Lying
from hookwright.drawing.pen import (
    INK,
    QUIET,
    Group,
    Ink,
    Lettering,
    Pen,
    area,
    box,
    grouped,
    line,
)
from hookwright.drawing.yarn_colours import YarnColour, contrast
from hookwright.shape.graph import Laid
from hookwright.working.fabric import PlaceKind
from hookwright.working.outcome import Outcome
from hookwright.working.sequence import unrolled
from hookwright.working.steps import row_name

BESIDE = 1.05
"""How far outside its first stitch a row's number stands, in widths of a stitch."""
_ARROW = 3.2
_CHIP = 2.6
_GAP = 0.9


class Head(Struct, frozen=True):
    """The number of a row, and what belongs to it.

    Attributes:
        number: What it says.
        name: The row in words: "Row 3 (right side)".
        at: The end of the first stitch it stands beside, in mm.
        way: The way the row is worked: 1 to the right, -1 to the left.
        course: The number of its course.
        node: Its first node.
        start: Where its words begin in the text.
        end: Where they end.
        yarn: Its yarn; None where the piece has only one.
        closed: Whether it is a round, at the middle of whose gap it stands.
    """

    number: str
    name: str
    at: complex
    way: int
    course: int
    node: int
    start: int
    end: int
    yarn: YarnColour | None
    closed: bool

    def moved(self, by: complex) -> Head:
        """The head elsewhere on the page."""
        return replace(self, at=self.at + by) if by else self


def heads_of(
    piece: Lying,
    points: Sequence[complex],
    unit: float,
    yarns: Mapping[int, YarnColour],
) -> list[Head]:
    """The heads of all rows.

    Args:
        piece: The piece.
        points: Where each of its nodes lies, in mm on the page.
        unit: The width of a stitch, in mm.
        yarns: The yarn of each course, where there are several.
    """
    found = []
    outcomes = iter(piece.outcomes)
    for number, course in enumerate(piece.graph.courses):
        outcome = next(outcomes) if course.row else None
        if outcome is None or not course.number:
            continue
        own = points[course.first : course.first + course.number]
        if course.own_chains and not course.own_chains[0][0] and not course.closed:
            # It begins beyond the row below, at the tip of its chain, and comes back.
            own = [own[course.own_chains[0][1] - 1], own[-1]]
        below = _below(piece, points, course)
        if course.closed:
            at, way = _in_gap(own, below, chain=_begins_beside(outcome))
        else:
            at, way = _beside(own, below, unit)
        found.append(_head(piece, outcome, number, course, at, way, yarns.get(number)))
    return found


def _head(
    piece: Lying,
    outcome: Outcome,
    number: int,
    course: Laid,
    at: complex,
    way: int,
    yarn: YarnColour | None,
) -> Head:
    step = outcome.step
    side = "right" if piece.front[number] else "wrong"
    told = str(step.number) if step.number is not None else ""
    return Head(
        told,
        f"{row_name(step)} ({side} side)",
        at,
        way,
        number,
        course.first,
        step.text.span.start,
        step.text.span.end,
        yarn,
        course.closed,
    )


def _begins_beside(outcome: Outcome) -> bool:
    """Whether a round begins with a chain that counts for nothing."""
    assert outcome.worked is not None
    heads = (h for s in unrolled(outcome.worked.row.line, _FEW) for h in s.heads)
    return any(h.kind is PlaceKind.TURNING_CHAIN and not h.counts for h in heads)


_FEW = 6


def _below(piece: Lying, points: Sequence[complex], course: Laid) -> complex:
    """A point under the first stitch of a row."""
    graph = piece.graph
    legs = graph.leg[graph.leg[:, 0] == course.first][:, 1]
    if len(legs):
        return sum(points[int(base)] for base in legs) / len(legs)
    return points[course.first]


def _beside(own: Sequence[complex], below: complex, unit: float) -> tuple[complex, int]:
    """Beside the beginning of a row, half way up, and the way it is worked."""
    way = own[-1] - own[0] if len(own) > 1 else -1 + 0j
    if len(own) > 1 and abs((own[1] - own[0]).real) > 0.3 * abs(own[1] - own[0]):
        way = own[1] - own[0]
    sign = 1 if way.real > 0 else -1
    middle = (own[0] + below) / 2
    return complex(own[0].real - sign * BESIDE * unit, middle.imag), sign


_BEFORE_CHAIN, _IN_MIDDLE = 0.38, 0.5
"""Where in its gap the number of a round stands, with a chain that counts for nothing
beside its first stitch, and without."""


def _in_gap(own: Sequence[complex], below: complex, *, chain: bool) -> tuple[complex, int]:
    """In the gap between the end of a round and its beginning, a little below the tops."""
    if len(own) < 2:
        return own[0], 1
    gap = own[0] - own[-1]
    down = 0.34 * (below - own[0])
    sign = 1 if (own[1] - own[0]).real >= 0 else -1
    share = _BEFORE_CHAIN if chain else _IN_MIDDLE
    return own[-1] + share * gap + down, sign


def draw_head(pen: Pen, head: Head, size: float) -> None:
    """Draws a head with type of a size in mm."""
    data = (
        ("course", str(head.course)),
        ("node", str(head.node)),
        ("start", str(head.start)),
        ("end", str(head.end)),
    )
    with grouped(pen, Group("row-head", data, head.name)):
        if head.closed:
            _draw_in_gap(pen, head, size)
        else:
            _draw_beside(pen, head, size)


def _draw_in_gap(pen: Pen, head: Head, size: float) -> None:
    lettering = Lettering(size, anchor="middle", bold=True)
    wide = words_width(head.number, lettering)
    tip = 0.4 * size
    at = head.at + 0.26j * size - head.way * 0.25 * tip
    pen.words(head.number, at, lettering)
    edge = at - 0.28j * size + head.way * (wide / 2 + 0.1 * size)
    shape = area(edge - 0.26j * size, edge + 0.26j * size, edge + head.way * tip)
    pen.draw((shape,), Ink(stroke="", fill=QUIET))


def _draw_beside(pen: Pen, head: Head, size: float) -> None:
    out = -head.way
    lettering = Lettering(size, anchor="end" if out < 0 else "start", bold=True)
    pen.words(head.number, head.at + 0.28j * size, lettering)
    at = head.at + out * (max(words_width(head.number, lettering), 0.6 * size) + _GAP)
    if head.yarn is not None:
        draw_chip(pen, head.yarn, at + out * _CHIP / 2, min(_CHIP, 1.05 * size))
        at += out * (_CHIP + _GAP)
    arrow(pen, at + out * _ARROW, at)


def arrow(pen: Pen, start: complex, end: complex) -> None:
    """A small arrow."""
    way = (end - start) / abs(end - start)
    barb = 0.9 * way * (-1 + 0.6j), 0.9 * way * (-1 - 0.6j)
    shape = (line(start, end), line(end + barb[0], end, end + barb[1]))
    pen.draw(shape, Ink(QUIET, 0.22))


def draw_chip(pen: Pen, yarn: YarnColour, at: complex, side: float) -> None:
    """A chip of yarn with its letter; white with an edge where its colour is not told."""
    corner = at - complex(side, side) / 2
    code = yarn.code or "#ffffff"
    pen.draw((box(corner, side, side),), Ink(QUIET, 0.15, code))
    ink = INK if contrast(code, INK) >= contrast(code, "#ffffff") else "#ffffff"
    size = 0.72 * side if len(yarn.letter) < 2 else 0.5 * side
    pen.words(yarn.letter, at + 0.36j * size, Lettering(size, ink, "middle", bold=True))
