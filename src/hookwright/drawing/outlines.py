"""What is the outline of a piece, without its stitches?

The line round the stitches of a piece that lies, as they lie.
"""

from __future__ import annotations

from hookwright.drawing.lying import Lying

_HALF = 0.5


def lying_outline(piece: Lying) -> list[complex]:
    """The line round a piece that lies, in widths of a stitch, y down."""
    courses, at = piece.graph.courses, piece.position
    rims = [course for course in courses if course.closed and course.number > 2]
    if rims:
        return [complex(point).conjugate() for point in at[rims[-1].nodes]]
    rows = [[complex(p) for p in at[c.nodes]] for c in courses if c.number > 1]
    rows.sort(key=lambda row: sum(point.imag for point in row) / len(row))
    rows = [row if row[0].real < row[-1].real else row[::-1] for row in rows]
    right = [row[-1] + _HALF for row in rows]
    left = [row[0] - _HALF for row in rows]
    line = [*rows[0], *right, *reversed(rows[-1]), *reversed(left)]
    return [point.conjugate() for point in line]
