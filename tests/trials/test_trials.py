"""Reports of testers: read whatever their dress, and held against hand-computed sheets."""

from __future__ import annotations

import statistics
from pathlib import Path

import numpy as np
import pytest
from click.testing import CliRunner
from examples_checked import FOLDER, example
from hypothesis import given, settings
from hypothesis import strategies as st
from scipy import stats

from hookwright.cli import main
from hookwright.sheets.markdown import as_markdown
from hookwright.source import Source
from hookwright.trials.analysing import analysis_of, drop_out, invited
from hookwright.trials.cells import (
    amount_cell,
    gauge_cell,
    hours_cell,
    length_cell,
    rows_cell,
)
from hookwright.trials.columns import columns_of
from hookwright.trials.facts import Reports
from hookwright.trials.form import form_file, form_sheet, headings
from hookwright.trials.normalising import reckoned_by_size
from hookwright.trials.reading import read_reports
from hookwright.trials.report_sheet import report_sheet
from hookwright.trials.spreads import allowance_of, covering, spread_of, t95

CAP = example("petrel-cap")
SHEET = """\
tester,size,skill,stitch gauge,width,yarn used,hours,unclear rows,left off
Ann,Adult,beginner,16,56 cm,58 g,5:30,"3, 8",
Bo,Adult,intermediate,15 sts in 4 in,22 in,62 g,4 h 30 min,8,
Cy,Child,advanced,,51 cm,47 g,6,,
Dee,Large,beginner,16,23 in,,7.5,3,
Eve,Adult,advanced,,,,,,yes
"""


def reports(text: str) -> Reports:
    return read_reports(Source(text, "trials.csv"), CAP)


@pytest.mark.parametrize("freedom", [1, 2, 3, 5, 9, 29, 30, 31, 60, 200])
def test_quantiles_are_students(freedom: int) -> None:
    # scipy.stats.t, to the three places of a printed table.
    assert t95(freedom) == pytest.approx(stats.t.ppf(0.95, freedom), abs=2e-3)


def test_a_spread_is_that_of_the_library_of_statistics() -> None:
    values = [1.02, 0.97, 1.10, 1.05, 0.99]
    spread = spread_of(values)
    assert spread is not None
    assert spread.mean == pytest.approx(statistics.fmean(values))
    assert spread.deviation == pytest.approx(statistics.stdev(values))
    assert spread.median == statistics.median(values)


def test_the_limit_for_the_next_maker_is_the_prediction_limit() -> None:
    # By hand: mean 1.026, s 0.0513, n 5: 1.026 + 2.132 x 0.0513 x 1.0954 = 1.146.
    values = [1.02, 0.97, 1.10, 1.05, 0.99]
    n, mean, s = 5, statistics.fmean(values), statistics.stdev(values)
    limit = mean + stats.t.ppf(0.95, n - 1) * s * (1 + 1 / n) ** 0.5
    assert covering(values) == pytest.approx(limit, abs=1e-3)
    assert covering(values) == pytest.approx(1.146, abs=1e-3)


def test_the_limit_covers_as_many_makers_as_it_says() -> None:
    # Drawn from a normal distribution: of 2,000 trials of six makers each, the seventh is
    # covered in about 95 of 100.
    drawn = np.asarray(stats.norm.rvs(1.0, 0.08, size=(2_000, 7), random_state=11))
    hits = sum(row[6] <= (covering(list(row[:6])) or 0) for row in drawn)
    assert hits / 2_000 == pytest.approx(0.95, abs=0.015)


def test_few_testers_are_said_to_be_few() -> None:
    assert "one tells no spread" in allowance_of([1.1]).said
    assert "are few" in allowance_of([1.1, 1.0, 1.2]).said
    assert "are few" not in allowance_of([1.1, 1.0, 1.2, 1.05, 1.0]).said
    assert allowance_of([]).factor is None


@pytest.mark.parametrize(
    ("words", "unit", "metres"),
    [
        ("58 g", "", 116), ("58", "g", 116), ("2 oz", "", 113.4), ("120 yd", "", 109.7),
        ("1.5 balls", "", 300), ("0,5 balls", "", 100), ("100", "m", 100),
    ],
)  # fmt: skip
def test_yarn_is_told_in_any_unit(words: str, unit: str, metres: float) -> None:
    # A ball of 100 g has 200 m: a gram is 2 m; an ounce 28.35 g, a yard 0.9144 m.
    assert amount_cell(words, unit, (200, 100)) == pytest.approx(metres, abs=0.1)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("words", "unit", "mm"),
    [("56 cm", "", 560), ("22 in", "", 558.8), ('22"', "", 558.8), ("56", "cm", 560), ("56", "", None)],
)  # fmt: skip
def test_a_length_has_its_unit_in_the_cell_or_the_heading(
    words: str, unit: str, mm: float | None
) -> None:
    assert length_cell(words, unit) == (pytest.approx(mm) if mm else None)


@pytest.mark.parametrize(
    ("words", "hours"),
    [("5:30", 5.5), ("4 h 30 min", 4.5), ("6", 6), ("7,5", 7.5), ("90 min", 1.5), ("soon", None)],
)  # fmt: skip
def test_hours_are_told_in_many_ways(words: str, hours: float | None) -> None:
    assert hours_cell(words, "") == hours


def test_rows_and_gauges_are_read_as_they_are_written() -> None:
    assert rows_cell("3, 8-10 and 12") == (3, 8, 9, 10, 12)
    assert gauge_cell("15 sts in 4 in", inches=True) == pytest.approx(101.6 / 15)
    assert gauge_cell("16", inches=False) == pytest.approx(100 / 16)
    assert gauge_cell("loose", inches=True) is None


