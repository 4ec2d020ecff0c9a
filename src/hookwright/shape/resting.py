"""The pieces of a pattern as they come to rest, each with the stitches of its gauge."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.design.facts import Gauge
from hookwright.progress import Progress, stretch, stretches
from hookwright.shape.energy import Complex
from hookwright.shape.facts import Degree, Lie, Verdict
from hookwright.shape.fronts import Front, front_of
from hookwright.shape.gauge import StitchSize, fitted_again, stitch_size
from hookwright.shape.graph import FabricGraph
from hookwright.shape.laying import Heights, Piece, heights_in, pieces_laid
from hookwright.shape.lying import Tilt, folds, surplus_of, tilt_of, verdict_of
from hookwright.shape.measuring import Extent, extent_of, standing_extent
from hookwright.shape.relaxing import Relaxed, relax
from hookwright.shape.sleeves import sleeves_left
from hookwright.shape.standing import STANDS_UP, Rings, by_counts, rings_of
from hookwright.shape.starts import start_of
from hookwright.sizing.by_blocks import Blocks
from hookwright.sizing.multiples import multiples_of
from hookwright.sizing.placed import placed_parts
from hookwright.sizing.wishes import unit_of
from hookwright.working.outcome import Outcome

_MOST_FITTINGS = 3
_BUILDING = 0.3
"""The share of the time that goes into the graph."""


class AtRest(Struct, frozen=True, eq=False):
    """A piece as it lies.

    Attributes:
        piece: Its rows.
        graph: Its stitches, as high as its gauge says.
        extent: How large it is, in widths of a stitch.
        verdict: Whether it lies flat.
        relaxed: Where its stitches lie; None for one that stands up by its counts alone.
        folds: Whether it folds over itself on the plane.
        rings: What goes round in it; None for a piece of rows.
        front: The upper layer of a garment or a cap that is laid double; None for another.
        stitch: How large its stitches are; None where nothing tells it.
    """

    piece: Piece
    graph: FabricGraph
    extent: Extent
    verdict: Verdict
    relaxed: Relaxed | None
    folds: bool
    rings: Rings | None
    stitch: StitchSize | None = None
    front: Front | None = None


Stitches = Mapping[int, StitchSize | None]
"""How large the stitches of each part are, by its number."""


def stitches_of(checked: Checked, asked: Sequence[Gauge] = ()) -> Stitches:
    """How large the stitches of each part are.

    Args:
        checked: The pattern.
        asked: Gauges that a maker has instead of that of the pattern.
    """
    placed = placed_parts(checked, multiples_of(checked), asked, unit_of(checked))
    return {
        part: _with_blocks(stitch_size(checked, one.gauge, asked), one.blocks)
        for one in placed
        if one.piece is not None
        for part in (one.piece.parts if one.begins else ())
    }


def as_fitted(stitches: Stitches, pieces: Iterable[AtRest | Piece]) -> Stitches:
    """The stitches with those that were fitted to pieces of one size.

    They are those of the other sizes too, or so nearly that little is left to fit.
    """
    found = {
        laid.piece.part: laid.stitch
        for laid in pieces
        if isinstance(laid, AtRest) and laid.stitch is not None
    }
    return {**stitches, **found}


def _with_blocks(stitch: StitchSize | None, blocks: Blocks | None) -> StitchSize | None:
    """The stitches of a piece of blocks, whose side is known where one was measured."""
    if stitch is None or blocks is None or blocks.side is None:
        return stitch
    return replace(stitch, block_mm=float(blocks.side.mm))


def pieces_at_rest(
    checked: Checked,
    size: int,
    progress: Progress | None = None,
    stitches: Stitches | None = None,
) -> Iterator[AtRest | Piece]:
    """The pieces of one size as they lie; a piece without fabric as it is.

    Args:
        checked: The pattern.
        size: Which of its sizes.
        progress: Told how each layout comes to rest; False stops.
        stitches: How large the stitches are, where that is known already.

    Raises:
        Cancelled: When `progress` answers False.
    """
    if stitches is None:
        stitches = stitches_of(checked)
    usual = heights_in(checked.worked, size)
    building = stretch(progress, 0.0, _BUILDING, "putting the stitches together")
    pieces = list(pieces_laid(checked.worked.sizes[size].outcomes, usual, building))
    resting = stretch(progress, _BUILDING, 1.0)
    shares = stretches(resting, [piece.graph.size for piece in pieces])
    for piece, share in zip(pieces, shares, strict=True):
        stitch = stitches.get(piece.part)
        told = stretch(share, 0.0, 1.0, _laying_out(checked, piece, size))
        laid = _Laid(checked, size, piece.outcomes, usual, told)
        if not piece.outcomes or not piece.graph.cells:
            yield piece
        elif stitch is None:
            yield _at_rest(piece, laid, 1.0, done=0.0)
        else:
            yield _fitted(piece, laid, stitch)


def _laying_out(checked: Checked, piece: Piece, size: int) -> str:
    """What is being done, with the names of part and size."""
    part = piece.named(checked.reading.pattern)
    names = (part, checked.sizes[size] if checked.sizes else "")
    return " ".join(("laying out", *(name for name in names if name)))


class _Laid(Struct, frozen=True):
    """What a piece is laid again from, with stitches of other heights."""

    checked: Checked
    size: int
    outcomes: tuple[Outcome, ...]
    usual: Heights
    progress: Progress | None

    def again(self, scale: float) -> Piece:
        """The piece with the heights of its stitches times a scale."""
        heights = heights_in(self.checked.worked, self.size, scale)
        return next(pieces_laid(self.outcomes, heights))


def _fitted(piece: Piece, laid: _Laid, stitch: StitchSize) -> AtRest:
    """A piece at rest with the stitch of its gauge."""
    if stitch.block_mm:
        return _of_blocks(_at_rest(piece, laid, 1.0, done=0.0), stitch)
    rest = _at_rest(piece, laid, _scale(piece, laid, stitch), done=0.0)
    fittings = 0
    while fittings < _MOST_FITTINGS and (again := fitted_again(stitch, rest.extent)):
        taller = abs(again.ratio - stitch.ratio) > 1e-9
        stitch = again
        fittings += 1
        if taller:
            before = rest.relaxed.position if rest.relaxed is not None else None
            done = fittings / (_MOST_FITTINGS + 1)
            rest = _at_rest(piece, laid, _scale(piece, laid, stitch), before, done=done)
    return replace(rest, stitch=stitch)


def _of_blocks(rest: AtRest, stitch: StitchSize) -> AtRest:
    """A piece of blocks, its stitches so wide that a block is as was measured."""
    if not rest.extent.block:
        return replace(rest, stitch=stitch)
    wide = stitch.block_mm / rest.extent.block
    return replace(rest, stitch=replace(stitch, width_mm=wide, ratio=0.0, fitted=True))


def _scale(piece: Piece, laid: _Laid, stitch: StitchSize) -> float:
    """By what the usual heights are taken higher, so that the gauge is met."""
    if not stitch.ratio:
        return 1.0
    usual = laid.usual.of.get(stitch.of, 0.0)
    if not usual:
        rows = [course for course in piece.graph.courses if course.row and course.height]
        usual = float(np.mean([course.height for course in rows])) if rows else 0.0
    return stitch.ratio / usual if usual else 1.0


def _at_rest(
    piece: Piece, laid: _Laid, scale: float, before: Complex | None = None, *, done: float
) -> AtRest:
    """A piece at rest, begun from where it lay before with stitches a little other.

    `done` is the share of the fittings that are behind.
    """
    graph = laid.again(scale).graph if abs(scale - 1) > 1e-9 else piece.graph
    counts = tuple(course.number for course in graph.courses if course.row)
    rings = rings_of(graph)
    counted = by_counts(graph)
    if rings is not None and counted is not None and counted < STANDS_UP:
        return _standing(piece, graph, rings, counted)
    start = start_of(graph) if before is None else before
    share = stretch(laid.progress, done, done + 1 / (_MOST_FITTINGS + 1))
    relaxed = relax(graph, start, progress=share)
    excess = surplus_of(graph, relaxed)
    rounds = rings is not None
    verdict = verdict_of(tilt_of(graph, relaxed), excess, counts, rounds=rounds)
    stands = verdict.lie is Lie.CUPS and verdict.degree is Degree.STRONG
    if rings is not None and stands:
        extent = standing_extent(rings)
        return AtRest(piece, graph, extent, verdict, relaxed, folds=False, rings=rings)
    extent = extent_of(graph, relaxed.position, piece.outcomes)
    folded = folds(graph, relaxed)
    return AtRest(piece, graph, extent, verdict, relaxed, folds=folded, rings=rings)


def _standing(piece: Piece, graph: FabricGraph, rings: Rings, counted: float) -> AtRest:
    """A piece that stands up by its counts alone, laid double."""
    counts = tuple(course.number for course in graph.courses if course.row)
    tilt = Tilt(0.0, edging=False, depth=0.0)
    verdict = verdict_of(tilt, counted, counts, rounds=True)
    front = front_of(graph) if _has_own_front(graph) else None
    outline = front.outline if front is not None and front.garment else None
    if outline is not None:
        verdict = replace(verdict, advice=_WORN)
    extent = standing_extent(rings, outline)
    return AtRest(
        piece, graph, extent, verdict, None, folds=False, rings=rings, front=front
    )


_WORN = "It divides for two sleeves and goes round a body, so it is not to lie flat."


def _has_own_front(graph: FabricGraph) -> bool:
    """Whether a piece laid double has another outline than its rounds: a garment, a cap."""
    rounds = [course.number for course in graph.courses if course.row]
    cap = graph.courses[0].number == 1 and rounds[-1] > _OPEN * max(rounds)
    return cap or sleeves_left(graph) is not None


_OPEN = 0.9
"""Of its widest round: what draws in to less than that is a ball, a toy or a shoe."""
