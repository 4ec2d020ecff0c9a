"""How are symbols told apart that would lie on one another?

A long stem that goes over other symbols, as of a spike, a post rows below or one of two
stitches that cross, is broken where it does, as the line underneath is in a drawing of a
knot. What still touches is drawn a little smaller, as a draughtsman would.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.drawing.chart_row import Mark
from hookwright.drawing.clearing import scaled
from hookwright.drawing.overlapping import inside, overlapping
from hookwright.drawing.pen import Outline, line
from hookwright.drawing.strokes import Glyph, Quad, quad

_LONG = 0.5
"""Widths of a stitch: a shorter stroke is not broken."""
_MARGIN = 0.09
_SHORTEST = 0.12
"""Widths of a stitch: what is left of a broken stroke is at least as long."""
_LEFT = 0.3
"""The share of a stroke that has to be left of it."""
_SMALLER = 0.85
_SMALLEST = 0.45
_MOST_TIMES = 8


def parted(marks: Sequence[Mark], unit: float) -> list[Mark]:
    """The symbols, so that as few as can be lie on one another.

    Args:
        marks: The symbols.
        unit: The width of a stitch, in mm.
    """
    found = list(marks)
    for turn in (1, -1):  # what cannot be broken for one goes over it
        pairs = overlapping(found)
        if not pairs:
            return found
        for one, other in pairs:
            under, over = _under(found[one], found[other], one, other)[::turn]
            boxes = found[over].glyph.boxes
            found[under] = replace(
                found[under], glyph=_broken(found[under].glyph, boxes, unit)
            )
    share: dict[int, float] = {}
    for _ in range(_MOST_TIMES):
        pairs = overlapping(found)
        smaller = {at for pair in pairs for at in pair}
        smaller = {at for at in smaller if share.get(at, 1.0) > _SMALLEST}
        if not smaller:
            break
        for at in smaller:
            share[at] = share.get(at, 1.0) * _SMALLER
            mark = found[at]
            found[at] = replace(mark, glyph=scaled(mark.glyph, mark.at, _SMALLER))
    return found


def _under(one: Mark, other: Mark, a: int, b: int) -> tuple[int, int]:
    """Which of two is broken: the one with the longer stroke; alike, the later one."""
    return (a, b) if _longest(one.glyph) > _longest(other.glyph) + 1e-6 else (b, a)


def _longest(glyph: Glyph) -> float:
    return max((abs(b - a) for a, b, _, _ in glyph.boxes), default=0.0)


def _broken(glyph: Glyph, others: Sequence[Quad], unit: float) -> Glyph:
    """A symbol, its long strokes left out where other boxes are."""
    for own in glyph.boxes:
        start, end, after, last = own
        if start != last or end != after or abs(end - start) < _LONG * unit:
            continue
        outline = next((o for o in glyph.lines if _is_stroke(o, start, end)), None)
        if outline is None:
            continue
        pieces = _pieces(start, end, others, unit)
        if pieces is None:
            continue
        glyph = Glyph(
            (*(o for o in glyph.lines if o is not outline), *(line(*p) for p in pieces)),
            glyph.solid,
            (*(b for b in glyph.boxes if b != own), *(quad(a, b, 0.0) for a, b in pieces)),
        )
    return glyph


def _is_stroke(outline: Outline, start: complex, end: complex) -> bool:
    return not outline.curved and outline.points == (start, end)


def _pieces(
    start: complex, end: complex, others: Sequence[Quad], unit: float
) -> list[tuple[complex, complex]] | None:
    """What is left of a stroke; None where it is not broken."""
    cuts = sorted(
        cut for box in others if (cut := inside(start, end, box, _MARGIN * unit))[1]
    )
    if not cuts:
        return None
    left: list[tuple[float, float]] = []
    at = 0.0
    for low, high in cuts:
        left.append((at, low))
        at = max(at, high)
    left.append((at, 1.0))
    long = abs(end - start)
    left = [(low, high) for low, high in left if (high - low) * long > _SHORTEST * unit]
    if sum(high - low for low, high in left) < _LEFT:
        return None
    way = end - start
    return [(start + low * way, start + high * way) for low, high in left]
