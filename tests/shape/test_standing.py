"""Pieces that stand up: how wide, how tall, and how each round falls."""

from __future__ import annotations

import math

import pytest
from fabrics_sketched import disc, fabric, surface

from hookwright.checking import check
from hookwright.shape.facts import Degree, Lie, Measured
from hookwright.shape.forms import sphere_counts
from hookwright.shape.measures import measures_of
from hookwright.shape.standing import by_counts, rings_of
from hookwright.source import Source

HEIGHT = 0.955
US = "US terms. Ch 1 does not count as a stitch. Gauge: 20 sc and 21 rows = 4 in.\n\n"


def measured(text: str) -> Measured:
    (part,) = measures_of(check(Source(US + text))).parts
    (size,) = part.sizes
    assert part.reason == ""
    return size


@pytest.mark.parametrize("radius", [8.0, 20.0])
def test_a_ball_is_as_tall_as_it_is_wide(radius: float) -> None:
    # Source: a sphere of radius R has circles of latitude 2 pi R sin(r/R).
    rings = rings_of(surface(sphere_counts(radius, 1.0, 1.0), 1.0))
    assert rings is not None
    assert rings.across == pytest.approx(2 * radius, rel=0.02)
    assert rings.tall == pytest.approx(2 * radius, rel=0.06)  # whole rounds and stitches
    # Source: Gauss-Bonnet, 4 pi over a closed ball; whole stitches again.
    curvature = rings.rings[-2].curvature
    assert curvature == pytest.approx(4 * math.pi, abs=2)


@pytest.mark.parametrize(("increases", "degrees"), [(3, 60.0), (4, 48.2), (5, 33.6)])
def test_a_cone_falls_at_its_angle(increases: int, degrees: float) -> None:
    # Source: plane geometry, arccos(m w / (2 pi h)).
    rings = rings_of(disc(increases, 12, HEIGHT))
    assert rings is not None
    for ring in rings.rings[2:]:
        assert ring.slope is not None
        assert math.degrees(ring.slope) == pytest.approx(degrees, abs=0.1)
    assert rings.tall == pytest.approx(
        12 * HEIGHT * math.sin(math.radians(degrees)), rel=0.01
    )


def test_a_disc_has_no_height_and_too_full_a_round_no_slope() -> None:
    flat = rings_of(disc(6, 12, HEIGHT))
    full = rings_of(disc(8, 12, HEIGHT))
    assert flat is not None
    assert full is not None
    assert flat.tall == pytest.approx(0, abs=0.2)
    assert [ring.slope for ring in full.rings[1:]] == [None] * 11
    assert by_counts(disc(8, 12, HEIGHT)) == pytest.approx(8 / (2 * math.pi * HEIGHT) - 1)


def test_rows_do_not_go_round() -> None:
    assert (
        rings_of(fabric([([(0,), (1,), (2,)], "sc")] * 4, {"sc": 1.0}, foundation=3))
        is None
    )


CAP = "Ch 4; join with sl st in first ch to form a ring.\n" + "".join(
    f"Rnd {number}: {how} ({stitches} sc)\n"
    for number, (how, stitches) in enumerate(
        [
            ("Ch 1, 6 sc in ring; join with sl st in first sc.", 6),
            ("Ch 1, 2 sc in each st around; join with sl st in first sc.", 12),
            (
                "Ch 1, *sc in next st, 2 sc in next st; rep from * around; join with sl st in first sc.",
                18,
            ),
            *[("Ch 1, sc in each st around; join with sl st in first sc.", 18)] * 5,
        ],
        start=1,
    )
)


def test_a_cap_is_measured_double_and_standing() -> None:
    # By hand: 18 sc of 5.08 mm are 91.4 mm around, so 45.7 laid double and 29.1 across; rows
    # of 4.838 mm, 8 of them laid double; standing, 5 of them are upright.
    found = measured(CAP)
    assert (found.verdict.lie, found.verdict.degree) == (Lie.CUPS, Degree.STRONG)
    assert found.width_mm == pytest.approx(45.7, abs=0.1)
    assert found.height_mm == pytest.approx(8 * 4.838, abs=0.1)
    assert found.standing is not None
    assert found.standing.across_mm == pytest.approx(29.1, abs=0.1)
    assert found.standing.tall_mm == pytest.approx(5 * 4.838, rel=0.05)
    assert [one.stitches for one in found.rounds] == [6, 12, *[18] * 6]
    assert found.rounds[-1].slope_deg == pytest.approx(90)
    assert found.rounds[-1].curvature_deg == pytest.approx(360)


SPIRAL = (
    "Work in a spiral.\n\nRnd 1: 6 sc in a magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
    + "".join(f"Rnd {number}: Sc in each st around. (12)\n" for number in range(3, 9))
)


def test_the_first_round_of_a_spiral_is_closed_like_those_on_it() -> None:
    found = measured(SPIRAL)
    assert found.standing is not None
    assert len(found.rounds) == 8


def test_rounds_along_the_ends_of_rows_are_a_tube() -> None:
    # A cuff of 4 sc worked sideways, 24 rows long, with rounds along one side: as deep as its
    # rows are long, 4 sc and 6 rounds.
    found = measured(
        "Ch 5.\nRow 1: Sc in 2nd ch from hook and in each ch across. Turn. (4 sc)\n"
        "Rows 2-24: Ch 1, sc in each st across. Turn. (4 sc)\n"
        "Rnd 1: Ch 1, work 24 sc evenly along the row ends; join with sl st in first sc. (24 sc)\n"
        "Rnds 2-6: Ch 1, sc in each st around; join with sl st in first sc. (24 sc)\n"
    )
    assert found.standing is not None
    assert found.width_mm == pytest.approx(12 * 5.08, rel=0.02)
    assert found.height_mm == pytest.approx(4 * 5.08 + 6 * 4.838, rel=0.03)


def test_a_border_of_a_piece_that_is_only_described_has_no_size() -> None:
    (part,) = measures_of(
        check(
            Source(
                US + "The panel is 20 sts wide and 24 rows high.\n\n"
                "Rnd 1: Join in the first st of the last row, ch 1, 3 sc in this st, sc in each of next "
                "18 sts, 3 sc in last st, sc in each of next 24 row ends, 3 sc in first ch of the "
                "foundation, sc in each of next 18 ch, 3 sc in last ch, sc in each of next 24 row ends; "
                "join with sl st in first sc. (96 sc)\n"
            )
        )
    ).parts
    assert part.sizes == ()
    assert "only describes" in part.reason
