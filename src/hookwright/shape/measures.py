"""A pattern measured: every piece in every size, as its stitches come to lie."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

import numpy as np
from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.facts import Gauge
from hookwright.progress import Progress, stretches
from hookwright.shape.energy import DRAWING, Complex
from hookwright.shape.facts import (
    Degree,
    Lie,
    Measured,
    Measures,
    PartMeasured,
    RoundMeasured,
    Standing,
)
from hookwright.shape.laying import Piece
from hookwright.shape.relaxing import relax
from hookwright.shape.resting import AtRest, as_fitted, pieces_at_rest, stitches_of
from hookwright.shape.silhouettes import silhouette_of
from hookwright.shape.standing import Ring, Rings
from hookwright.shape.starts import start_of
from hookwright.sizing.asked_gauge import gauge_asked
from hookwright.sizing.lengths import NoLength


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
    stitches = stitches_of(checked, asked)
    shares = stretches(progress, [1] * len(checked.worked.sizes))
    found = []
    for size, share in enumerate(shares):
        pieces = list(pieces_at_rest(checked, size, share, stitches))
        stitches = as_fitted(stitches, pieces)
        found.append(size_measured(checked, size, pieces))
    return measures_from(found)


class PieceMeasured(Struct, frozen=True):
    """A piece of one size: its part and name, what it measures or why not, what lacks."""

    part: int
    name: str
    measured: Measured | str
    reason: str


def size_measured(
    checked: Checked, size: int, pieces: Iterable[AtRest | Piece]
) -> tuple[PieceMeasured, ...]:
    """The pieces of one size as they are measured."""
    name = checked.sizes[size] if checked.sizes else ""
    pattern = checked.reading.pattern
    found = []
    for laid in pieces:
        piece = laid.piece if isinstance(laid, AtRest) else laid
        found.append(
            PieceMeasured(
                piece.part, piece.named(pattern), _measured(name, laid), piece.reason
            )
        )
    return tuple(found)


def measures_from(sizes: Iterable[tuple[PieceMeasured, ...]]) -> Measures:
    """The measures of a pattern from those of its sizes, in their order."""
    found: dict[tuple[int, str], list[Measured]] = {}
    reasons: dict[tuple[int, str], str] = {}
    for piece in (piece for pieces in sizes for piece in pieces):
        key = piece.part, piece.name
        own = found.setdefault(key, [])
        reasons[key] = reasons.get(key) or piece.reason
        if isinstance(piece.measured, str):
            reasons[key] = reasons[key] or piece.measured
        else:
            own.append(piece.measured)
    return Measures(
        tuple(
            PartMeasured(key[1], tuple(sizes), reasons[key]) for key, sizes in found.items()
        )
    )


def _measured(name: str, laid: AtRest | Piece) -> Measured | str:
    """A piece measured, or why it cannot be."""
    if isinstance(laid, Piece):
        return laid.reason or "No fabric is worked in it."
    if laid.piece.described:
        return "It goes round a piece that the text only describes: its size is not told."
    if laid.stitch is None:
        return "Nothing tells how wide its stitches are."
    piece, extent, width = laid.piece, laid.extent, laid.stitch.width_mm
    stands = _standing(laid.rings, width) if extent.folded and laid.rings else None
    lies = None if stands is not None else _as_drawn(laid)
    front = laid.front
    shape = silhouette_of(laid.graph, lies, piece.outcomes, front).sized(
        extent.width * width, extent.height * width
    )
    return Measured(
        size=name,
        width_mm=extent.width * width,
        height_mm=extent.height * width,
        repeat_width_mm=extent.repeat * width if extent.repeat is not None else None,
        row_pitch_mm=extent.pitch * width if extent.pitch is not None else None,
        angle_deg=float(np.degrees(extent.angle)),
        verdict=laid.verdict,
        stitches=piece.graph.size,
        rows=len(piece.outcomes),
        how=tuple(_how(laid, width)),
        wave_mm=laid.verdict.wave * width if laid.verdict.lie is Lie.RUFFLES else None,
        standing=stands,
        rounds=tuple(_rounds(laid.rings, width)) if laid.rings is not None else (),
        outline=shape.corners,
        circle=shape.circle,
        garment=front is not None and front.garment,
    )


def _as_drawn(laid: AtRest) -> Complex | None:
    """Where a piece lies that is to have no folds; None for one that stands up."""
    if laid.relaxed is None:
        return None
    if laid.folds or laid.verdict.degree is Degree.STRONG:
        return relax(laid.graph, start_of(laid.graph), shear=DRAWING).position
    return laid.relaxed.position


def _standing(rings: Rings, width: float) -> Standing:
    return Standing(rings.across * width, rings.tall * width)


def _rounds(rings: Rings, width: float) -> Iterator[RoundMeasured]:
    for ring in rings.rings:
        yield _round(ring, width)


def _round(ring: Ring, width: float) -> RoundMeasured:
    return RoundMeasured(
        label=ring.course.label,
        stitches=ring.course.number,
        around_mm=ring.length * width,
        across_mm=2 * ring.radius * width,
        level_mm=ring.level * width,
        slope_deg=float(np.degrees(ring.slope)) if ring.slope is not None else None,
        curvature_deg=float(np.degrees(ring.curvature)),
    )


def _how(laid: AtRest, width: float) -> Iterator[str]:
    assert laid.stitch is not None
    yield from laid.stitch.said
    if laid.extent.block:
        yield (
            "It is worked from corner to corner: width and height are its sides, and what "
            "a repeat and a row take is the side of a block."
        )
    if laid.stitch.fitted:
        high = f", {width * laid.stitch.ratio:.2f} mm high" if laid.stitch.ratio else ""
        yield (
            "The stitch was taken over again until a repeat lay as it was measured: "
            f"{width:.2f} mm wide{high}."
        )
    if laid.front is not None and laid.front.garment:
        yield (
            "Its rounds divide for two sleeves: its front lies flat, folded at the middles "
            "of sleeves and underarms, and width and height are those of the front."
        )
    elif laid.extent.folded:
        yield (
            "Its rounds stand up: the width is half its widest round, as it is laid "
            "double, and the height that of all its rounds. Standing, each round is a "
            "circle of its length, and as far below the last as its height leaves."
        )
    else:
        yield (
            f"Width and height are those of {laid.graph.size:,} stitches and chains as "
            "they come to rest on the plane, and half a stitch beyond the ends of rows."
        )
    if laid.extent.bent:
        yield (
            "By itself it would bend in the plane: it was measured along its rows, as it "
            "lies when it is laid straight."
        )
    if laid.extent.repeat_nodes:
        number = laid.extent.repeat_nodes
        yield f"The repeat is of {number} stitches and chains of a middle row."
    if laid.relaxed is not None and not laid.relaxed.settled:
        yield "The layout had not quite come to rest: take the figures as rough."
    if laid.folds and laid.verdict.lie is not Lie.FLAT:
        yield "On the plane it folds over itself in places: it cannot lie flat as worked."
