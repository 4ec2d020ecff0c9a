"""How is a piece drawn that has more stitches than there is room for in its true shape?

A petal that ruffles, a frill, a round worked behind another: laid flat, their symbols lie
on one another. So its rounds are drawn one outside the other, and its rows one above the
other, each as long as its symbols need, and it is told that this is not its shape.
"""

from __future__ import annotations

import numpy as np
from msgspec.structs import replace

from hookwright.drawing.levelling import levelled
from hookwright.drawing.lying import Lying
from hookwright.drawing.opened_rows import rows_opened
from hookwright.drawing.round_layout import rounds_flat
from hookwright.shape.energy import Complex

_ROUNDS = (
    "More stitches are worked in it than lie flat. Its rounds are drawn one outside the "
    "other, with room for every symbol: it is not its shape."
)
_ROWS = (
    "More stitches are worked in it than lie flat. Its rows are drawn one above the other, "
    "with room for every symbol: it is not its shape."
)


def drawn_apart(piece: Lying) -> Lying | None:
    """The piece with room for all of its symbols; None for blocks, points and balls.

    Args:
        piece: The piece in its true shape.
    """
    graph = piece.graph
    rows = [course for course in graph.courses if course.row and course.number]
    if any(course.own_chains for course in rows) or piece.closing:
        return None
    if any(course.closed for course in rows):
        position, note = _level(piece, rounds_flat(graph)), _ROUNDS
    else:
        position, note = rows_opened(graph), _ROWS
    if not piece.front[rows[0].row]:
        position = -position.conj()
    if piece.mirrored:
        position = -position.conj()
    return replace(piece, position=np.asarray(position), notes=(*piece.notes, note))


def _level(piece: Lying, position: Complex) -> Complex:
    """Rounds turned level; rows that they go about lie level."""
    rows = [course for course in piece.graph.courses if course.row and course.number]
    return levelled(piece.graph, position, piece.front) if rows[0].closed else position
