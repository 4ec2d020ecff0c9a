"""How long are chains drawn that hang between rows of stitches?

A chain gives: where rows of chains lie between rows of stitches, it is the stitches that
say how wide the piece is, and the chains are as tight or slack as is left to them. So for a
drawing the chains of each row are taken as long as fills the row to the width of the rows
of stitches beside it.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence

import numpy as np
from msgspec.structs import replace

from hookwright.shape.columns import Real, Truth, Whole
from hookwright.shape.energy import Complex
from hookwright.shape.graph import FabricGraph, Joint
from hookwright.shape.resting import AtRest

_NEAR = 8
"""Rows on either side that may say how wide a row is."""
_MOSTLY_STITCHES = 0.2
"""Share of chains up to which a row says itself how wide it is."""
_NEARLY = 0.08
_LEAST, _MOST = 0.7, 2.2
"""How far chains give."""


def with_slack_chains(graph: FabricGraph) -> FabricGraph:
    """The graph with the chains of its open rows as long as fills them."""
    number = len(graph.courses)
    closed = np.zeros(number, dtype=bool)
    for course in graph.courses:
        closed[course.row] |= course.closed
    rows = ~closed[graph.row] & (graph.row > 0)
    if not graph.is_chain[rows].any():
        return graph
    along = graph.joint == int(Joint.ROW)
    chain = along & graph.is_chain[graph.edge].any(axis=1)
    row = graph.row[graph.edge[:, 0]]
    whole: Real = np.bincount(row[along], graph.length[along], number).astype(float)
    slack: Real = np.bincount(row[chain], graph.length[chain], number).astype(float)
    slack[0] = 0.0
    wanted = _wanted(whole, slack, closed)
    gives = np.ones(number)
    some = (slack > 0) & ~closed
    gives[some] = 1 + (wanted[some] - whole[some]) / slack[some]
    gives = np.clip(gives, _LEAST, _MOST)
    length = np.where(chain, graph.length * gives[row], graph.length)
    straight = in_straight_rows(graph, length)
    shell = _shells(graph) & ~closed[graph.row[graph.edge]].any(axis=1)
    ends = straight[graph.edge]
    length = np.where(shell, np.abs(ends[:, 1] - ends[:, 0]), length)
    return replace(
        graph, length=length, corner_angle=_angles(graph, straight, shell, closed)
    )


def _shells(graph: FabricGraph) -> Truth:
    """(m,) which edges are stems of shells: several in one place, places skipped beside it.

    What stands beside a shell holds it to the breadth of the places under it, so that its
    outer stems are drawn out: they do not spread as far as they could.
    """
    tops: dict[int, list[int]] = {}
    bases: dict[int, list[int]] = {}
    for top, base in graph.leg.tolist():
        tops.setdefault(base, []).append(top)
        bases.setdefault(top, []).append(base)
    stems = [
        (top, base)
        for base, own in tops.items()
        if len(own) >= _FEWEST and _is_alone(base, own, bases)
        for top in own
    ]
    found = np.zeros(len(graph.edge), dtype=bool)
    if stems:
        pairs = np.sort(np.array(stems), axis=1)
        keys = graph.edge[:, 0] * graph.size + graph.edge[:, 1]
        found = np.isin(keys, pairs[:, 0] * graph.size + pairs[:, 1])
    return found


_FEWEST = 3


def _is_alone(base: int, own: Sequence[int], bases: Mapping[int, Sequence[int]]) -> bool:
    """Whether the stitches before and after some in one place stand farther on."""
    for beside in (_before(own[0], bases), _after(own[-1], bases)):
        if any(abs(base - other) < _SKIPPED for other in bases.get(beside, ())):
            return False
    return True


_SKIPPED = 2
_REACH = 4


def _before(top: int, bases: Mapping[int, Sequence[int]]) -> int:
    return next((n for n in range(top - 1, top - _REACH, -1) if n in bases), -1)


def _after(top: int, bases: Mapping[int, Sequence[int]]) -> int:
    return next((n for n in range(top + 1, top + _REACH) if n in bases), -1)


def _angles(graph: FabricGraph, straight: Complex, shell: Truth, closed: Truth) -> Real:
    """The corners, those of holes and shells as if every row lay straight.

    A hole that is left to itself is round; between rows it is as long as the stitches under
    it and as high as those beside it.
    """
    edge, sign = graph.corner_edge, graph.corner_sign
    ends = straight[graph.edge]
    way = ends[:, 1] - ends[:, 0]
    after, before = way[edge[:, 0]] * sign[:, 0], way[edge[:, 1]] * sign[:, 1]
    turned = np.angle(before * after.conj()) % (2 * np.pi)
    hole = ~graph.corner_solid | _in_cells(graph, shell)
    one, other = closed[graph.row[graph.edge]].T
    hole &= ~_in_cells(graph, one | other)
    hole &= (np.abs(after) > 0) & (np.abs(before) > 0)
    angle: Real = np.where(hole, turned, graph.corner_angle)
    return angle


def _in_cells(graph: FabricGraph, edges: Truth) -> Truth:
    """(c,) whether each corner is of a cell that has any of some edges."""
    own = edges[graph.corner_edge[:, 0]] | edges[graph.corner_edge[:, 1]]
    often = np.bincount(graph.corner_cell, own, graph.cells)
    found: Truth = often[graph.corner_cell] > 0
    return found


def in_straight_rows(graph: FabricGraph, length: Real) -> Complex:
    """(n,) where the nodes lie if rows keep their breadth, in widths.

    Each stitch stands as high over its place as it is tall, the outer ones of several in
    one place a little lower; chains hang between the stitches beside them.
    """
    position: Complex = np.zeros(graph.size, dtype=complex)
    step = _steps(graph, length)
    top, base = graph.leg[graph.leg_into >= 0].T
    tall = _heights(graph)
    for course in graph.courses:
        number = course.number
        x = -course.direction * np.cumsum(step[course.nodes])
        mine = (top >= course.first) & (top < course.first + number)
        own, under = top[mine] - course.first, base[mine]
        y = np.zeros(number)
        if len(own):
            x = x + np.median(position[under].real - x[own])
            often = np.bincount(own, minlength=number)
            low = np.bincount(own, position[under].imag, number) / np.maximum(often, 1)
            y = low + tall[course.nodes] * _domed(under, own, number)
            stands = np.flatnonzero(often)
            y = _levelled(np.interp(np.arange(number), stands, y[stands]))
        position[course.nodes] = x + 1j * y
    return position


def _steps(graph: FabricGraph, length: Real) -> Real:
    """(n,) how far each node lies from the one before it in its row; 0 for the first."""
    along = graph.joint == int(Joint.ROW)
    low, high = graph.edge[along, 0], graph.edge[along, 1]
    following = high == low + 1
    step = np.zeros(graph.size)
    step[high[following]] = length[along][following]
    return step


def _heights(graph: FabricGraph) -> Real:
    """(n,) how tall each stitch is: as long as its longest leg."""
    legs = graph.joint == int(Joint.STITCH)
    tall = np.zeros(graph.size)
    np.maximum.at(tall, graph.edge[legs, 1], graph.length[legs])
    return tall


def _levelled(y: Real) -> Real:
    """The heights along a row, so that what is high or low evens out over some rows."""
    mean = y.mean()
    level: Real = mean + np.clip(_KEPT * (y - mean), -_UNEVEN, _UNEVEN)
    return level


_KEPT, _UNEVEN = 0.9, 0.6
"""Of what a row is uneven by, and widths of a stitch it is so at most."""
_LOWER = 0.3
"""By how much the outermost stitch of a shell stands lower than its middle one."""


def _domed(under: Whole, own: Whole, number: int) -> Real:
    """(number,) the share of its height to which each stitch of a row stands up."""
    share = np.ones(number)
    for place in np.unique(under):
        fan = own[under == place]
        if len(fan) >= _FEWEST:
            rank = np.linspace(-1, 1, len(fan))
            share[fan] = 1 - _LOWER * rank**2
    return share


def hangs_straight(graph: FabricGraph) -> bool:
    """Whether rows to and fro run straight across: nothing draws them into waves.

    Waves come from stitches drawn together inside the rows, which lace has none of, or few.
    """
    if any(course.closed for course in graph.courses):
        return False
    often = np.bincount(graph.leg[:, 0], minlength=graph.size)
    own = graph.leg_into >= 0
    drawn = np.bincount(graph.leg[own, 0], minlength=graph.size) > 1
    return float(drawn.sum()) <= _FEW_DRAWN * max(1, int((often > 0).sum()))


_FEW_DRAWN = 0.02


def hung_straight(rest: AtRest) -> Complex | None:
    """(n,) where lace lies whose rows run straight across; None for what does not.

    Rows that go out along a chain of their own and back do not. Where its stitches were
    fitted to a gauge, it is as high for its width as it was measured: stitches that were
    fitted to lace that draws in are lower than they stand where it is pinned out.
    """
    graph, extent = rest.graph, rest.extent
    if any(course.own_chains for course in graph.courses):
        return None
    loose = with_slack_chains(graph)
    if loose is graph or not hangs_straight(loose):
        return None
    in_rows = in_straight_rows(graph, loose.length)
    if grows_inside(graph, in_rows):
        return None
    if rest.stitch is None or not rest.stitch.fitted:
        return in_rows
    width, height = float(np.ptp(in_rows.real)), float(np.ptp(in_rows.imag))
    taller = extent.height * width / max(extent.width * height, 1e-9)
    found: Complex = in_rows.real + 1j * float(np.clip(taller, *_TALLER)) * in_rows.imag
    return found


_TALLER = 1.0, 3.0
"""By how much lace is drawn taller than its stitches, at least and at most."""


def grows_inside(graph: FabricGraph, straight: Complex) -> bool:
    """Whether rows grow within themselves, as along the spine of a shawl, and so bend.

    Laid straight, the stitches of each half of a row then lean out over those below.

    Args:
        graph: The piece.
        straight: (n,) where it lies in straight rows.
    """
    own = graph.leg_into >= 0
    top, base = graph.leg[own].T
    lean = straight[top].real - straight[base].real
    out: list[float] = []
    for course in graph.courses:
        mine = (top >= course.first) & (top < course.first + course.number)
        at = top[mine] - course.first
        begins, ends = at < course.number // 2, at >= course.number // 2
        if begins.any() and ends.any():
            halves = lean[mine][begins].mean() - lean[mine][ends].mean()
            out.append(course.direction * float(halves))
    return bool(out) and float(np.median(out)) > _LEANS


_LEANS = 1.0
"""Widths of a stitch that halves of rows lean apart, from which they bend."""


def _wanted(whole: Real, slack: Real, closed: Truth) -> Real:
    """(rows,) how long each row is to be: as the longest row of stitches near it."""
    says = (slack <= _MOSTLY_STITCHES * whole) & ~closed & (whole > 0)
    wanted = whole.copy()
    # Rows with a chain here and there are as wide as the rows without any, if nearly so.
    plain = whole[(slack == 0) & says]
    for row in np.flatnonzero(says & (slack > 0)):
        like = plain[np.abs(plain - whole[row]) < _NEARLY * whole[row]]
        if len(like):
            wanted[row] = like.max()
    whole = wanted.copy()
    for row in np.flatnonzero(~says & ~closed):
        low = max(0, row - _NEAR)
        near = whole[low : row + _NEAR + 1][says[low : row + _NEAR + 1]]
        if len(near):
            wanted[row] = near.max()
        elif says.any():  # lace all the way: as wide as where it began
            told = np.flatnonzero(says)
            wanted[row] = whole[told[np.abs(told - row).argmin()]]
    return wanted
