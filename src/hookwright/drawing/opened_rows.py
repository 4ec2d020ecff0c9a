"""Where do the stitches of a tube lie that is drawn opened flat, in rows?

Each round is a row from its beginning to its end, over the row that it stands on. Rounds
that go on from the ends of rows, as a hat does from a brim worked sideways, are laid above
them, these turned upright.
"""

from __future__ import annotations

import numpy as np
from msgspec.structs import replace

from hookwright.drawing.over_feet import (
    Standing,
    along_row,
    fanned,
    goes_about_chain,
    kept_apart,
    least_gaps,
    risen,
    standing,
)
from hookwright.shape.columns import Real
from hookwright.shape.energy import Complex
from hookwright.shape.graph import FabricGraph, Laid

_STEP = 0.95
_TURNED = 0.5
"""The share of its length that a row's feet lead on, for it to say which way is up."""
_UNEVEN = 0.6


_WIDE = 20
"""A round of so many stitches is no middle of a disc."""
_WIDER = 1.4
"""Of its first round: what grows wider than that is a yoke, and drawn in rounds."""


def goes_as_tube(graph: FabricGraph) -> bool:
    """Whether a piece that stands up goes on from a wide round, or from rows, as a tube."""
    rows = [course for course in graph.courses if course.row and course.number]
    first = rows[0]
    if first.number < _WIDE and first.closed:
        return False
    if first.closed and goes_about_chain(graph):
        return False
    return (
        max(course.number for course in rows) <= _WIDER * first.number or not first.closed
    )


def opened(graph: FabricGraph) -> FabricGraph:
    """The graph with each of its rounds as a row, standing on no ring."""
    courses = tuple(replace(course, closed=False) for course in graph.courses)
    stands = np.ones(len(graph.leg), dtype=bool)
    if courses[0].number == 1:
        stands = graph.leg[:, 1] != courses[0].first
    return replace(
        graph, courses=courses, leg=graph.leg[stands], leg_into=graph.leg_into[stands]
    )


def rows_opened(graph: FabricGraph, before: int = 0) -> Complex:
    """(n,) complex, where each node lies, in widths of a stitch, y up.

    Args:
        graph: The piece.
        before: The number of the first row that is not laid; 0 for all.
    """
    position: Complex = np.zeros(graph.size, dtype=complex)
    laid = np.zeros(graph.size, dtype=bool)
    tall = _heights(graph)
    for course in graph.courses:
        if not course.number or (before and course.row >= before):
            continue
        feet = standing(graph, course)
        held = laid[feet.base]
        feet = Standing(feet.own[held], feet.base[held])
        _turn(course, feet, position, laid)
        position[course.nodes] = _row(graph, course, feet, position, tall)
        laid[course.nodes] = True
    return position


def _heights(graph: FabricGraph) -> Real:
    """(n,) how tall each stitch is: as high as its row, where it has feet."""
    tall = np.zeros(graph.size)
    for course in graph.courses:
        tall[course.nodes] = course.height or (0.5 if course.row else 0.0)
    return tall


def _turn(course: Laid, feet: Standing, position: Complex, laid: np.ndarray) -> None:
    """Turns what is laid, by quarters, so that the edge a row stands on lies level."""
    if len(feet.own) < 2:
        return
    order = np.argsort(feet.own, kind="stable")
    at = position[feet.base[order]]
    way = at[-1] - at[0]
    if abs(way) < _TURNED * len(np.unique(feet.base)) * _STEP:
        return
    quarters = round(float(np.angle(-course.direction / way)) / (np.pi / 2)) % 4
    if quarters:
        position[laid] *= 1j**quarters


def _row(
    graph: FabricGraph, course: Laid, feet: Standing, position: Complex, tall: Real
) -> Complex:
    """A row over its feet."""
    gaps = least_gaps(graph, course)
    wanted = -course.direction * position[feet.base].real
    step = _STEP
    spread = wanted
    if len(feet.own) > 1:
        spread = fanned(feet, wanted, float(gaps.mean()))
        span = abs(float(np.ptp(spread))) / max(1, int(np.ptp(feet.own)))
        step = max(float(gaps.mean()), min(span, 1.0))
    v = kept_apart(along_row(course.number, feet, spread, step), gaps)
    high = _levels(course, feet, position, tall) + risen(graph, course, v)
    high = high + _room_to_lean(course, feet, np.abs(v[feet.own] - wanted), tall)
    found: Complex = -course.direction * v + 1j * high
    return found


def _room_to_lean(course: Laid, feet: Standing, lean: Real, tall: Real) -> float:
    """By how much higher a row is drawn, so that its outer stems do not lie down."""
    if not len(feet.own):
        return 0.0
    own = float(tall[course.nodes].mean())
    return min(max(0.0, _LEANS * float(np.quantile(lean, _MOST)) - own), 2 * own)


_LEANS, _MOST = 0.8, 0.9


def _levels(course: Laid, feet: Standing, position: Complex, tall: Real) -> Real:
    """How high each stitch of a row reaches."""
    number = course.number
    if not len(feet.own):
        return tall[course.nodes]
    often = np.bincount(feet.own, minlength=number)
    low = np.bincount(feet.own, position[feet.base].imag, number) / np.maximum(often, 1)
    stands = np.flatnonzero(often)
    level = np.interp(np.arange(number), stands, low[stands])
    mean = float(np.median(level[stands]))
    level = mean + np.clip(level - mean, -_UNEVEN, _UNEVEN)
    found: Real = level + tall[course.nodes]
    return found
