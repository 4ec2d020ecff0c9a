"""Charts of tubes, ovals, layers and frills have room for their symbols, and say so."""

from __future__ import annotations

from itertools import pairwise

import numpy as np
import pytest
from charted import HEAD, charts, in_row
from hypothesis import given, settings
from hypothesis import strategies as st

from hookwright.checking import check
from hookwright.drawing.chart import Chart
from hookwright.drawing.loosening import drawn_apart
from hookwright.drawing.lying import lying_pieces
from hookwright.drawing.over_feet import kept_apart
from hookwright.drawing.overlapping import inside
from hookwright.drawing.round_layout import Oval
from hookwright.source import Source

OVAL = (
    f"{HEAD}Ch 11.\n"
    "Rnd 1: 2 sc in 2nd ch from hook, sc in next 8 ch, 4 sc in last ch; working along other "
    "side of foundation ch, sc in next 8 ch, 2 sc in last ch. (24 sc)\n"
    "Rnds 2-12: Sc in each st around. (24 sc)\n"
)
TUBE = (
    f"{HEAD}Ch 40; join with sl st in first ch to form a ring.\n"
    "Rnd 1: Ch 1, sc in each ch around; join with sl st in first sc. (40 sc)\n"
    "Rnds 2-6: Ch 1, sc in each sc around; join with sl st in first sc. (40 sc)\n"
)
FRILL = (
    f"{HEAD}Rnd 1: 6 sc in magic ring. (6 sc)\nRnd 2: 5 dc in each sc around. (30 dc)\n"
    "Rnd 3: 4 dc in each dc around. (120 dc)\n"
)
LAYERS = (
    f"{HEAD}Rnd 1: 12 sc in magic ring. Join with sl st in first sc. (12 sc)\n"
    "Rnd 2: Ch 1, *sc in next sc, 5 dc in next sc; rep from * around. Join. (36 sts)\n"
    "Rnd 3: Ch 1, *bpsc around next sc of Rnd 2, ch 4, skip next 5 dc; rep from * around. "
    "Join. (6 sc, 6 ch-4 sps)\n"
)


def only(text: str) -> Chart:
    (drawn,) = charts(text)
    return drawn


def test_a_tube_is_drawn_opened_flat_and_each_round_is_a_row() -> None:
    drawn = only(TUBE)
    for row in range(1, 7):
        at = np.array([mark.at for mark in in_row(drawn, row)])
        assert np.ptp(at.imag) < 0.2 * drawn.unit
        # A right-handed maker works from right to left.
        assert (np.diff(at.real) < 0).all()
    assert any("opened flat" in note for note in drawn.piece.notes)


def test_an_oval_goes_straight_along_both_sides_of_its_chain() -> None:
    # Source: construction. A piece worked round a chain has it for its middle line.
    drawn = only(OVAL)
    chain = np.array([mark.at for mark in in_row(drawn, 0)])
    last = np.array([mark.at for mark in in_row(drawn, 12)])
    assert np.ptp(chain.imag) < 0.01 * drawn.unit
    middle = chain.imag.mean()
    along = np.abs(last.real - chain.real.mean()) < 0.4 * np.ptp(chain.real)
    out = np.abs(last[along].imag - middle)
    assert np.ptp(out) < 0.2 * drawn.unit
    sides = (last[along].imag > middle).sum(), (last[along].imag < middle).sum()
    assert abs(int(sides[0]) - int(sides[1])) <= 1


def test_what_ruffles_has_room_for_its_symbols_and_it_is_told() -> None:
    drawn = only(FRILL)
    rim = np.array([mark.at for mark in in_row(drawn, 3)])
    assert np.abs(np.diff(rim)).min() > 0.3 * drawn.unit
    assert any("room for every symbol" in note for note in drawn.piece.notes)


def test_a_round_behind_another_lies_outside_it_with_short_stems() -> None:
    drawn = only(LAYERS)
    centre = next(mark.at for mark in drawn.marks if mark.symbol.id == "ring")
    petals = max(abs(mark.at - centre) for mark in in_row(drawn, 2))
    behind = [mark for mark in in_row(drawn, 3) if mark.symbol.id == "sc"]
    assert len(behind) == 6
    for mark in behind:
        assert abs(mark.at - centre) > petals - drawn.unit
        long = max(abs(b - a) for a, b, _, _ in mark.glyph.boxes)
        assert long < 1.6 * drawn.unit


