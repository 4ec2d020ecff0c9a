"""How wide is an edging, from the edge that it lies on outwards?

Each row is as high as its stitches are by their proportions: a border's as high as its
tallest ones, a graded row's, which closes a wave, as the shortest ones on the peaks.
Picots stand beyond it.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from hookwright.sizing.edging.borders import KINDS
from hookwright.sizing.edging.facts import Shape, Side, Wish
from hookwright.sizing.edging.ground import Ground
from hookwright.sizing.edging.lengths import both_units
from hookwright.sizing.edging.moves import Form, Move
from hookwright.sizing.edging.proportions import HEIGHTS
from hookwright.sizing.edging.rows import Row


def width_of(rows: Sequence[Row], wish: Wish) -> Fraction:
    """The width of an edging in widths of a stitch."""
    has_border = wish.kind in KINDS and wish.repeat is None
    heights = [_heights(row) for row in rows]
    inner = [min(own) for own in (heights[:-1] if has_border else heights)]
    outer = [max(heights[-1])] if has_border else []
    return sum((*inner, *outer), Fraction(0))


def _heights(row: Row) -> list[Fraction]:
    found = [HEIGHTS.get(m.stitch, HEIGHTS["sc"]) for m in row.moves if _stands(m)]
    return found or [HEIGHTS["sc"]]


def _stands(move: Move) -> bool:
    return move.makes > 0 and move.form is not Form.FREE


def width_told(width: Fraction, side: Side, shape: Shape, ground: Ground) -> str:
    """The width in a sentence."""
    told = f"About as wide as {float(width):.1f} stitches are"
    if ground.width_mm is not None:
        told = f"About {both_units(float(width * ground.width_mm))} wide"
    wish = ground.wish
    over = " over the peaks" if shape is Shape.STRAIGHT else ""
    picots = ", its picots apart" if wish.kind == "picot" and wish.repeat is None else ""
    every = ", on every side" if side is Side.ALL and not ground.piece.is_round else ""
    return f"{told}{over}{picots}{every}."
