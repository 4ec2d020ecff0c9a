"""The symbol of one stitch, by itself."""

from __future__ import annotations

from xml.etree import ElementTree as ET

import pytest

from hookwright.checking import check
from hookwright.drawing.one_symbol import one_symbol
from hookwright.source import Source

WORKED = check(
    Source("Ch 10.\nRow 1: Sc in 2nd ch from hook and in each ch across.")
).worked


@pytest.mark.parametrize(
    "stitch", ["sc", "dc", "dc3tog", "ch", "fpdc", "sl st", "shell", "?"]
)
def test_every_stitch_is_drawn_in_a_square(stitch: str) -> None:
    root = ET.fromstring(one_symbol(WORKED, stitch))  # noqa: S314 - our own
    left, top, wide, high = map(float, root.attrib["viewBox"].split())
    assert wide == pytest.approx(high)
    assert len(list(root.iter())) > 2
    assert (left, top) < (0, 0)