def test_columns_may_stand_in_any_order_and_any_words() -> None:
    told = [one.means for one in columns_of(
        ["Hours spent", "yarn used (g)", "My name", "Gauge stitches", "rows gauge", ("Width "
            "(cm)")]
    )]  # fmt: skip
    assert told == ["hours", "used", "tester", "stitch_gauge", "row_gauge", "width"]


def test_the_sheet_is_read_as_it_stands() -> None:
    found = reports(SHEET)
    assert found.findings == ()
    ann, bo, cy, dee, eve = found.trials
    assert (ann.size, ann.hours, ann.unclear) == ("Adult", 5.5, (3, 8))
    assert bo.width_mm == pytest.approx(558.8)
    assert cy.stitch_mm is None
    assert dee.used == ()
    assert eve.dropped


def test_yarn_is_held_against_the_own_size_and_gauge() -> None:
    # Ann: 58 g are 116 m, at 16 to 10 cm as the pattern has it; Bo works 4 in / 15.
    adult = reckoned_by_size(CAP)["Adult"].total
    analysis = analysis_of(CAP, reports(SHEET).trials)
    assert analysis.total is not None
    ratios = dict(analysis.total.ratios)
    assert ratios["Ann"] == pytest.approx(116 / adult, rel=1e-3)
    assert ratios["Bo"] == pytest.approx(124 / adult / (101.6 / 15 / 6.25), rel=1e-3)
    assert set(ratios) == {"Ann", "Bo", "Cy"}


def test_the_analysis_is_that_of_a_hand_computed_sheet() -> None:
    # Of four that report: rows 3 and 8 twice each; hours 4.5, 5.5, 6, 7.5: middle 5.75.
    analysis = analysis_of(CAP, reports(SHEET).trials)
    assert (analysis.reported, analysis.dropped) == (4, 1)
    assert [(one.row, one.testers) for one in analysis.unclear] == [
        ("Round 3", 2), ("Round 8", 2),
    ]  # fmt: skip
    assert analysis.hours is not None
    assert analysis.hours.median == pytest.approx(5.75)
    # One of five left off: 20 %. Baby has none of two: 2 / 0.8 = 2.5, so three.
    missing = {one.what: (one.wanted, one.invite) for one in analysis.missing}
    assert missing["size Baby"] == (2, 3)
    assert missing["size Child"] == (1, 2)
    assert "size Adult" not in missing
    assert missing["advanced makers"] == (1, 2)


def test_how_many_to_invite_follows_who_leaves_off() -> None:
    assert drop_out(3, 1) == 0.25
    assert drop_out(1, 0) == 0.25  # too few to tell: the usual share
    assert invited(3, 0.25) == 4
    assert invited(3, 0.0) == 3


def test_colours_are_told_apart() -> None:
    throw = example("turnstone-wave-throw")
    text = "name,yarn used of A,yarn used of B\nAnn,300 g,400 g\nBo,3 balls,800 m\n"
    analysis = analysis_of(throw, read_reports(Source(text), throw).trials)
    assert [use.colour for use in analysis.colours] == ["A", "B"]
    own = reckoned_by_size(throw)[""].colours
    assert analysis.total is not None
    ratio = dict(analysis.total.ratios)["Ann"]
    assert ratio == pytest.approx(1400 / (own["a"] + own["b"]), rel=1e-6)


def test_what_cannot_be_read_is_told_at_its_line() -> None:
    found = reports("tester,size,yarn used,tea\nAnn,Tiny,lots,mint\n")
    told = " ".join(one.message for one in found.findings)
    assert all(words in told for words in ("tea", "Tiny", "lots"))
    assert found.trials[0].size == ""


def test_the_form_tells_how_long_a_test_usually_takes() -> None:
    # Pages that call for testers: two to four weeks, about two months for a garment.
    told = as_markdown(form_sheet(example("skerry-yoke-tee")))
    assert "two to four weeks" in told
    assert "Send this back by" in told


def test_the_form_is_a_file_that_is_read_back() -> None:
    columns = columns_of(headings(CAP))
    assert all(column.means for column in columns)
    assert reports(
        form_file(CAP) + "Ann,Adult,beginner,5 mm,16,12,56 cm,20 cm,58 g,5,8,,\n"
    ) == (
        reports(form_file(CAP) + "Ann,Adult,beginner,5 mm,16,12,56 cm,20 cm,58 g,5,8,,\n")
    )
    assert "Rows that you had to read twice" in as_markdown(form_sheet(CAP))


def test_the_charts_stand_on_the_sheet_with_their_words() -> None:
    sheet = report_sheet(analysis_of(CAP, reports(SHEET).trials), "Petrel Cap")
    text = as_markdown(sheet)
    assert "Used over reckoned: Ann" in text
    assert "Round 3: 2 of 4" in text


@settings(max_examples=30)
@given(st.text(max_size=300))
def test_any_file_is_read(text: str) -> None:
    assert reports(text).trials is not None


def test_the_command_tells_and_writes(tmp_path: Path) -> None:
    run = CliRunner()
    path = str(FOLDER / "petrel-cap.md")
    file = tmp_path / "trials.csv"
    assert run.invoke(main, ["trials", path, "--form", str(file)]).exit_code == 0
    assert (
        run.invoke(main, ["trials", path, "--file", str(tmp_path / "no.csv")]).exit_code
        == 2
    )
    file.write_text(SHEET, "utf-8")
    page = tmp_path / "trials.html"
    words = ["trials", path, "--file", str(file), "--write", str(page)]
    result = run.invoke(main, words)
    assert result.exit_code == 0
    assert "4 testers have reported" in result.stdout
    assert "<svg" in page.read_text("utf-8")
