"""What the testers report, on a sheet with its charts."""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.sheets.facts import Block, Grid, Heading, Picture, Points, Sheet, Words
from hookwright.trials.charts import bars, dots
from hookwright.trials.facts import Analysis, ColourUse, Spread
from hookwright.trials.telling import percent, unclear_told

_MOST_ROWS = 12


def report_sheet(analysis: Analysis, title: str) -> Sheet:
    """The sheet."""
    return Sheet(
        f"Trials of {title}" if title else "Trials",
        "What the testers report",
        (("Reported", str(analysis.reported)), ("Left off", str(analysis.dropped))),
        tuple(_blocks(analysis)),
    )


def _blocks(analysis: Analysis) -> Iterator[Block]:
    if analysis.total is not None and analysis.total.ratios:
        yield Heading("Yarn: used over reckoned, at each tester's own gauge and size")
        yield from _use(analysis.total)
        for colour in analysis.colours:
            yield Heading(f"Yarn {colour.colour}", 2)
            yield from _use(colour)
    if analysis.gauges:
        yield Heading("Gauge and size, as parts of the pattern's own")
        for name, spread in analysis.gauges:
            yield Heading(name.capitalize(), 2)
            yield _dots(spread, (1.0, "pattern"))
    if analysis.hours is not None:
        yield Heading("Hours")
        yield _dots(analysis.hours, (analysis.hours.median, "middle"), " h")
    if analysis.unclear:
        yield Heading("Rows that confuse")
        shown = analysis.unclear[:_MOST_ROWS]
        yield Picture(
            bars([(one.row, one.testers, one.of) for one in shown]),
            "; ".join(map(unclear_told, shown)),
        )
    if analysis.missing:
        yield Heading("Whom to invite")
        yield Grid(
            ("Not covered", "Reports wanted", "Invite"),
            tuple((one.what, str(one.wanted), str(one.invite)) for one in analysis.missing),
            numbers=(1, 2),
        )
    if analysis.said:
        yield Heading("To be known")
        yield Points(analysis.said)


def _use(use: ColourUse) -> Iterator[Block]:
    ratios = [ratio for _, ratio in use.ratios]
    factor = use.allowance.factor
    marks = [(1.0, "reckoned")]
    if factor is not None:
        marks.append((factor, "covers 19 of 20"))
    listed = ", ".join(f"{tester} {ratio:.2f}" for tester, ratio in use.ratios)
    yield Picture(dots(ratios, marks), f"Used over reckoned: {listed}.")
    if factor is not None:
        yield Words(f"Allow {percent(factor)} over what is reckoned. {use.allowance.said}")
    else:
        yield Words(use.allowance.said)


def _dots(spread: Spread, mark: tuple[float, str], unit: str = "") -> Picture:
    listed = ", ".join(f"{value:.2f}" for value in spread.values)
    return Picture(dots(spread.values, [mark], unit), f"Reported: {listed}{unit}.")
