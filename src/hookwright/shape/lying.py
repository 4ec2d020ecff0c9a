"""Does a piece lie flat, cup, or ruffle?

In the plane, the rim of a disc with too many stitches is squeezed together and its centre
drawn apart; with too few it is the other way about. The *tilt* is the mean strain along the
last rows less that along the rows they go round. It is taken over whole rounds, for beside
every increase the strain goes up and down by as much as a tenth. On discs it is 0.6 of a
surplus, 0.93 of a lack; for an edging on a wide body 0.48. Source: own trials on discs of
sc, hdc and dc, whose surplus is m w / (2 pi h) - 1.

What friction and blocking take up is flat. Source of the limits: makers' pages call dc flat
at 10 to 12 a round, a surplus of -0.17 to 0, and see sc begun with 8, +0.33, ruffle
(mkcarroll.com/blog/2009/5/14, craftymaria.blogspot.com/2009/06).
"""

from __future__ import annotations

import numpy as np
from msgspec import Struct

from hookwright.shape.columns import Real
from hookwright.shape.facts import Degree, Lie, Verdict
from hookwright.shape.forms import wave_height
from hookwright.shape.graph import FabricGraph, Joint, Laid
from hookwright.shape.relaxing import Relaxed
from hookwright.shape.standing import by_counts

FLAT = 0.08
SLIGHT = 0.17
_RIM_ROWS = 3
_FEWEST_ROWS = 8
"""With fewer rows nothing is told of the last of them."""
_CENTRE_ROUNDS = slice(1, 6)
_OF_SURPLUS, _OF_LACK = 0.6, 0.93
_OF_EDGING = (0.87, 0.67, 0.48)
"""For an edging of one round, which the body holds almost wholly, of two, and of more.
Source: own trials, with 152 sc round a cloth of 35 by 37 rows, 4.5 % too many."""
_WAVES = 3.5
"""Depths of an edging that one of its waves is long."""
_TINY = 1e-9


class Tilt(Struct, frozen=True):
    """How the strain along the rim differs from that of what it goes round.

    Attributes:
        tilt: Above 0 where the rim is drawn apart.
        edging: Whether the rim is an edging on a body, not the last rounds of a disc.
        depth: How deep the rim is, in widths of a stitch.
        rows: How many rows of it were taken.
    """

    tilt: float
    edging: bool
    depth: float
    rows: int = _RIM_ROWS

    @property
    def surplus(self) -> float:
        """By how much the rim is too long, as a share."""
        if self.edging:
            return -self.tilt / _OF_EDGING[min(self.rows, _RIM_ROWS) - 1]
        return -self.tilt / (_OF_LACK if self.tilt > 0 else _OF_SURPLUS)


def row_strains(graph: FabricGraph, relaxed: Relaxed) -> Real:
    """(rows,) the mean strain along each row, the foundation left out."""
    along = graph.joint == int(Joint.ROW)
    row = graph.row[graph.edge[:, 0]][along]
    number = len(graph.courses)
    total = np.bincount(row, relaxed.strain[along], minlength=number)
    often = np.bincount(row, minlength=number)
    return (total / np.maximum(often, 1))[1:]


