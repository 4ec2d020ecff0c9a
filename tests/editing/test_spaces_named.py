"""Spaces called by a length that the row below has none of, and those that may be."""

import pytest

from hookwright.checking import check
from hookwright.source import Source

ARCHES = """\
Ch 34.
Row 1: Sc in 2nd ch from hook, *ch 5, sk 3 ch, sc in next ch; rep from * across. Turn.
"""


def told(row: str) -> list[str]:
    found = check(Source(ARCHES + row)).findings
    return [finding.message for finding in found if finding.rule == "missing-target"]


def test_a_space_of_other_chains_is_told() -> None:
    row = "Row 2: Ch 1, sc in first sc, *5 sc in next ch-6 sp, sc in next sc; rep from * across."
    assert told(row) == ["Row 2 names a ch-6 sp, but the row below has ch-5 sps."]


@pytest.mark.parametrize("space", ["ch-5 sp", "sp", "arch", "5-ch loop"])
def test_a_space_of_its_own_chains_is_right(space: str) -> None:
    row = f"Row 2: Ch 1, sc in first sc, *5 sc in next {space}, sc in next sc; rep from *."
    assert not told(row)


def test_the_chain_at_the_edge_may_be_named_by_all_of_its_length() -> None:
    mesh = (
        "Ch 13.\nRow 1: Dc in 7th ch from hook, *ch 1, sk 1 ch, dc in next ch; rep from *.\n"
        "Row 2: Ch 4 (counts as dc and ch 1), turn, dc in next dc, *ch 1, dc in next dc; "
        "rep from * to turning ch, ch 1, dc in 3rd ch of ch-6 sp.\n"
        "Row 3: Ch 1, turn, sc in first dc, *sc in next ch-1 sp, sc in next dc; rep from * "
        "to last dc, sc in ch-4 sp, sc in 3rd ch of ch-4.\n"
    )
    found = check(Source(mesh)).findings
    assert not [finding for finding in found if finding.rule == "missing-target"]
