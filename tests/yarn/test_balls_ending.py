"""Where balls and lots end, and what a stash makes, against going through every row."""

from __future__ import annotations

from fractions import Fraction

import pytest
from yarn_texts import SWATCH, plain, planned, sheet, yarn

from hookwright.yarn.facts import Reach, YarnPlan
from hookwright.yarn.planning import Request

STRIPES = "4 rows A, 2 rows B. Work this sequence 8 times in all, then 4 rows A: 52 rows."
PATTERN = plain(60, 52, STRIPES)
SMALL = SWATCH + "".join(
    f'[[yarn]]\nletter = "{letter}"\nball_m = 45\nball_g = 25\n' for letter in "AB"
)


def test_a_ball_ends_in_the_row_that_goes_beyond_it() -> None:
    (size,) = planned(PATTERN, SMALL).sizes
    for colour in size.colours:
        law = dict(planned(PATTERN, SMALL).laws)[colour.yarn.label]
        used = Fraction(0)
        found: list[str] = []
        for at, row in enumerate(size.counted.rows):
            own = [u for u in row.uses if u.yarn == colour.yarn.label]
            if own and (at == 0 or size.counted.rows[at - 1].uses[0].yarn != own[0].yarn):
                used += 2 * Fraction(1524, 10)
            used += sum(law.at(u.kind).mm * u.loops * u.number for u in own)
            while used > (len(found) + 1) * 45_000:
                found.append(row.label)
        assert [join.row for join in colour.joins] == found
        assert [join.ball for join in colour.joins] == list(range(2, len(found) + 2))


def test_it_is_said_in_which_stripe_a_ball_ends() -> None:
    (size,) = planned(PATTERN, SMALL).sizes
    rows = {f"Row {n}": n for n in range(1, 53)}
    for colour in size.colours:
        for join in colour.joins:
            first, last = (rows[label] for label in join.stripe)
            assert first <= rows[join.row] <= last
            assert last - first in {1, 3}
            assert rows[join.earliest] <= rows[join.row] <= rows[join.latest]
            assert 0 <= join.spare_mm <= 45_000


def in_hand(a: float, b: float, more: str = "") -> str:
    """A worksheet with so many balls in hand."""
    told = (yarn("A", f"in_hand = {a}"), yarn("B", f'in_hand = {b}\nlot = "0412"'))
    return SWATCH + "".join(told) + more


def reach_of(plan: YarnPlan, of: str) -> Reach:
    """What is made, of what is told of."""
    return next(one for one in plan.reach if one.of.startswith(of))


@pytest.mark.parametrize(("a", "b"), [(2.0, 2.0), (1.5, 9.0), (7.0, 0.7), (4.0, 1.3)])
def test_the_largest_piece_can_be_made_and_the_next_one_cannot(a: float, b: float) -> None:
    gauge = '[[size]]\nname = "One"\nwidth = "30 cm"\nheight = "25 cm"\n'
    plan = planned(PATTERN, in_hand(a, b, gauge))
    reach = reach_of(plan, "as wide as One")
    assert reach.repeats is not None
    for rows, enough in ((reach.rows, True), (reach.rows + 6, False)):
        (size,) = planned(
            plain(reach.repeats, rows, STRIPES.split(", then", maxsplit=1)[0] + "."),
            in_hand(a, b),
        ).sizes
        assert size.enough is enough
        if not enough:
            assert size.short[0] == reach.limit


def test_a_lot_that_ends_is_told_with_the_stripe_it_ends_in() -> None:
    plan = planned(plain(90, 52, STRIPES), in_hand(9, 0.3))
    (size,) = plan.sizes
    (told,) = size.lots
    assert "0.3 balls of lot 0412 in hand, 1 more is to be had" in told
    assert "begin another lot with the stripe of Row" in told


def test_another_yarn_and_another_gauge() -> None:
    (size,) = planned(PATTERN, sheet("AB"), Request(instead="100 m")).sizes
    for colour in size.colours:
        assert colour.instead is not None
        assert (colour.instead - 1) * 100_000 < colour.bought <= colour.instead * 100_000
    wide = planned(PATTERN, sheet("AB"), Request(gauge="10 sts and 12 rows = 10 cm"))
    # 20 x 24 to 10 x 12 is four times the area; the covering law goes with it, 15 % off
    before = dict(planned(PATTERN, sheet("AB")).laws)["A"].common
    after = dict(wide.laws)["A"].common
    assert after.mm == 4 * before.mm
    assert after.spread == Fraction(15, 100)


@pytest.mark.parametrize("words", ["a lot", "0 m", "12", "-3 m"])
def test_what_is_no_length_of_a_ball_is_told(words: str) -> None:
    plan = planned(PATTERN, sheet("AB"), Request(instead=words))
    assert plan.asked == (f'"{words}" is no length of a ball: write 120 m, or 131 yd.',)


def test_a_row_and_a_size_that_are_not_there_are_told() -> None:
    assert planned(PATTERN, sheet("AB"), Request(from_row=99)).asked == (
        "There is no row 99: its last row is 52.",
    )
    assert planned(PATTERN, sheet("AB"), Request(size="Nowhere")).asked


def test_a_piece_in_one_colour_has_no_stripes_for_a_ball_to_end_in() -> None:
    one = SWATCH + '[[yarn]]\nletter = "A"\nball_m = 30\nball_g = 15\n'
    (size,) = planned(plain(60, 52), one).sizes
    (colour,) = size.colours
    assert len(colour.joins) > 3
    assert all(join.stripe == ("", "") for join in colour.joins)


def test_what_is_over_of_a_ball_is_never_more_than_a_ball() -> None:
    tiny = SMALL.replace("ball_m = 45\nball_g = 25", "ball_m = 9\nball_g = 5")
    (size,) = planned(PATTERN, tiny).sizes
    joins = [join for colour in size.colours for join in colour.joins]
    assert len(joins) > 10
    assert all(0 <= join.spare_mm <= 9_000 for join in joins)
