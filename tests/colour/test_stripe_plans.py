"""Stripes come to rows, rows to colours, colours to ends: sums of the trade, by hand."""

from __future__ import annotations

import pytest
from colour_texts import FIVE, checked, planned, worksheet
from hypothesis import given
from hypothesis import strategies as some

from hookwright.colour.facts import Order, Run
from hookwright.colour.stripe_rows import nearest_times
from hookwright.colour.working_up import Worked, ends_of, line_of, rows_of, runs_of
from hookwright.design.stripes import Stripe, StripePlan, stripe_plans, stripe_tables
from hookwright.listing.colours import row_colours
from hookwright.notation.tree import Pattern
from hookwright.source import Source


def worked(rows: str, times: int, after: str = "") -> Worked:
    """Stripes from "4A 1B", worked so often, and what comes behind."""
    first, last = (
        tuple(Stripe(int(one[:-1]), one[-1]) for one in words.split())
        for words in (rows, after)
    )
    return Worked(first, times, last)


def read_back(line: str) -> StripePlan:
    (plan,) = stripe_plans(Source(line), Pattern(()))
    return plan


def test_a_sequence_of_nine_rows_nine_times_and_four_is_85_rows() -> None:
    # 4-1-3-1 x 9 + 4 = 85 rows, ends alike, and the colour of 3 rows takes 27: the sum of
    # a printed blanket, exact.
    piece = worked("4A 1B 3C 1D", 9, "4A")
    runs = runs_of(piece)
    assert piece.rows == 85
    assert runs[-1] == Run(82, 85, "A")
    assert rows_of(runs) == {"A": 40, "B": 9, "C": 27, "D": 9}
    assert line_of(piece) == (
        "4 rows A, 1 row B, 3 rows C, 1 row D. Work this sequence 9 times in all, "
        "then 4 rows A: 85 rows."
    )


@pytest.mark.parametrize("rows", range(81, 89))
def test_the_times_are_those_that_come_nearest(rows: int) -> None:
    # R = k P + l1 (the ends alike): 9 x 9 + 4 = 85, and four rows either way is nearer to
    # it than to 76 or 94; of 80.5 there is none.
    assert nearest_times(rows, 9, 4) == 9


def test_fourteen_colours_eight_times_and_seventeen_are_129_stripes() -> None:
    # 14 x 8 + 17 = 129 two-row stripes: the sum of a printed blanket, exact.
    colours = [chr(ord("A") + at) for at in range(14)]
    piece = Worked(
        tuple(Stripe(2, c) for c in colours), 9, tuple(Stripe(2, c) for c in colours[:3])
    )
    assert len(piece.whole) == 14 * 8 + 17 == 129
    assert piece.rows == 258


def test_122_stripes_of_one_row_have_244_ends() -> None:
    # Two ends for every separate length: 122 one-row stripes = 244 ends, exact.
    runs = runs_of(worked("1A 1B", 61))
    assert ends_of(runs, in_rounds=False, carried=False) == 244


def test_colours_are_carried_where_they_are_needed_again_at_the_edge() -> None:
    # By hand: over two rows a colour is back at the edge where it was left, over one not;
    # in rounds it always is.
    even, odd = runs_of(worked("2A 2B", 10)), runs_of(worked("1A 1B", 10))
    assert ends_of(even, in_rounds=False, carried=False) == 40
    assert ends_of(even, in_rounds=False, carried=True) == 4
    assert ends_of(odd, in_rounds=False, carried=True) == 40
    assert ends_of(odd, in_rounds=True, carried=True) == 4


def test_a_last_stripe_beside_its_own_colour_has_no_ends_between() -> None:
    runs = runs_of(worked("2A 2B 2A", 1, "2A"))
    assert ends_of(runs, in_rounds=False, carried=False) == 6


STRIPES = some.lists(
    some.tuples(some.integers(1, 12), some.sampled_from(["A", "MC", "Rust", "Sea Foam"])),
    min_size=2,
    max_size=12,
).map(lambda them: tuple(Stripe(rows, colour) for rows, colour in them))


@given(STRIPES, some.integers(1, 40), some.booleans())
def test_a_line_is_read_back_as_it_was_written(
    stripes: tuple[Stripe, ...],
    times: int,
    closes: bool,  # noqa: FBT001 - drawn
) -> None:
    after = stripes[:1] if closes and times > 1 else ()
    piece = Worked(stripes, times, after)
    plan = read_back(line_of(piece))
    assert (plan.stripes, plan.after) == (stripes, after)
    assert plan.times == ((times,) if times > 1 else ())
    assert plan.claimed == piece.rows == plan.rows(times)


def orders(stripes: str, more: str = "") -> tuple[Order, ...]:
    return planned(worksheet(FIVE, stripes, more)).orders


GAUGE = '[[swatch]]\nrows = 12\nheight = "4 in"\n'


def test_a_length_becomes_rows_at_the_gauge_and_rows_become_sequences() -> None:
    # By hand: 50 in at 12 rows to 4 in are 150 rows; five stripes of 2 rows are 10, so
    # 15 sequences are 150, and 2 rows more close them.
    first = orders('rows = 2\nfirst_equals_last = true\nlength = "50 in"\n', GAUGE)[0]
    assert first.worked.times == 15
    assert first.worked.rows == 152
    assert first.worked.told == ("That is 2 more than the 150 rows that are wanted.",)
    assert first.stripes[0].colour == first.worked.runs[-1].colour


