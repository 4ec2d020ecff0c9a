"""An edging is drawn around the piece it is worked on, to the same scale."""

from __future__ import annotations

from pathlib import Path

import pytest

from hookwright.checking import check
from hookwright.drawing.asked import NotDrawn
from hookwright.drawing.bounds import Box, box_of
from hookwright.drawing.edge_before_after import edge_sheet
from hookwright.drawing.recorder import Drawn, Recorder, drawn_again
from hookwright.sizing.edging import Side, Wish, edgings_of
from hookwright.source import Source

EXAMPLES = Path(__file__).parents[2] / "examples"
CLOTH = """US terms. The ch 1 at the start of a row does not count as a stitch.

Gauge: 16 sts and 18 rows in single crochet are 10 cm (4 in).

Ch 21.
Row 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (20 sc)
Rows 2-20: Ch 1, sc in each st across. Turn. (20 sc)
"""


def outlines(recorder: Recorder, kind: str) -> list[Box]:
    (group,) = recorder.groups(kind)
    marks = [mark for mark in group.marks if isinstance(mark, Drawn)]
    return [box_of(mark.outlines[0].points) for mark in marks]


def test_an_edging_all_round_lies_outside_the_edge_it_was_worked_on() -> None:
    before = check(Source(CLOTH))
    worked = edgings_of(before, Wish((Side.ALL,), "sc", "plain", 2))
    assert worked.proven is not None
    sheet = edge_sheet(before, worked.proven.checked)
    recorder = Recorder()
    drawn_again(sheet.marks, recorder)
    (alone,) = outlines(recorder, "before")
    edged, inside = outlines(recorder, "after")
    # To one scale: the dashed line is the outline before.
    assert abs(inside.width - alone.width) < 1e-6
    assert edged.left < inside.left
    assert edged.right > inside.right
    assert edged.top < inside.top
    assert edged.bottom > inside.bottom


def test_a_long_lace_lies_straight_with_its_edging() -> None:
    text = (EXAMPLES / "fulmar-lace-scarf.md").read_text("utf-8")
    before = check(Source(text))
    worked = edgings_of(before, Wish((Side.ALL,), "sc", "plain", 2))
    assert worked.proven is not None
    recorder = Recorder()
    drawn_again(edge_sheet(before, worked.proven.checked).marks, recorder)
    edged, inside = outlines(recorder, "after")
    assert edged.left < inside.left < inside.right < edged.right
    assert edged.width < 1.2 * inside.width


def test_of_what_stands_up_no_edge_is_drawn() -> None:
    cap = check(Source((EXAMPLES / "petrel-cap.md").read_text("utf-8")))
    with pytest.raises(NotDrawn, match="stands up"):
        edge_sheet(cap, cap)
