"""Which pictures go with a pattern: the fabric, the charts, the schematic?"""

from __future__ import annotations

from hookwright.checking import Checked
from hookwright.progress import Progress
from hookwright.release.cover import covers_of
from hookwright.release.drawn import Drawn, Keep


def pictures_of(
    checked: Checked, keep: Keep, progress: Progress | None = None
) -> tuple[Drawn, ...]:
    """The pictures of a pattern.

    Raises:
        Cancelled: When whoever is told of the progress stops the work.
    """
    return covers_of(checked, keep, progress)
