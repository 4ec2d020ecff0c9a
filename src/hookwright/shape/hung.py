"""A piece as it hangs, its first row above, for whoever draws it stitch by stitch.

What a drawing program takes is bytes: columns of numbers in the order of the stitches,
little-endian as every common machine has them.
"""

from __future__ import annotations

from collections.abc import Iterator

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.notation.tree import Pattern
from hookwright.progress import Progress
from hookwright.shape.energy import Complex
from hookwright.shape.graph import FabricGraph
from hookwright.shape.laying import Piece, heights_in, pieces_laid
from hookwright.shape.resting import AtRest, pieces_at_rest
from hookwright.shape.starts import start_of
from hookwright.source import Span
from hookwright.working.outcome import Outcome

_USUAL_MM = 5.0
"""How wide a stitch is drawn where no gauge tells."""


class Course(Struct, frozen=True):
    """A row as it hangs.

    Attributes:
        first: Its first stitch.
        number: How many stitches and chains it has.
        closed: Whether it is a round.
        row: Its number in the piece; 0 for a foundation or ring.
        label: What the text calls it.
        outcome: The row as worked; None for a foundation or ring.
    """

    first: int
    number: int
    closed: bool
    row: int
    label: str
    outcome: Outcome | None


class Hung(Struct, frozen=True, eq=False):
    """A piece as it hangs.

    Attributes:
        part: What it is called: its part, and the row it begins with where that is needed.
        reason: Why it is not all there; "" where it is.
        width_mm: How wide a stitch is.
        measured: Whether a gauge tells that.
        x: float32, millimetres from the left.
        y: float32, millimetres from above.
        chain: uint8, 1 for a chain.
        leg: int32, two and two: a stitch, and one it is worked into.
        name: uint16, which of the names a stitch has.
        words: int32, which of the spans its words are; -1 for none.
        names: The names of stitches.
        spans: Where words stand in the text.
        courses: Its rows, the foundation or ring first.
    """

    part: str
    reason: str
    width_mm: float
    measured: bool
    x: bytes
    y: bytes
    chain: bytes
    leg: bytes
    name: bytes
    words: bytes
    names: tuple[str, ...]
    spans: tuple[Span, ...]
    courses: tuple[Course, ...]


def begun_to_hang(checked: Checked, size: int) -> Iterator[Hung]:
    """The pieces of one size before they come to rest, which is told at once."""
    pattern = checked.reading.pattern
    outcomes = checked.worked.sizes[size].outcomes
    for piece in pieces_laid(outcomes, heights_in(checked.worked, size)):
        if piece.graph.size:
            yield _hung(pattern, piece, start_of(piece.graph), None)


def hung(checked: Checked, size: int, progress: Progress | None = None) -> Iterator[Hung]:
    """The pieces of one size at rest.

    Raises:
        Cancelled: When `progress` answers False.
    """
    pattern = checked.reading.pattern
    for rest in pieces_at_rest(checked, size, progress):
        if isinstance(rest, AtRest):
            found = rest.relaxed.position if rest.relaxed else start_of(rest.graph)
            width = rest.stitch.width_mm if rest.stitch is not None else None
            yield _hung(pattern, replace(rest.piece, graph=rest.graph), found, width)
        elif rest.graph.size:
            yield _hung(pattern, rest, start_of(rest.graph), None)


def _hung(
    pattern: Pattern, piece: Piece, position: Complex, width_mm: float | None
) -> Hung:
    graph = piece.graph
    width = width_mm or _USUAL_MM
    place = -position * width  # turned half round, so that the first row is above
    left, above = place.real.min(), place.imag.max()
    spans, words = np.unique(graph.span, axis=0, return_inverse=True)
    known = np.where(graph.span[:, 0] >= 0, words.reshape(-1), -1)
    return Hung(
        piece.named(pattern),
        piece.reason,
        width,
        width_mm is not None,
        (place.real - left).astype("<f4").tobytes(),
        (above - place.imag).astype("<f4").tobytes(),
        graph.is_chain.astype("u1").tobytes(),
        graph.leg.astype("<i4").tobytes(),
        graph.name.astype("<u2").tobytes(),
        known.astype("<i4").tobytes(),
        graph.names,
        tuple(Span(int(start), int(end)) for start, end in spans),
        tuple(_courses(piece, graph)),
    )


def _courses(piece: Piece, graph: FabricGraph) -> Iterator[Course]:
    for course in graph.courses:
        at = course.row - 1
        yield Course(
            course.first,
            course.number,
            course.closed,
            course.row,
            course.label,
            piece.outcomes[at] if 0 <= at < len(piece.outcomes) else None,
        )