def test_a_piece_with_room_keeps_its_true_shape() -> None:
    text = f"{HEAD}Rnd 1: 6 sc in magic ring. (6)\nRnd 2: 2 sc in each st around. (12)\n"
    (piece,) = lying_pieces(check(Source(text)))
    assert only(text).piece.notes == piece.notes


@settings(max_examples=30, deadline=None)
@given(
    st.lists(st.floats(-20, 20), min_size=1, max_size=30),
    st.floats(0.1, 1.5),
)
def test_stitches_are_kept_apart_and_moved_no_farther_than_they_need(
    at: list[float], gap: float
) -> None:
    wanted = np.array(at)
    found = kept_apart(wanted, np.full(len(at), gap))
    assert (np.diff(found) >= gap - 1e-9).all()
    # A projection on a convex set leaves the mean where it is, as isotonic regression does.
    assert found.mean() == pytest.approx(wanted.mean(), abs=1e-9)
    again = kept_apart(found, np.full(len(at), gap))
    assert again == pytest.approx(found, abs=1e-9)


@pytest.mark.parametrize(("half", "far"), [(0.0, 3.0), (4.0, 2.0), (1.5, 6.0)])
def test_an_oval_is_as_long_as_its_parts_and_its_points_lie_on_it(
    half: float, far: float
) -> None:
    # Source: geometry. A stadium of straight sides 2a and radius r is 4a + 2 pi r round.
    oval = Oval(half, far)
    assert oval.long == pytest.approx(4 * half + 2 * np.pi * far)
    along = np.linspace(0, oval.long, 2001)[:-1]
    parts = oval.at(along)
    assert oval.along(parts) == pytest.approx(along, abs=1e-6)
    points = oval.points(parts, np.full(len(parts), far))
    round_ = np.append(points, points[0])
    assert np.abs(np.diff(round_)).sum() == pytest.approx(oval.long, rel=1e-3)
    # Every point is as far from the segment in its middle.
    core = np.clip(points.real, -half, half)
    assert np.abs(points - core) == pytest.approx(np.full(len(points), far))


def test_of_a_line_through_a_box_the_share_inside_is_told() -> None:
    # Source: arithmetic. A line of 10 through a square of 2 in its middle is 0.4 to 0.6 in.
    box = (4 - 1j, 6 - 1j, 6 + 1j, 4 + 1j)
    assert inside(0j, 10 + 0j, box, 0.0) == pytest.approx((0.4, 0.6))
    assert inside(0j, 10 + 0j, box, 1.0) == pytest.approx((0.3, 0.7))
    assert inside(5j, 10 + 5j, box, 0.0) == (0.0, 0.0)
    slanted = tuple((p - 5) * np.exp(0.7j) + 5 for p in box)
    start, end = (p * np.exp(0.7j) + 5 for p in (-5 + 0j, 5 + 0j))
    assert inside(start, end, slanted, 0.0) == pytest.approx((0.4, 0.6))


BAG = (
    f"{HEAD}Ch 21.\n"
    "Row 1 (RS): Sc in 2nd ch from hook and in each ch across. Turn. (20 sc)\n"
    "Rows 2-8: Ch 1, sc in each st across. Turn. (20 sc)\n"
    "Rnd 9: Ch 1, sc in each of the 20 sts, sc in each of the 8 row ends, sc in each of the "
    "20 ch, sc in each of the 8 row ends; join with sl st in first sc. (56 sc)\n"
    "Rnds 10-30: Ch 1, sc in each st around; join with sl st in first sc. (56 sc)\n"
)


def test_rounds_about_rows_lie_outside_them_in_ovals() -> None:
    # Source: construction. The middle of a bag worked about its base is that base.
    (piece,) = lying_pieces(check(Source(BAG)))
    loose = drawn_apart(piece)
    assert loose is not None
    courses = loose.graph.courses
    base = loose.position[loose.graph.row < 9]
    middle = (base.real.max() + base.real.min()) / 2
    middle += 1j * (base.imag.max() + base.imag.min()) / 2
    far = np.abs(base - middle).max()
    for inner, outer in pairwise(courses[9:]):
        one, other = (np.abs(loose.position[c.nodes] - middle) for c in (inner, outer))
        assert other.min() > one.min()
        assert other.max() > one.max()
    assert np.abs(loose.position[courses[-1].nodes] - middle).min() > far
