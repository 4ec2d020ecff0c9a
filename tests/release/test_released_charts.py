"""The charts of a release: in both terms, for both hands, laid out once."""

from __future__ import annotations

from examples_checked import example

from hookwright.release.charts import charts_of
from hookwright.release.copies import Edition


def nothing(*_: str) -> None:
    return None


def test_a_square_has_a_chart_in_both_terms_and_for_both_hands() -> None:
    charts = charts_of(example("kelp-square"), nothing)
    assert [chart.picture.file for chart in charts] == [
        "chart-1-of-1-us.svg",
        "chart-1-of-1-uk.svg",
        "chart-1-of-1-us-left-handed.svg",
        "chart-1-of-1-uk-left-handed.svg",
    ]
    us, uk, left, _ = charts
    assert "double crochet" in us.picture.alt
    assert "treble crochet" in uk.picture.alt
    assert us.data != left.data
    assert us.picture.caption == left.picture.caption == "Symbol chart of Square"
    assert Edition.LEFT_HANDED not in us.editions
    assert left.editions == (Edition.LEFT_HANDED,)


def test_charts_of_an_earlier_release_are_taken_over() -> None:
    first = charts_of(example("kelp-square"), nothing)
    files = {chart.picture.file: chart for chart in first}

    def keep(name: str, made_of: str) -> bytes | None:
        chart = files.get(name)
        return chart.data if chart is not None and chart.made_of == made_of else None

    assert charts_of(example("kelp-square"), keep) == first
