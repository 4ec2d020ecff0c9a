"""What is laid double lies as its front does, be it a garment, a hat or a slipper.

Half of what goes round the body lies across its front, and half of what is left for a sleeve
along the edge of that sleeve: counting alone.
"""

from __future__ import annotations

from functools import cache
from pathlib import Path

import numpy as np
import pytest
from examples_checked import example

from hookwright.checking import check
from hookwright.drawing.asked import Wanted, sheets_of
from hookwright.reading import read_draft
from hookwright.shape.energy import Complex
from hookwright.shape.fronts import Front, front_of
from hookwright.shape.laying import Piece, heights_in, pieces_laid
from hookwright.shape.resting import AtRest, pieces_at_rest
from hookwright.shape.sleeves import sleeves_left
from hookwright.shape.standing import row_lengths

CASES = Path(__file__).parents[1] / "cases"
BODY = (108, 116, 128)
SLEEVE = (34, 38, 42)
NECK_DOWN = (13, 14, 15)


@cache
def tee(size: int) -> AtRest:
    (found,) = pieces_at_rest(example("skerry-yoke-tee"), size)
    assert not isinstance(found, Piece)
    return found


def front(size: int) -> Front:
    found = tee(size).front
    assert found is not None
    return found


def corners(size: int) -> Complex:
    return front(size).outline


@pytest.mark.parametrize("size", range(3))
def test_half_the_stitches_of_the_body_lie_across_it(size: int) -> None:
    underarm, far_underarm = corners(size)[3], corners(size)[6]
    assert abs(far_underarm - underarm) == pytest.approx(BODY[size] / 2, rel=0.02)


@pytest.mark.parametrize("size", range(3))
def test_half_the_stitches_of_a_sleeve_lie_along_its_edge(size: int) -> None:
    upper, lower = corners(size)[1:3]
    # and a stitch in the space of each raglan line, of which two are left on each side
    assert abs(upper - lower) == pytest.approx(SLEEVE[size] / 2, abs=1.5)


@pytest.mark.parametrize("size", range(3))
def test_the_shoulder_is_as_long_as_the_rounds_of_the_yoke_are_high(size: int) -> None:
    neck, upper = corners(size)[:2]
    height = tee(size).graph.courses[2].height
    assert abs(upper - neck) == pytest.approx(NECK_DOWN[size] * height, rel=0.04)


def test_its_front_holds_half_of_its_stitches_and_none_is_strained() -> None:
    graph, found = tee(0).graph, front(0)
    assert found.upper.mean() == pytest.approx(0.5, abs=0.02)
    both = found.upper[graph.edge].all(axis=1)
    one, other = found.position[graph.edge[both]].T
    stretched = np.abs(other - one) / graph.length[both] - 1
    assert np.quantile(np.abs(stretched), 0.95) < 0.1


def test_half_the_stitches_of_a_hat_lie_across_it_and_its_crown_is_a_dome() -> None:
    (cap,) = pieces_at_rest(example("petrel-cap"), 0)
    assert not isinstance(cap, Piece)
    found = front_of(cap.graph)
    assert found is not None
    assert not found.garment
    rounds = [found.position[c.nodes[found.upper[c.nodes]]] for c in cap.graph.courses[1:]]
    rim = np.abs(np.diff(rounds[-1])).sum()
    # The plane widens it a little, for what is bent over a head has no flat side, and
    # three rounds of ribbing are held by the plain ones above.
    drawn, plain = row_lengths(cap.graph)[-1] / 2, cap.graph.courses[-1].number / 2
    assert drawn < rim < plain
    wide = [np.ptp(own.real) for own in rounds[:-3]]  # the last three rounds are ribbing
    assert wide == sorted(wide)
    assert np.ptp(rounds[-1].real) < wide[-1]
    assert wide[7] > 0.7 * wide[-1]  # a triangle would be half as wide there


def test_a_row_without_stitches_is_folded_nowhere() -> None:
    basket = check(read_draft(CASES / "round-b" / "kelp-basket-handles.txt"))
    graph = next(
        iter(pieces_laid(basket.worked.sizes[0].outcomes, heights_in(basket.worked, 0)))
    ).graph
    assert any(course.number == 0 for course in graph.courses)
    found = front_of(graph)
    assert found is not None
    assert found.upper.mean() == pytest.approx(0.5, abs=0.1)


def test_its_neck_is_above_and_its_sides_are_alike() -> None:
    outline = corners(0)
    assert outline[0].imag > outline[4].imag
    assert outline == pytest.approx(-outline[::-1].conj())


def test_a_cap_a_toy_and_a_bag_with_handles_leave_no_sleeves() -> None:
    bag = check(read_draft(CASES / "round-b" / "saltmarsh-tote.txt"))
    for checked in (bag, *map(example, ("petrel-cap", "puffling", "kelp-square"))):
        for piece in pieces_at_rest(checked, 0):
            assert not isinstance(piece, Piece)
            assert sleeves_left(piece.graph) is None


def test_the_chest_is_as_the_pattern_prints_it() -> None:
    # Finished chest: 78 (84, 93) cm, by 14 stitches to 10 cm.
    (sheet,) = sheets_of("schematic", example("skerry-yoke-tee"), Wanted())
    for around, printed in zip(_around(sheet.description), (78, 84, 93), strict=True):
        assert around == pytest.approx(printed, rel=0.03)


def _around(description: str) -> list[float]:
    told = description.split(" around ")[1:]
    return [float(words.split(" cm")[0]) for words in told]
