"""A pattern measured: every piece in every size, as its stitches come to lie."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

import numpy as np
from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.design.facts import Gauge
from hookwright.progress import Progress, stretch, stretches
from hookwright.shape.energy import Complex
from hookwright.shape.facts import Degree, Lie, Measured, Measures, PartMeasured, Verdict
from hookwright.shape.gauge import StitchSize, fitted_again, stitch_size
from hookwright.shape.graph import FabricGraph
from hookwright.shape.laying import Heights, Piece, heights_in, pieces_laid
from hookwright.shape.lying import (
    STANDS_UP,
    Tilt,
    by_counts,
    folds,
    surplus_of,
    tilt_of,
    verdict_of,
)
from hookwright.shape.measuring import Extent, extent_of, standing_extent
from hookwright.shape.relaxing import Relaxed, relax
from hookwright.shape.starts import start_of
from hookwright.sizing.asked_gauge import gauge_asked
from hookwright.sizing.fabric_gauge import FabricGauge
from hookwright.sizing.lengths import NoLength
from hookwright.sizing.multiples import multiples_of
from hookwright.sizing.placed import placed_parts
from hookwright.sizing.wishes import unit_of
from hookwright.working.outcome import Outcome

_MOST_FITTINGS = 3
_BUILDING = 0.3
"""The share of the time that goes into the graph."""


def measures_of(
    checked: Checked, gauge: str = "", progress: Progress | None = None
) -> Measures:
    """The measures of a pattern.

    Args:
        checked: The pattern.
        gauge: A gauge that a maker has instead, in words; "" for that of the pattern.
        progress: Told how much is laid; False stops.

    Raises:
        Cancelled: When `progress` answers False.
    """
    asked: tuple[Gauge, ...] = ()
    if gauge:
        told = gauge_asked(gauge)
        if isinstance(told, NoLength):
            return Measures((), f"{told.message} {told.why}")
        asked = told
    gauges = _gauges(checked, asked)
    found: dict[int, list[Measured]] = {}
    reasons: dict[int, str] = {}
    shares = stretches(progress, [1] * len(checked.worked.sizes))
    for size, share in enumerate(shares):
        for piece, measured in _of_size(checked, size, gauges, asked, share):
            own = found.setdefault(piece.part, [])
            reasons[piece.part] = reasons.get(piece.part) or piece.reason
            if isinstance(measured, str):
                reasons[piece.part] = reasons[piece.part] or measured
            else:
                own.append(measured)
    parts = checked.reading.pattern.parts
    return Measures(
        tuple(
            PartMeasured(parts[part].name, tuple(sizes), reasons[part])
            for part, sizes in found.items()
        )
    )


def _gauges(checked: Checked, asked: Sequence[Gauge]) -> dict[int, FabricGauge]:
    """The gauge of each part."""
    placed = placed_parts(checked, multiples_of(checked), asked, unit_of(checked))
    return {
        part: one.gauge
        for one in placed
        if one.piece is not None
        for part in (one.piece.parts if one.begins else ())
    }


class AtRest(Struct, frozen=True, eq=False):
    """A piece as it lies.

    Attributes:
        piece: Its rows.
        graph: Its stitches, as high as its gauge says.
        extent: How large it is, in widths of a stitch.
        verdict: Whether it lies flat.
        relaxed: Where its stitches lie; None for one that stands up by its counts alone.
        folds: Whether it folds over itself on the plane.
        stitch: How large its stitches are; None where nothing tells it.
    """

    piece: Piece
    graph: FabricGraph
    extent: Extent
    verdict: Verdict
    relaxed: Relaxed | None
    folds: bool
    stitch: StitchSize | None = None


def pieces_at_rest(
    checked: Checked, size: int, progress: Progress | None = None
) -> Iterator[AtRest | Piece]:
    """The pieces of one size as they lie, to be drawn; a piece without fabric as it is.

    Args:
        checked: The pattern.
        size: Which of its sizes.
        progress: Told how each layout comes to rest; False stops.

    Raises:
        Cancelled: When `progress` answers False.
    """
    gauges = _gauges(checked, ())
    usual = heights_in(checked.worked, size)
    building = stretch(progress, 0.0, _BUILDING, "putting the stitches together")
    pieces = list(pieces_laid(checked.worked.sizes[size].outcomes, usual, building))
    resting = stretch(progress, _BUILDING, 1.0)
    shares = stretches(resting, [piece.graph.size for piece in pieces])
    for piece, share in zip(pieces, shares, strict=True):
        gauge = gauges.get(piece.part)
        stitch = stitch_size(checked, gauge, ()) if gauge is not None else None
        told = stretch(share, 0.0, 1.0, "laying out")
        laid = _Laid(checked, size, piece.outcomes, usual, told)
        if not piece.outcomes or not piece.graph.cells:
            yield piece
        elif stitch is None:
            yield _at_rest(piece, laid, 1.0, done=0.0)
        else:
            yield _fitted(piece, laid, stitch)[0]


def _of_size(
    checked: Checked,
    size: int,
    gauges: dict[int, FabricGauge],
    asked: Sequence[Gauge],
    progress: Progress | None,
) -> Iterator[tuple[Piece, Measured | str]]:
    """The pieces of one size, each measured, or why it was not."""
    name = checked.sizes[size] if checked.sizes else ""
    parts = checked.reading.pattern.parts
    outcomes = checked.worked.sizes[size].outcomes
    usual = heights_in(checked.worked, size)
    building = stretch(progress, 0.0, _BUILDING, "putting the stitches together")
    pieces = list(pieces_laid(outcomes, usual, building))
    resting = stretch(progress, _BUILDING, 1.0)
    shares = stretches(resting, [piece.graph.size for piece in pieces])
    for piece, share in zip(pieces, shares, strict=True):
        gauge = gauges.get(piece.part)
        stitch = stitch_size(checked, gauge, asked) if gauge is not None else None
        if not piece.outcomes or not piece.graph.cells:
            yield piece, piece.reason or "No fabric is worked in it."
        elif stitch is None:
            yield piece, "Nothing tells how wide its stitches are."
        else:
            words = " ".join(w for w in ("laying out", parts[piece.part].name, name) if w)
            told = stretch(share, 0.0, 1.0, words)
            laid = _Laid(checked, size, piece.outcomes, usual, told)
            yield piece, _measured(name, piece, laid, stitch)


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


def _measured(name: str, piece: Piece, laid: _Laid, stitch: StitchSize) -> Measured:
    rest, fittings = _fitted(piece, laid, stitch)
    assert rest.stitch is not None
    return _told(name, piece, rest, rest.stitch, fitted=fittings > 0)


def _fitted(piece: Piece, laid: _Laid, stitch: StitchSize) -> tuple[AtRest, int]:
    """A piece at rest with the stitch of its gauge, and how often that was taken over."""
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
    return replace(rest, stitch=stitch), fittings


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
    rows = [course for course in graph.courses if course.row]
    counts = tuple(course.number for course in rows)
    rounds = all(course.closed for course in rows)
    by_count = by_counts(graph)
    if by_count is not None and by_count < STANDS_UP:
        tilt = Tilt(0.0, edging=False, depth=0.0)
        verdict = verdict_of(tilt, by_count, counts, rounds=True)
        return AtRest(piece, graph, standing_extent(graph), verdict, None, folds=False)
    start = start_of(graph) if before is None else before
    share = stretch(laid.progress, done, done + 1 / (_MOST_FITTINGS + 1))
    relaxed = relax(graph, start, progress=share)
    excess = surplus_of(graph, relaxed)
    verdict = verdict_of(tilt_of(graph, relaxed), excess, counts, rounds=rounds)
    stands = rounds and verdict.lie is Lie.CUPS and verdict.degree is Degree.STRONG
    if stands:
        return AtRest(piece, graph, standing_extent(graph), verdict, relaxed, folds=False)
    extent = extent_of(graph, relaxed.position, piece.outcomes)
    return AtRest(piece, graph, extent, verdict, relaxed, folds=folds(graph, relaxed))


def _told(
    name: str, piece: Piece, rest: AtRest, stitch: StitchSize, *, fitted: bool
) -> Measured:
    width, extent = stitch.width_mm, rest.extent
    return Measured(
        size=name,
        width_mm=extent.width * width,
        height_mm=extent.height * width,
        repeat_width_mm=extent.repeat * width if extent.repeat is not None else None,
        row_pitch_mm=extent.pitch * width if extent.pitch is not None else None,
        angle_deg=float(np.degrees(extent.angle)),
        verdict=rest.verdict,
        stitches=piece.graph.size,
        rows=len(piece.outcomes),
        how=tuple(_how(piece, rest, stitch, fitted=fitted)),
    )


def _how(piece: Piece, rest: AtRest, stitch: StitchSize, *, fitted: bool) -> Iterator[str]:
    yield from stitch.said
    if fitted:
        high = f", {stitch.width_mm * stitch.ratio:.2f} mm high" if stitch.ratio else ""
        yield (
            "The stitch was taken over again until a repeat lay as it was measured: "
            f"{stitch.width_mm:.2f} mm wide{high}."
        )
    if rest.extent.folded:
        yield (
            "Its rounds stand up: the width is half its widest round, as it is laid "
            "double, and the height that of all its rounds."
        )
    else:
        yield (
            f"Width and height are those of {piece.graph.size:,} stitches and chains as "
            "they come to rest on the plane, and half a stitch beyond the ends of rows."
        )
    if rest.extent.repeat_nodes:
        number = rest.extent.repeat_nodes
        yield f"The repeat is of {number} stitches and chains of a middle row."
    if rest.relaxed is not None and not rest.relaxed.settled:
        yield "The layout had not quite come to rest: take the figures as rough."
    if rest.folds:
        yield "On the plane it folds over itself in places: it cannot lie flat as worked."
