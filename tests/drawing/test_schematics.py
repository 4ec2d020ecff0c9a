"""Outlines have the measures of the piece, in both units, in every size."""

from __future__ import annotations

from pathlib import Path

import pytest

from hookwright.checking import check
from hookwright.drawing.asked import NotDrawn, Wanted, sheets_of
from hookwright.drawing.bounds import box_of
from hookwright.drawing.recorder import Drawn, Recorder, drawn_again
from hookwright.drawing.sheet import Sheet
from hookwright.reading import read_draft
from hookwright.source import Source

EXAMPLES = Path(__file__).parents[2] / "examples"

SIZES = """US terms. The ch 1 at the start of a row does not count as a stitch.

Sizes: Small (Large).

Gauge: 16 sts and 20 rows in single crochet are 10 cm (4 in).

Ch 33 (49).
Row 1: Sc in 2nd ch from hook and in each ch across. Turn. (32 (48) sc)
Rows 2-40: Ch 1, sc in each st across. Turn. (32 (48) sc)
"""


def drawn(sheet: Sheet) -> Recorder:
    recorder = Recorder()
    drawn_again(sheet.marks, recorder)
    return recorder


def test_both_units_stand_in_the_table_for_every_size() -> None:
    # Source: arithmetic. 32 stitches at 16 in 10 cm are 20 cm, 40 rows at 20 as well.
    (sheet,) = sheets_of("schematic", check(Source(SIZES)), Wanted())
    texts = drawn(sheet).texts()
    assert "Small" in texts
    assert "Large" in texts
    assert [t for t in texts if t in ("20", "30")] == ["20", "30", "20", "20"]
    assert "7 3/4" in texts  # 20 cm are 7.87 inches, told to a quarter
    assert "width 20 cm" in sheet.description


def test_an_outline_is_as_broad_to_its_length_as_the_piece() -> None:
    (sheet,) = sheets_of("schematic", check(Source(SIZES)), Wanted(size="Large"))
    (outline,) = drawn(sheet).groups("outline")
    mark = outline.marks[0]
    assert isinstance(mark, Drawn)
    box = box_of(mark.outlines[0].points)
    assert box.width / box.height == pytest.approx(30 / 20, rel=0.02)


def test_a_size_that_is_not_there_is_told() -> None:
    with pytest.raises(NotDrawn, match="Its sizes are Small, Large"):
        sheets_of("schematic", check(Source(SIZES)), Wanted(size="Huge"))


def test_stripes_are_as_many_rows_as_the_plan_says() -> None:
    # Source: the text: 2 A, 2 B, 4 C, 2 B, 2 D, nine times, then 2 A: 110 rows.
    checked = check(read_draft(EXAMPLES / "turnstone-wave-throw.md"))
    (sheet,) = sheets_of("stripes", checked, Wanted())
    stripes = [dict(begun.group.data) for begun in drawn(sheet).groups("stripe")]
    told = [(int(stripe["rows"]), stripe["yarn"]) for stripe in stripes]
    once = [(2, "A"), (2, "B"), (4, "C"), (2, "B"), (2, "D")]
    assert told == once * 9 + [(2, "A")]


def test_a_pattern_of_one_yarn_has_no_stripes() -> None:
    with pytest.raises(NotDrawn, match="no second yarn"):
        sheets_of("stripes", check(Source(SIZES)), Wanted())
