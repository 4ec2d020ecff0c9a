"""Ribbing of posts draws in beside plain fabric; a piece of ribbing is as its gauge says."""

from __future__ import annotations

import numpy as np
import pytest

from hookwright.checking import check
from hookwright.shape.graph import FabricGraph
from hookwright.shape.post_rib import DRAWN_IN
from hookwright.shape.resting import AtRest, pieces_at_rest
from hookwright.shape.standing import row_lengths
from hookwright.source import Source

HEAD = (
    "US terms. The ch 2 at the start of a round does not count as a stitch.\n\n"
    "Ch 60; join with sl st in first ch to form a ring.\n"
    "Rnd 1: Ch 2, dc in each ch around; join with sl st in first dc. (60 dc)\n"
)
RIB = "Ch 2, *{} around; join with sl st in first st. (60 sts)\n"
ONE = RIB.format("FPdc around next st, BPdc around next st; rep from *")
TWO = RIB.format(
    "FPdc around each of next 2 sts, BPdc around each of next 2 sts; rep from *"
)
FRONT = RIB.format("FPdc around next st; rep from *")
PLAIN = "Ch 2, dc in each st around; join with sl st in first st. (60 dc)\n"


def laid(*rounds: str) -> FabricGraph:
    told = "".join(f"Rnd {number}: {words}" for number, words in enumerate(rounds, 2))
    (rest,) = pieces_at_rest(check(Source(HEAD + told)), 0)
    assert isinstance(rest, AtRest)
    return rest.graph


def test_a_brim_of_ribbing_draws_in_over_its_first_rounds() -> None:
    # Common practice, no source: a fifth to a sixth narrower than the same count plain.
    lengths = row_lengths(laid(*[PLAIN] * 6, *[ONE] * 4)) / 60
    assert lengths[1:8] == pytest.approx(np.ones(7))
    assert (np.diff(lengths[7:11]) < 0).all()
    assert lengths[-1] == pytest.approx(DRAWN_IN)


def test_ribbing_of_twos_draws_in_where_front_and_back_change() -> None:
    one, two = (row_lengths(laid(*[PLAIN] * 6, *[rib] * 4))[-1] for rib in (ONE, TWO))
    assert 60 - two == pytest.approx((60 - one) / 2)


def test_posts_all_from_one_side_do_not_draw_in() -> None:
    assert row_lengths(laid(*[PLAIN] * 6, *[FRONT] * 4))[-1] == pytest.approx(60)


def test_a_piece_of_ribbing_is_as_wide_as_its_gauge_says() -> None:
    assert row_lengths(laid(*[ONE] * 8))[-1] == pytest.approx(60)
