"""Lace of fans: every row as wide as the chain it began on, and upright."""

from __future__ import annotations

import numpy as np
import pytest

from hookwright.checking import check
from hookwright.drawing.lying import lying_pieces
from hookwright.drawing.slack import hung_straight, in_straight_rows, with_slack_chains
from hookwright.shape.graph import FabricGraph
from hookwright.shape.laying import heights_in, pieces_laid
from hookwright.shape.resting import AtRest, pieces_at_rest
from hookwright.source import Source

FANS = """US terms. Ch 1 does not count as a stitch.

**Fan:** ([Dc, ch 1] 4 times, dc) in the same st.

Ch 18.
Row 1 (RS): Sc in 2nd ch from hook, *sk next 3 ch, fan in next ch, sk next 3 ch, sc in next \
ch; rep from * across. Turn. (10 dc, 3 sc, 8 ch-1 sps)
Row 2 (WS): Ch 6 (counts as a dc and a ch-3 sp), sc in 3rd dc of next fan, ch 3, *dc in next \
sc, ch 3, sc in 3rd dc of next fan, ch 3; rep from * to last sc, dc in last sc. Turn. (3 dc, \
2 sc, 4 ch-3 sps)
Row 3 (RS): Ch 1, sc in first dc, *fan in next sc, sc in next dc; rep from * across, working \
the last sc in 3rd ch of beg ch-6. Turn. (10 dc, 3 sc, 8 ch-1 sps)
Rows 4-13: Rep Rows 2 and 3 five more times. (10 dc, 3 sc, 8 ch-1 sps)
"""


def fans() -> FabricGraph:
    checked = check(Source(FANS))
    assert not checked.has_errors(), [finding.message for finding in checked.findings]
    (piece,) = pieces_laid(checked.worked.sizes[0].outcomes, heights_in(checked.worked, 0))
    assert not piece.reason
    return piece.graph


def test_the_third_dc_of_a_fan_is_a_stitch_and_not_the_space_before_it() -> None:
    graph = fans()
    sc = graph.names.index("sc")
    own = graph.leg[(graph.row[graph.leg[:, 0]] == 2) & (graph.name[graph.leg[:, 0]] == sc)]
    assert len(own) == 2
    first = graph.courses[1].first
    # Counted by hand: sc, then dc ch dc ch DC; the second fan comes ten nodes on.
    assert sorted(own[:, 1] - first) == [5, 15]


def test_rows_of_lace_far_from_the_chain_are_as_wide_as_it() -> None:
    graph = with_slack_chains(fans())
    across = in_straight_rows(graph, graph.length).real
    wide = [np.ptp(across[course.nodes]) for course in graph.courses]
    assert np.allclose(wide, wide[0], atol=0.1)


def test_a_shawl_that_grows_along_its_spine_is_charted_with_its_rows_bent() -> None:
    text = (
        "US terms. Ch 3 counts as a dc.\n\nRow 1: Ch 4, (2 dc, ch 2, 3 dc) in 4th ch from hook."
        " (6 dc)\nRow 2: Ch 3, turn. Dc in same st, dc in next 2 dc, (2 dc, ch 2, 2 dc) in ch-2"
        " sp, dc in next 2 dc, 2 dc in top of ch-3. (12 dc)\nRows 3-6: Ch 3, turn. Dc in same"
        " st, dc in each dc to ch-2 sp, (2 dc, ch 2, 2 dc) in ch-2 sp, dc in each dc to last"
        " st, 2 dc in top of ch-3. (36 dc)\n"
    )
    (piece,) = lying_pieces(check(Source(text)))
    last = piece.graph.courses[-1].nodes
    height = piece.position[last].imag
    # In the middle of the row, at the spine, it stands far above its ends.
    assert height[len(last) // 2] - max(height[0], height[-1]) > 5


def test_fitted_lace_is_as_high_for_its_width_as_it_was_measured() -> None:
    gauge = "Gauge: 2 fans are 4 in wide, and 4 rows are 3 in high.\n\n"
    (rest,) = pieces_at_rest(check(Source(FANS.replace("**Fan", f"{gauge}**Fan"))), 0)
    assert isinstance(rest, AtRest)
    drawn = hung_straight(rest)
    assert drawn is not None
    for course in rest.graph.courses[1:]:
        assert np.ptp(drawn[course.nodes].imag) < 4
    shape = np.ptp(drawn.imag) / np.ptp(drawn.real)
    assert shape == pytest.approx(rest.extent.height / rest.extent.width, rel=0.02)
