"""How much narrower is ribbing of posts than the fabric it borders?

A stitch round a post from the front comes forward and draws its neighbours behind it, one
from the back the other way: where they change the fabric folds like a screen, and the row
is shorter than its stitches are wide.
"""

from __future__ import annotations

import numpy as np
from msgspec.structs import replace

from hookwright.shape.columns import PARTS, Real, Whole
from hookwright.shape.graph import FabricGraph, Joint
from hookwright.working.fabric import Into

DRAWN_IN = 0.82
"""Of the width of a stitch: so far from the next stands one where front and back change.
Source: common practice, no source: ribbing of posts is a fifth to a sixth narrower."""
_MOST = 0.5
"""The share of its stitches up to which ribbing is a border: of a piece that is mainly
ribbing the gauge is that of the ribbing, and tells its width already."""


def drawn_in(graph: FabricGraph) -> FabricGraph:
    """The graph with the rows of its ribbing as short as they draw themselves."""
    front, back = (_round_posts(graph, into) for into in (Into.FRONT_POST, Into.BACK_POST))
    face = np.zeros(graph.size, dtype=np.int64)
    face[front], face[back] = 1, -1
    number = int((~graph.is_chain).sum())
    if not len(front) or not len(back) or len(front) + len(back) > _MOST * number:
        return graph
    ends = face[graph.edge]
    changes = (graph.joint == int(Joint.ROW)) & (ends[:, 0] * ends[:, 1] < 0)
    share = _by_row(graph, face)[graph.row[graph.edge[:, 0]]]
    return replace(graph, length=np.where(changes, share * graph.length, graph.length))


def _by_row(graph: FabricGraph, face: Whole) -> Real:
    """(rows + 1,) how far each row draws in: those beside plain rows are held by them."""
    rows = int(graph.row.max()) + 1
    ribbed = np.bincount(graph.row, face != 0, rows) > 0
    plain = np.flatnonzero(~ribbed[1:]) + 1
    away = np.abs(np.arange(rows)[:, None] - plain).min(axis=1, initial=_HELD)
    share: Real = np.maximum(DRAWN_IN, 1 - (1 - DRAWN_IN) * away / _HELD)
    return share


_HELD = 3
"""The rows over which ribbing comes to its own width, where it goes on from plain rows."""


def _round_posts(graph: FabricGraph, into: Into) -> Whole:
    """The stitches that go round posts from one side."""
    own: Whole = np.unique(graph.leg[graph.leg_into == PARTS.index(into), 0])
    return own
