"""Crossed stitches are laid as if they were not, but their legs cross."""

from __future__ import annotations

from hookwright.checking import check
from hookwright.shape.laying import heights_in, pieces_laid
from hookwright.source import Source

CROSSED = """US terms. Ch 3 counts as a dc.

Crossed dc: sk next st, dc in next st, dc in skipped st.

Ch 8.
Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (7 sc)
Row 2: Ch 3, *sk next st, dc in next st, dc in skipped st; rep from * across. (7 dc)
"""


def test_the_legs_of_crossed_stitches_cross() -> None:
    checked = check(Source(CROSSED))
    heights = heights_in(checked.worked, 0)
    (piece,) = pieces_laid(checked.worked.sizes[0].outcomes, heights)
    graph = piece.graph
    tops = graph.leg[graph.row[graph.leg[:, 0]] == 2]
    own = tops - [graph.courses[2].first, graph.courses[1].first]
    # Turned, the row comes to its base from the far end.
    assert [(top, 6 - base) for top, base in own.tolist()] == [
        (0, 0), (1, 2), (2, 1), (3, 4), (4, 3), (5, 6), (6, 5),
    ]  # fmt: skip
