"""What is the outline of a piece, without its stitches?

A piece that lies has the line round its stitches; one that stands up is laid double.
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


def doubled_outline(piece: Lying) -> list[complex]:
    """A piece that stands up, laid double, in widths of a stitch, y down.

    Each round is half as wide as it is long, as far down as the rounds before it are high
    together; the first stands at the top.
    """
    down, right = 0.0, []
    for course in piece.graph.courses:
        down += course.height
        if course.number > 1:
            right.append(complex(course.number / 4, down))
    begins = [0j] if piece.graph.courses[0].number == 1 else []
    return [*begins, *right, *(-point.conjugate() for point in reversed(right))]
