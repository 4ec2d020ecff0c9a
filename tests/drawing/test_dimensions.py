"""The lengths told of a shape are those a maker lays a tape along."""

from __future__ import annotations

import numpy as np
import pytest

from hookwright.checking import check
from hookwright.drawing.asked import Wanted, sheets_of
from hookwright.drawing.dimensions import Dimension, dimensions_of
from hookwright.shape.facts import Measured
from hookwright.shape.measures import measures_of
from hookwright.source import Source

GAUGE = "Gauge: 20 sts and 20 rows in single crochet are 10 cm (4 in).\n\n"
HEAD = f"US terms. The ch 1 at the start of a row does not count as a stitch.\n\n{GAUGE}"
FRONT = HEAD + (
    "Sizes: Small (Large).\n\nCh 41 (61).\n"
    "Row 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (40 (60) sc)\n"
    "Rows 2-40: Ch 1, sc in each st across. Turn. (40 (60) sc)\n"
    "Row 41: Ch 1, sc in next 28 (42) sts, leave rem sts unworked. Turn. (28 (42) sc)\n"
    "Rows 42-60: Ch 1, sc in each st across. Turn. (28 (42) sc)\n"
)
DISC = HEAD + (
    "Rnd 1: 6 sc in magic ring. (6 sc)\n"
    + "".join(
        f"Rnd {n}: *Sc in next {n - 2} sts, 2 sc in next st; rep from * around. ({6 * n} sc)\n"
        if n > 2
        else "Rnd 2: 2 sc in each st around. (12 sc)\n"
        for n in range(2, 11)
    )
)
SQUARE = (
    f"US terms. Ch 3 counts as a dc.\n\n{GAUGE}"
    "Ch 4; join with sl st in first ch to form a ring.\nRnd 1 (RS): Ch 3, 2 dc in ring, ch "
    "2, (3 dc in ring, ch 2) 3 times; join with sl st in top of beg ch-3. (12 dc, 4 ch-2 "
    "sps)\nRnd 2: Sl st in next 2 dc, sl st in next ch-2 sp, ch 3, (2 dc, ch 2, 3 dc) in "
    "same sp, ch 1, *(3 dc, ch 2, 3 dc) in next ch-2 sp, ch 1; rep from * 2 more times; join "
    "with sl st in top of beg ch-3. (24 dc, 4 ch-2 sps, 4 ch-1 sps)\n"
)


def measured(text: str) -> tuple[Measured, ...]:
    (part,) = measures_of(check(Source(text))).parts
    return part.sizes


def told(one: Measured) -> dict[str, Dimension]:
    corners = [complex(*point) for point in one.outline]
    regular = bool(one.rounds) and one.standing is None
    return {d.name: d for d in dimensions_of(corners, circle=one.circle, regular=regular)}


def test_a_front_has_its_armhole_and_the_heights_below_and_above_it() -> None:
    # Source: arithmetic. 20 stitches and 20 rows in 10 cm: 40 stitches are 20 cm, 28 are
    # 14 cm, 40 rows 20 cm and 20 rows 10 cm; in the larger size 30 cm and 21 cm.
    small, large = (told(one) for one in measured(FRONT))
    for size, wide, narrow in ((small, 200, 140), (large, 300, 210)):
        assert size["width"].mm == pytest.approx(wide, rel=0.02)
        assert size["upper edge"].mm == pytest.approx(narrow, rel=0.03)
        assert size["edge"].mm == pytest.approx(wide - narrow, rel=0.06)
        assert size["lower part"].mm == pytest.approx(200, rel=0.03)
        assert size["upper part"].mm == pytest.approx(100, rel=0.06)


def test_edges_that_are_straight_are_drawn_straight() -> None:
    small, _ = measured(FRONT)
    assert len(small.outline) == 6
    sides = np.diff([complex(*p) for p in (*small.outline, small.outline[0])])
    assert all(abs(side.real) < 1e-6 or abs(side.imag) < 1e-6 for side in sides)


def test_an_armhole_is_on_the_side_it_is_worked_on() -> None:
    # A right-side row is worked from right to left: what is left unworked is on the left.
    small, _ = measured(FRONT)
    top = max(y for _, y in small.outline)
    assert min(x for x, y in small.outline if y > top - 1) == pytest.approx(60, rel=0.06)
    (sheet,) = sheets_of("schematic", check(Source(FRONT)), Wanted(left_handed=True))
    assert "upper edge 14" in sheet.description


def test_a_disc_is_a_circle_with_one_length() -> None:
    (disc,) = measured(DISC)
    assert disc.circle
    assert list(told(disc)) == ["across"]
    # Source: ten rounds of 5 mm and as wide: twice their height, a tenth less at the most.
    assert told(disc)["across"].mm == pytest.approx(100, rel=0.1)


def test_a_square_from_the_middle_has_four_sides() -> None:
    (square,) = measured(SQUARE)
    assert len(square.outline) == 4
    lengths = told(square)
    assert lengths["width"].mm == pytest.approx(lengths["length"].mm, rel=0.01)


def test_every_length_has_a_letter_and_stands_in_the_table() -> None:
    (sheet,) = sheets_of("schematic", check(Source(FRONT)), Wanted())
    assert sheet.description.count("lower part 20.2 cm (8 inches)") == 2
    assert "Small: width 20 cm" in sheet.description
    assert "Large: width 30 cm" in sheet.description