def test_a_sequence_told_to_be_worked_nine_times_is() -> None:
    first = orders("rows = 1\ntimes = 9\nfirst_equals_last = true\n")[0]
    assert (first.worked.times, first.worked.rows) == (9, 46)


def test_favourites_are_wider_and_even_stripes_even() -> None:
    first = orders('rows = [1, 2, 4]\nfavourites = ["B"]\ncarry = true\n')[0]
    rows = {stripe.colour: stripe.rows for stripe in first.stripes}
    assert rows["B"] == 8
    assert {rows[letter] for letter in "ACDE"} == {2, 4}


def test_the_edging_is_counted_with_its_colour() -> None:
    first = orders('rows = 2\nedging = "C"\nedging_rows = 3\n')[0]
    assert dict(first.worked.rows_of) == {"A": 2, "B": 2, "C": 5, "D": 2, "E": 2}
    assert first.worked.ends == 12


def test_stripes_are_shared_out_under_what_the_yarn_is_enough_for() -> None:
    # By hand: 12 stripes of 2 rows over five colours; with 1.5 balls of 4 rows each A is
    # enough for 6 rows, 3 stripes. B, at most 3 rows, for one.
    sheet = worksheet(FIVE, "rows = 2\nstripes = 12\n")
    sheet = sheet.replace('letter = "A"', 'letter = "A"\nin_hand = 1.5\nrows_a_ball = 4')
    sheet = sheet.replace('letter = "B"', 'letter = "B"\nmost_rows = 3')
    first = planned(sheet).orders[0]
    rows = dict(first.worked.rows_of)
    assert sum(rows.values()) == 24
    assert rows["A"] <= 6
    assert rows["B"] == 2
    assert first.breaches == ()


def test_the_colour_whose_yarn_runs_out_is_named() -> None:
    sheet = worksheet(FIVE, "rows = 2\ntimes = 9\n")
    sheet = sheet.replace('letter = "B"', 'letter = "B"\nmost_rows = 10')
    plan = planned(sheet)
    assert [b.says for b in plan.orders[0].breaches] == ["B takes 18 rows, not 10."]
    assert [rule.says for rule in plan.clash] == [
        "B has 10 rows at most.", "A stripe has 2 rows.",
    ]  # fmt: skip


@pytest.mark.parametrize("wishes", [
    "rows = [2, 4]\nfirst_equals_last = true\nrows_in_all = 110\n",
    "mirrored = true\nrows = 3\n",
    "looks_random = true\nrows_in_all = 90\nrows = [1, 2, 3]\n",
    "repeated = true\ntimes = 4\nblend = true\n",
    "",
])  # fmt: skip
def test_the_line_and_the_table_of_every_order_are_read_back_and_agree(wishes: str) -> None:
    for order in orders(wishes):
        line = order.worked.line
        plan = read_back(line)
        assert plan.claimed == order.worked.rows
        assert plan.rows(next(iter(plan.times), 1)) == order.worked.rows
        # The whole draft says nothing against it either.
        text = f"# Strip\n\n{line}\n\nCh 21.\nRow 1: Sc in 2nd ch from hook and in each ch across. (20 sc)\n"
        assert not [f for f in checked(worksheet(), text).findings if "stripe" in f.message]
        (table,) = stripe_tables(Source(row_colours(order, in_rounds=False)), Pattern(()))
        assert [(row.first, row.last, row.colour) for row in table] == [
            (run.first, run.last, run.colour) for run in order.worked.runs
        ]


def test_widths_of_chance_repeat_with_the_seed() -> None:
    sheet = worksheet(FIVE, "looks_random = true\nrows = [1, 2, 3]\nstripes = 20\n")
    one, again, other = (planned(sheet, seed=seed).orders[0] for seed in (1, 1, 2))
    assert one == again
    assert one.worked.line != other.worked.line
    assert {stripe.rows for stripe in one.stripes} == {1, 2, 3}


@pytest.mark.parametrize(
    ("line", "stripes"),
    [
        ("Colours: Fern, Butter, Ash. Two rows of each.", "2 Fern, 2 Butter, 2 Ash"),
        ("Colors: Fern (A), Butter (B). Work 4 rows in each color.", "4 Fern, 4 Butter"),
        (
            "Colour order: 2 rows of each in the order Foam, Kelp and Sand, then begin again.",
            "2 Foam, 2 Kelp, 2 Sand",
        ),
    ],
)
def test_one_number_of_rows_may_be_told_for_every_colour(line: str, stripes: str) -> None:
    assert ", ".join(f"{s.rows} {s.colour}" for s in read_back(line).stripes) == stripes


@pytest.mark.parametrize(
    "line",
    [
        "Two rows of each.",
        "Work 3 rows of each stitch pattern.",
        "Yarn: Fern. 2 rows of each.",
    ],
)
def test_rows_of_each_without_a_list_of_colours_are_no_plan(line: str) -> None:
    assert stripe_plans(Source(line), Pattern(())) == ()
