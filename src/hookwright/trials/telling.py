"""What the testers report, for people on a terminal and for programs."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

import msgspec

from hookwright.trials.facts import Analysis, ColourUse, Spread, Unclear


def analysis_lines(analysis: Analysis) -> Iterator[str]:
    """The analysis in paragraphs."""
    yield f"{analysis.reported} testers have reported, {analysis.dropped} left off."
    if analysis.total is not None and analysis.total.ratios:
        uses = [analysis.total, *analysis.colours]
        yield "\n".join(("Yarn, used over reckoned at her own gauge:", *map(_use, uses)))
        yield analysis.total.allowance.said
    if analysis.gauges:
        told = (f"- {name}: {_spread(spread)}" for name, spread in analysis.gauges)
        yield "\n".join(("Gauge and size, as parts of the pattern's own:", *told))
    if analysis.hours is not None:
        yield f"Hours: {_spread(analysis.hours)}"
    if analysis.unclear:
        told = (f"- {unclear_told(one)}" for one in analysis.unclear)
        yield "\n".join(("Rows that confuse:", *told))
    if analysis.missing:
        told = (
            f"- {one.what}: {one.wanted} more wanted, so invite {one.invite}"
            for one in analysis.missing
        )
        yield "\n".join(("Not covered:", *told))
    if analysis.said:
        yield "\n".join(analysis.said)


def _use(use: ColourUse) -> str:
    factor = use.allowance.factor
    allow = (
        f"allow {percent(factor)} over what is reckoned"
        if factor is not None
        else use.allowance.said
    )
    listed = ", ".join(f"{tester} {ratio:.2f}" for tester, ratio in use.ratios)
    return f"- {use.colour}: {listed}; {allow}"


def percent(factor: float) -> str:
    """A factor as so many percent more: 1.12 is "12 %"."""
    return f"{(factor - 1) * 100:.0f} %"


def unclear_told(one: Unclear) -> str:
    """A row that confuses, with how many say so."""
    return f"{one.row}: {one.testers} of {one.of}"


def _spread(spread: Spread) -> str:
    deviation = (
        f", standard deviation {spread.deviation:.2f}"
        if spread.deviation is not None
        else ""
    )
    return (
        f"middle {spread.median:.2f}, from {spread.least:.2f} to "
        f"{spread.most:.2f}{deviation}"
    )


def analysis_answer(analysis: Analysis) -> dict[str, Any]:
    """The analysis as an object for programs."""
    told: dict[str, Any] = msgspec.to_builtins(analysis)
    return told
