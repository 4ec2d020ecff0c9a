"""Does the gauge say how it was measured, and in which stitch?

A swatch grows when it is blocked, and a row of sc is not as high as one of dc: a maker who
is not told cannot compare. A gauge that need not be met is left alone, and the size of a
motif or of the first rounds tells its stitch by itself.
"""

from __future__ import annotations

from collections.abc import Iterator

from hookwright.design.facts import Gauge, State
from hookwright.editing.gauge_stitch import gauge_stitch
from hookwright.editing.manuscript import Manuscript
from hookwright.finding import Finding, Severity


def gauge_state(manuscript: Manuscript) -> Iterator[Finding]:
    """Advice where state or stitch is left open, a warning where no row has the stitch."""
    yield from gauge_stitch(manuscript)
    gauges = manuscript.design.gauges
    stitch_told = any(gauge.stitch for gauge in gauges)
    for gauge in gauges:
        missing = [] if gauge.loose else list(_missing(gauge, stitch_told=stitch_told))
        if missing:
            yield _told(gauge, missing)


def _missing(gauge: Gauge, *, stitch_told: bool) -> Iterator[str]:
    if gauge.state is State.UNSAID:
        yield "whether it is measured blocked or as worked"
    if gauge.of == "st" and not gauge.stitch and not stitch_told:
        yield "in which stitch it is worked"


def _told(gauge: Gauge, missing: list[str]) -> Finding:
    wanted = {
        "whether it is measured blocked or as worked": '"after blocking" or "as worked"',
        "in which stitch it is worked": "the stitch or pattern of the swatch",
    }
    return Finding(
        "gauge-state",
        Severity.ADVICE,
        gauge.span,
        f"The gauge does not say {', nor '.join(missing)}.",
        f"Write {' and '.join(wanted[what] for what in missing)} behind it.",
    )
