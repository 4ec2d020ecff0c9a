"""Which pictures go with a pattern: the fabric, the charts, the schematic?"""

from __future__ import annotations

from hookwright.checking import Checked
from hookwright.progress import Progress, stretch
from hookwright.release.charts import charts_of, schematics_of
from hookwright.release.cover import covers_of
from hookwright.release.drawn import Drawn, Keep


def pictures_of(
    checked: Checked, keep: Keep, progress: Progress | None = None
) -> tuple[Drawn, ...]:
    """The pictures of a pattern.

    Raises:
        Cancelled: When whoever is told of the progress stops the work.
    """
    charts = charts_of(checked, keep, stretch(progress, 0.0, 0.4, "the charts"))
    outlines = schematics_of(checked, keep, stretch(progress, 0.4, 0.6, "the measurements"))
    covers = covers_of(checked, keep, stretch(progress, 0.6, 1.0, "the fabric"))
    return (*covers, *charts, *outlines)
