"""Costs held against sums done by hand, and against fractions."""

from __future__ import annotations

import json
from decimal import Decimal
from fractions import Fraction
from math import ceil
from pathlib import Path

import pytest
from click.testing import CliRunner
from examples_checked import FOLDER, example
from hypothesis import given
from hypothesis import strategies as st

from hookwright.cli import main
from hookwright.costs.facts import Spent, Terms, Work
from hookwright.costs.gathering import working_hours
from hookwright.costs.reckoning import brought_by_a_copy, copies, letters, reckoned

WORKSHEET = """\
[costs]
price = 6.5
currency = "GBP"
fee = 8
fee_each = 0.2
rate = 15
sold = 40

[[work]]
what = "swatches"
hours = 3.5

[[work]]
what = "writing"
hours = 12

[[spent]]
what = "yarn of the sample"
amount = 24.5
"""


def test_a_hand_computed_sheet() -> None:
    # 6.50 x 0.92 - 0.20 = 5.78 a copy; 15.5 h x 15 = 232.50; with 24.50 spent 257.00.
    # 24.50 / 5.78 = 4.24: 5 copies; 257 / 5.78 = 44.46: 45 copies.
    # 40 sold: (40 x 5.78 - 24.50) / 15.5 = 13.34 an hour.
    terms = Terms(Decimal("6.5"), Decimal("0.08"), Decimal("0.2"), Decimal(15), "GBP")
    work = [Work("swatches", Decimal("3.5")), Work("writing", Decimal(12))]
    costs = reckoned(work, [Spent("yarn", Decimal("24.5"))], terms, sold=40)
    assert costs.each == Decimal("5.780")
    assert costs.labour == Decimal("232.50")
    assert (costs.copies_for_cash, costs.copies_for_all) == (5, 45)
    assert costs.an_hour == Decimal("13.34")


def test_forty_to_sixty_hours_at_a_usual_price() -> None:
    # The trade says 40-60 hours a pattern: at 15 an hour and 5.78 a copy, 104 to 156
    # copies.
    terms = Terms(Decimal("6.5"), Decimal("0.08"), Decimal("0.2"), Decimal(15))
    found = [
        reckoned([Work("all", Decimal(hours))], [], terms).copies_for_all
        for hours in (40, 60)
    ]
    assert found == [ceil(600 / 5.78), ceil(900 / 5.78)] == [104, 156]


def test_makers_who_write_are_1_to_3_in_100() -> None:
    # A designer counted questions from 1 to 3 % of sales: of 203 makers 2 to 7.
    assert letters(203) == (2, 7)
    assert letters(100) == (1, 3)


def test_a_mean_over_many_patterns() -> None:
    # 2,046,125 over 10,059 is 203.4, as a page of the trade has it: 203 each.
    assert round(Decimal(2_046_125) / Decimal(10_059)) == 203


@given(
    st.integers(0, 100_000), st.integers(1, 5_000), st.integers(0, 99), st.integers(0, 50)
)
def test_copies_are_the_fewest_that_pay(cost: int, price: int, fee: int, each: int) -> None:
    # Against exact fractions: one copy fewer never pays.
    terms = Terms(Decimal(price) / 100, Decimal(fee) / 100, Decimal(each) / 100)
    number = copies(Decimal(cost) / 100, brought_by_a_copy(terms))
    brings = Fraction(price, 100) * (1 - Fraction(fee, 100)) - Fraction(each, 100)
    if brings <= 0:
        assert number is None
        return
    assert number == ceil(Fraction(cost, 100) / brings)


def test_a_copy_that_brings_nothing_never_pays() -> None:
    terms = Terms(Decimal(1), Decimal("0.9"), Decimal("0.1"))
    costs = reckoned([], [Spent("yarn", Decimal(5))], terms)
    assert costs.copies_for_cash is None
    assert any("brings nothing" in words for words in costs.said)


def test_the_working_time_is_that_of_the_stitches() -> None:
    # 69 sc and 5 edge rows... by the pace: 12 sc a minute, the cloth has about 1,500
    # stitches.
    hours = working_hours(example("shingle-cloth"))
    assert Decimal("1.75") <= hours <= Decimal("3.5")


@pytest.mark.parametrize(
    ("lesson", "said"),
    [("", "at a usual pace"), ("[lesson]\npace = 15\n", "at your pace")],
)
def test_it_is_said_by_whose_pace(tmp_path: Path, lesson: str, said: str) -> None:
    text = (FOLDER / "puffling.md").read_text("utf-8")
    (tmp_path / "pattern.md").write_text(text, "utf-8")
    (tmp_path / "worksheet.toml").write_text(lesson + WORKSHEET, "utf-8")
    told = " ".join(CliRunner().invoke(main, ["costs", str(tmp_path)]).stdout.split())
    assert said in told


def test_the_command_reads_the_worksheet(tmp_path: Path) -> None:
    text = (FOLDER / "puffling.md").read_text("utf-8")
    (tmp_path / "pattern.md").write_text(text, "utf-8")
    (tmp_path / "worksheet.toml").write_text(WORKSHEET, "utf-8")
    run = CliRunner()
    told = json.loads(run.invoke(main, ["costs", str(tmp_path), "--json"]).stdout)
    assert (told["copies_for_cash"], told["copies_for_all"]) == (5, 45)
    assert told["a_copy_brings"] == "5.780"
    dearer = run.invoke(main, ["costs", str(tmp_path), "--price", "8", "--json"])
    assert (
        json.loads(dearer.stdout)["copies_for_all"] == 36
    )  # 257 / (8 x 0.92 - 0.2) = 35.9
    words = run.invoke(main, ["costs", str(tmp_path)]).stdout
    assert "45 copies bring back the hours as well." in words
    assert run.invoke(main, ["check", "--quiet", str(tmp_path)]).exit_code == 0


@pytest.mark.parametrize("price", ["free", "-1", "nan", "inf"])
def test_a_price_is_an_amount(price: str) -> None:
    path = str(FOLDER / "puffling.md")
    assert CliRunner().invoke(main, ["costs", path, f"--price={price}"]).exit_code == 2
