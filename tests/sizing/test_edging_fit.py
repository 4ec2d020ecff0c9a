"""Borders whose repeat is fitted with the smallest change, spread evenly."""

from itertools import pairwise

import pytest
from edged_texts import cloth, offered, words

from hookwright.sizing.edging import Side, Wish
from hookwright.sizing.edging.even import change_to_fit, middles, shares
from hookwright.sizing.facts import Multiple


def test_200_in_eight_sections_are_25_each() -> None:
    """Source: crochetkim.com, picking up evenly: 200 are 8 x 25."""
    assert shares(200, 8) == (25,) * 8


def test_204_in_eight_sections_are_four_of_25_and_four_of_26() -> None:
    """Source: crochetkim.com, picking up evenly: 204 are 4 x 25 and 4 x 26."""
    found = shares(204, 8)
    assert sorted(found) == [25] * 4 + [26] * 4
    assert sum(found) == 204


@pytest.mark.parametrize(
    ("whole", "points"), [(200, 8), (204, 8), (35, 2), (7, 3), (100, 1)]
)
def test_points_are_even_and_keep_off_the_ends(whole: int, points: int) -> None:
    """Even: no two gaps differ by more than 1, and half a gap is left at either end."""
    found = middles(whole, points)
    gaps = {b - a for a, b in pairwise(found)}
    assert len(found) == points
    assert not gaps or max(gaps) - min(gaps) <= 1
    assert abs(found[0] - (whole - 1 - found[-1])) <= 1


@pytest.mark.parametrize("each", range(1, 13))
def test_the_change_is_the_smallest_that_fits(each: int) -> None:
    """Counting: s + d = x k + c, and no smaller d of either sign does."""
    for extra in (0, 1, 3):
        for stitches in range(3 * each + extra, 6 * each + 20):
            change = change_to_fit(stitches, Multiple(each, extra))
            assert (stitches + change - extra) % each == 0
            nearer = range(-abs(change) + 1, abs(change))
            assert all((stitches + d - extra) % each for d in nearer)


def test_a_shell_border_on_35_stitches_takes_two_more() -> None:
    """35 = 6 x 5 + 5: 37 are 6 shells of 6 and 1 edge stitch."""
    found = offered(cloth(35, 37), Side.TOP, Wish(kind="shell"))
    assert "2 sc in next st" in found.rows[0]
    assert found.rows[0].endswith("(37 sc)")
    assert "rep from * 5 more times" in found.rows[1]
    assert "37 sts are 6 repeats of 6 + 1, with 2 stitches more" in found.notes[-1]


def test_her_own_repeat_is_fitted_without_a_border() -> None:
    found = offered(cloth(30, 10), Side.TOP, Wish(repeat=Multiple(8, 3)))
    # 27 = 8 x 3 + 3 is 3 fewer, 35 is 5 more
    assert found.stitches == (27,)
    assert words(found).count("sc2tog") == 3


def test_a_side_is_a_corner_and_4_k_and_1_and_a_corner() -> None:
    """Source: cypresstextiles.net 2016/07/22: a side is corner + (4 k + 1) + corner, 101."""
    # 99 row ends and one stitch of the corners at either end of them are 101
    found = offered(cloth(101, 99), Side.ALL, Wish(kind="scallop"))
    assert len(found.rows) == 2
    assert "25 times, sc in next st; rep from * 3 more times" in found.rows[1]
    # counting: a corner of 7, an sc, and 25 times 5 and 1, on each of four sides
    assert found.stitches == (4 * (7 + 1 + 25 * 6),)


def test_three_in_a_corner_add_two_to_a_side_and_eight_to_the_round() -> None:
    """Counting, and printed as common practice: four corners gain 8 a round."""
    found = offered(cloth(20, 20), Side.ALL, Wish(rows=4))
    counts = [int(row.rpartition("(")[2].split()[0]) for row in found.rows]
    assert [b - a for a, b in pairwise(counts)] == [8, 8, 8]
    # 4 sides of 20, and 2 more in each of 4 corners
    assert counts[0] == 20 + 20 + 20 + 20 + 2 * 4
    for more in (0, 2, 4):
        assert f"sc in next {20 + more} sts" in words(found) or not more


@pytest.mark.parametrize("kind", ["plain", "crab", "picot", "scallop", "shell"])
@pytest.mark.parametrize("side", list(Side))
@pytest.mark.parametrize(("stitches", "rows"), [(21, 20), (34, 17), (40, 41)])
def test_every_kind_fits_every_side(
    kind: str, side: Side, stitches: int, rows: int
) -> None:
    """Each is read back and worked with the piece before it is offered."""
    assert offered(cloth(stitches, rows), side, Wish(kind=kind)).rows


def test_a_crab_stitch_is_worked_on_the_right_side() -> None:
    found = offered(cloth(20, 20), Side.TOP, Wish(kind="crab"))
    *_, base, crab = found.rows
    assert "(RS)" in crab
    assert "Do not turn." in base
