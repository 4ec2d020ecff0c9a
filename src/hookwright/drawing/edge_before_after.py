"""The edge of a piece before and after an edging: does it become straight, or follow?"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from hookwright.checking import Checked
from hookwright.drawing.asked import NotDrawn
from hookwright.drawing.bounds import box_of
from hookwright.drawing.lying import Lying, lying_pieces
from hookwright.drawing.outlines import lying_outline
from hookwright.drawing.pen import INK, PAPER, QUIET, Group, Ink, Lettering, area, grouped
from hookwright.drawing.recorder import Recorder, bounds_of
from hookwright.drawing.sheet import Sheet
from hookwright.progress import Progress, stretch

WIDE, HIGH = 75.0, 110.0
"""The largest outline on paper, in mm."""
_BETWEEN = 12.0
_DASHES = (1.6, 1.2)
_LEAST = 0.8
"""A piece that came out narrower with its edging than this share was not laid out."""


def edge_sheet(before: Checked, after: Checked, progress: Progress | None = None) -> Sheet:
    """The outline of a piece without its edging, and with it, to one scale.

    Args:
        before: The pattern.
        after: The same with an edging in it.
        progress: Told how the layouts come to rest; False stops.

    Raises:
        NotDrawn: When a piece stands up, or nothing can be laid out.
        Cancelled: When `progress` answers False.
    """
    plain = _largest(before, stretch(progress, 0.0, 0.5))
    edged = _largest(after, stretch(progress, 0.5, 1.0))
    if plain.stands or edged.stands:
        raise NotDrawn(
            "The piece stands up: with an edging or without, no outline of it lies flat."
        )
    shift = _begin(edged) - _begin(plain)
    lines = [point + shift for point in lying_outline(plain)], lying_outline(edged)
    notes = edged.notes
    if _bends(plain, edged):
        deep = sum(c.height for c in edged.graph.courses[len(plain.graph.courses) :])
        lines = lines[0], _wider(lines[0], deep)
        notes = (*notes, _AS_BEFORE)
    if box_of(lines[1]).width < _LEAST * box_of(lines[0]).width:
        raise NotDrawn(
            "The piece could not be laid out with this edging. Ask for one side of it, or "
            "for one all round."
        )
    room = box_of([*lines[0], *lines[1]])
    scale = min(WIDE / room.width, HIGH / room.height)
    one, other = ([(point - room.corner) * scale for point in line] for line in lines)
    pen = Recorder()
    aside = scale * room.width + _BETWEEN
    under = scale * room.height + 6
    with grouped(pen, Group("before")):
        pen.draw((area(*one),), Ink(INK, 0.35, PAPER))
        pen.words("Before", 1j * under, Lettering(3.2))
    with grouped(pen, Group("after")):
        pen.draw((area(*(point + aside for point in other)),), Ink(INK, 0.35, PAPER))
        inside = area(*(point + aside for point in one))
        pen.draw((inside,), Ink(QUIET, 0.2, dashes=_DASHES))
        pen.words("After", aside + 1j * under, Lettering(3.2))
    drawn = bounds_of(pen.marks)
    assert drawn is not None
    title = before.design.title
    words = (
        "Two outlines of the piece to one scale: on the left before the edging, on the "
        "right with it; dashed inside stands the edge that it was worked on."
    )
    what = "the edge before and after"
    named = f"{title}: {what}" if title else what.capitalize()
    return Sheet("edge", named, words, drawn.wider(2), pen.marks, notes)


_AS_BEFORE = (
    "So long a piece bends in the plane where an edging is a little tight or loose; once "
    "blocked it lies straight, and is drawn so: the edging outside it, as deep as worked."
)


def _bends(plain: Lying, edged: Lying) -> bool:
    """Whether the rows of a long straight piece no longer lie in line with its edging."""
    number = min(plain.graph.size, edged.graph.size)
    one, other = plain.position[:number], edged.position[:number]
    if np.ptp(one.imag) < _LONG * np.ptp(one.real):
        return False
    return bool(np.ptp(other.real) > _BENT * np.ptp(one.real))


_LONG, _BENT = 2.0, 1.3


def _wider(line: Sequence[complex], deep: float) -> list[complex]:
    """An outline as far outside another as an edging is deep, its corners square."""
    room = box_of(line)
    middle = room.corner + complex(room.width, room.height) / 2
    across, down = 1 + 2 * deep / room.width, 1 + 2 * deep / room.height
    return [
        middle + complex(across * (p - middle).real, down * (p - middle).imag) for p in line
    ]


def _largest(checked: Checked, progress: Progress | None) -> Lying:
    pieces = list(lying_pieces(checked, 0, progress))
    if not pieces:
        raise NotDrawn("Nothing in this pattern is told stitch by stitch, to be drawn.")
    return max(pieces, key=lambda piece: piece.graph.size)


def _begin(piece: Lying) -> complex:
    """The middle of the foundation, or of the ring, y down."""
    return complex(piece.position[piece.graph.courses[0].nodes].mean()).conjugate()
