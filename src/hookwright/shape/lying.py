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
from hookwright.shape.graph import FabricGraph, Joint
from hookwright.shape.relaxing import Relaxed

FLAT = 0.08
SLIGHT = 0.17
STANDS_UP = -0.3
"""By counts alone: no piece that short at its rim lies flat, so it is not laid out so."""
_RIM_ROWS = 3
_CENTRE_ROUNDS = slice(1, 6)
_OF_SURPLUS, _OF_LACK, _OF_EDGING = 0.6, 0.93, 0.48
_WAVES = 3.5
"""Depths of an edging that one of its waves is long."""
_TINY = 1e-9


class Tilt(Struct, frozen=True):
    """How the strain along the rim differs from that of what it goes round.

    Attributes:
        tilt: Above 0 where the rim is drawn apart.
        edging: Whether the rim is an edging on a body, not the last rounds of a disc.
        depth: How deep the rim is, in widths of a stitch.
    """

    tilt: float
    edging: bool
    depth: float

    @property
    def surplus(self) -> float:
        """By how much the rim is too long, as a share."""
        if self.edging:
            return -self.tilt / _OF_EDGING
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
    if closed.all():
        rim = min(_RIM_ROWS, max(1, len(courses) // 2))
        centre = strains[: len(courses) - rim][_CENTRE_ROUNDS]
        if not len(centre):
            centre = strains[: len(courses) - rim]
        tilt = float(strains[-rim:].mean() - centre.mean()) if len(centre) else 0.0
        return Tilt(tilt, edging=False, depth=float(heights[-rim:].sum()))
    if closed.any():
        body = strains[~closed]
        ring = np.flatnonzero(closed)[-_RIM_ROWS:]
        tilt = float(strains[ring].mean() - body.mean())
        return Tilt(tilt, edging=True, depth=float(heights[ring].sum()))
    rim = min(_RIM_ROWS, max(1, len(courses) // 4))
    weight = np.array([course.number for course in courses], dtype=float)
    mean = float(np.average(strains, weights=weight))
    last = float(strains[-rim:].mean()) - mean
    return Tilt(last, edging=True, depth=float(heights[-rim:].sum()))


def by_counts(graph: FabricGraph) -> float | None:
    """The surplus of the last round by its count alone; None for a piece not in rounds.

    Its stitches are held against the circle as far out as the rounds are high together: for
    a disc of m increases that is m w / (2 pi h) - 1, and a polygon has more. About a chain
    it is an oval, which goes along both its sides.
    """
    rows = [course for course in graph.courses if course.row and course.number]
    if not rows or not all(course.closed for course in rows):
        return None
    start = graph.courses[0]
    chain = start.number * (1 if start.closed else 2) if start.number > 1 else 0
    around = chain + 2 * np.pi * sum(course.height for course in rows)
    return rows[-1].number / around - 1 if around else None


def surplus_of(graph: FabricGraph, relaxed: Relaxed) -> float:
    """By how much the rim of a piece is too long, as a share.

    Rounds that fold over in the plane have more fabric than finds room there: then their
    count tells it, for the strain no longer does.
    """
    counted = by_counts(graph)
    if counted is not None and counted > SLIGHT and folds(graph, relaxed):
        return counted
    return tilt_of(graph, relaxed).surplus


def folds(graph: FabricGraph, relaxed: Relaxed) -> bool:
    """Whether fabric lies turned over in places."""
    turned = relaxed.flipped[graph.corner_solid]
    return len(turned) > 0 and float(turned.mean()) > _FOLDED


_FOLDED = 1e-3


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
    return Verdict(
        lie, degree, excess, _advice(tilt, excess, degree, counts, rounds=rounds)
    )


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
        depth = wave_height(excess, _WAVES * tilt.depth)
        return (
            f"Its {what} are about {share} too long: they stand in waves about "
            f"{2 * depth:.0f} stitch widths high, give or take a half. Fewer increases or "
            "a smaller hook lie flat."
        )
    return (
        f"Its {what} are about {share} too short: they draw in. More increases, taller "
        "stitches at the rim or a larger hook lie flat."
    )


def _keeps(counts: tuple[int, ...]) -> bool:
    """Whether the last rounds add nothing."""
    last = counts[-3:]
    return len(counts) > 3 and last[-1] <= last[0]