def tilt_of(graph: FabricGraph, relaxed: Relaxed) -> Tilt:
    """How the rim of a piece is strained against the rest."""
    strains = row_strains(graph, relaxed)
    courses = [course for course in graph.courses if course.row]
    closed = np.array([course.closed for course in courses], dtype=bool)
    heights = np.array([course.height for course in courses])
    if not courses:
        return Tilt(0.0, edging=False, depth=0.0)
    if closed[0]:
        strains, heights = strains[closed], heights[closed]
        rim = min(_RIM_ROWS, max(1, len(strains) // 2))
        centre = strains[: len(strains) - rim][_CENTRE_ROUNDS]
        if not len(centre):
            centre = strains[: len(strains) - rim]
        tilt = float(strains[-rim:].mean() - centre.mean()) if len(centre) else 0.0
        return Tilt(tilt, edging=False, depth=float(heights[-rim:].sum()))
    if closed.any():
        body = strains[~closed]
        ring = np.flatnonzero(closed)[-_RIM_ROWS:]
        tilt = float(strains[ring].mean() - body.mean())
        depth = float(heights[ring].sum())
        return Tilt(tilt, edging=True, depth=depth, rows=len(ring))
    return _of_rows(courses, strains, heights)


def _of_rows(courses: list[Laid], strains: Real, heights: Real) -> Tilt:
    """How the last rows are strained against those before.

    A single row of another length than its neighbours, such as one of a mesh, is held by
    them: only whole sets of rows are compared. Of a few rows nothing is told.
    """
    each = _rows_of_a_set(courses)
    rim = each * -(-max(_RIM_ROWS, len(courses) // 4) // each)
    if len(courses) < max(_FEWEST_ROWS, 2 * rim):
        return Tilt(0.0, edging=True, depth=float(heights.sum()))
    weight = np.array([course.number for course in courses], dtype=float)
    mean = float(np.average(strains, weights=weight))
    last = float(strains[-rim:].mean()) - mean
    return Tilt(last, edging=True, depth=float(heights[-rim:].sum()))


def _rows_of_a_set(courses: list[Laid]) -> int:
    """After how many rows the last ones are the same again, by count and height."""
    like = [(course.number, round(course.height, 3)) for course in courses]
    for each in range(1, len(like) // 2 + 1):
        if like[-each:] == like[-2 * each : -each]:
            return each
    return 1


def surplus_of(graph: FabricGraph, relaxed: Relaxed) -> float:
    """By how much the rim of a piece is too long, as a share.

    Solid rounds that fold over in the plane have more fabric than finds room there: then
    their count tells it, for the strain no longer does. Loops of lace have room to bulge.
    """
    counted = by_counts(graph)
    solid = float(graph.is_chain.mean()) < _LACE
    full = counted is not None and counted > SLIGHT
    if counted is not None and full and solid and _turned_over(graph, relaxed) > _FULL:
        return counted
    return tilt_of(graph, relaxed).surplus


def folds(graph: FabricGraph, relaxed: Relaxed) -> bool:
    """Whether fabric lies turned over in places; single feet of a cluster always do."""
    return _turned_over(graph, relaxed) > _FOLDED


def _turned_over(graph: FabricGraph, relaxed: Relaxed) -> float:
    """The share of the corners of fabric that are turned over."""
    turned = relaxed.flipped[graph.corner_solid]
    return float(turned.mean()) if len(turned) else 0.0


_FOLDED, _FULL = 0.01, 1e-3
"""The shares of corners turned over from which a piece folds, and from which it is too full
for strain to tell how full."""
_LACE = 0.25
"""The share of chains from which a piece is lace."""


def degree_of(excess: float) -> Degree:
    """How much is to be made of a surplus or lack."""
    size = abs(round(excess, 4))
    if size <= FLAT:
        return Degree.NONE
    return Degree.BLOCKS_OUT if size <= SLIGHT else Degree.STRONG


def verdict_of(
    tilt: Tilt, excess: float, counts: tuple[int, ...], *, rounds: bool
) -> Verdict:
    """How a piece lies.

    Args:
        tilt: How its rim is strained.
        excess: By how much its rim is too long.
        counts: The stitches of each of its rows.
        rounds: Whether all of these are rounds.
    """
    excess = 0.0 if abs(excess) < _TINY else excess
    degree = degree_of(excess)
    if degree is Degree.NONE:
        return Verdict(Lie.FLAT, degree, excess, "It lies flat.")
    lie = Lie.RUFFLES if excess > 0 else Lie.CUPS
    advice = _advice(tilt, excess, degree, counts, rounds=rounds)
    wave = 2 * wave_height(excess, _WAVES * tilt.depth) if excess > SLIGHT else 0.0
    return Verdict(lie, degree, excess, advice, wave)


def _advice(
    tilt: Tilt, excess: float, degree: Degree, counts: tuple[int, ...], *, rounds: bool
) -> str:
    share = f"{abs(excess):.0%}".replace("%", " %")
    what = "last rows" if tilt.edging else "outer rounds"
    if rounds and excess < 0 and _keeps(counts):
        return (
            "Its outer rounds keep their count or lose stitches, so it stands up as a cap, "
            "tube or ball does; as a flat piece it would need increases in them."
        )
    if degree is Degree.BLOCKS_OUT:
        longer = "longer" if excess > 0 else "shorter"
        return f"Its {what} are about {share} {longer} than flat: blocking takes that up."
    if excess > 0:
        return (
            f"Its {what} are about {share} too long: they stand in waves. Fewer "
            "increases or a smaller hook lie flat."
        )
    return (
        f"Its {what} are about {share} too short: they draw in. More increases, taller "
        "stitches at the rim or a larger hook lie flat."
    )


def _keeps(counts: tuple[int, ...]) -> bool:
    """Whether the last rounds add nothing."""
    last = counts[-3:]
    return len(counts) > 3 and last[-1] <= last[0]
