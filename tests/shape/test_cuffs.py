"""A cuff along the row ends leaves the piece level, and is told beside it."""

from __future__ import annotations

import numpy as np
import pytest

from hookwright.checking import check
from hookwright.shape.measures import measures_of
from hookwright.source import Source

HAND = (
    "US terms. The ch 1 at the start of a row does not count as a stitch.\n\n"
    "Gauge: 20 sts and 20 rows = 4 in in sc.\n\n"
    "HAND\nCh 41.\n"
    "Row 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (40 sc)\n"
    "Rows 2-30: Ch 1, sc in each st across. Turn. (40 sc)\n"
)
CUFF = (
    "Row 31: Ch 1, working along the side, sc in each of the 30 row ends. Turn. (30 sc)\n"
    "Rows 32-36: Ch 1, sc in each st across. Turn. (30 sc)\n"
)


def outline(text: str) -> np.ndarray:
    (part,) = measures_of(check(Source(text))).parts
    return np.array([complex(*point) for point in part.sizes[0].outline])


def test_a_cuff_along_row_ends_is_a_step_beside_a_level_piece() -> None:
    plain, cuffed = outline(HAND), outline(HAND + CUFF)
    assert len(plain) == 4
    sides = np.roll(cuffed, -1) - cuffed
    # Every side runs level or upright: nothing leans for the rows that stand across.
    assert (np.minimum(np.abs(sides.real), np.abs(sides.imag)) < 1.0).all()
    # Source: arithmetic. 6 rows of sc at 20 rows to 4 in stand 1.2 in out.
    wider = np.ptp(cuffed.real) - np.ptp(plain.real)
    assert wider == pytest.approx(1.2 * 25.4, rel=0.25)
    assert np.ptp(cuffed.imag) == pytest.approx(np.ptp(plain.imag), rel=0.05)
