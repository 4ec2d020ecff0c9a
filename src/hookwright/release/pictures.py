"""Which pictures go with a pattern: the fabric, the charts, the outlines?

All of them follow from the same fabric, so an earlier release has all that are still true
or none. What draws them is brought in only where they are drawn.
"""

from __future__ import annotations

from functools import partial

from hookwright import __version__
from hookwright.checking import Checked
from hookwright.progress import Progress, stretch
from hookwright.release.aside import Aside
from hookwright.release.charts import drawing_kept, drawings_of
from hookwright.release.cover import cover_of, covers_of
from hookwright.release.drawn import Drawn, Earlier
from hookwright.release.fabric_key import fabric_key
from hookwright.release.manifest import sha256
from hookwright.sizing.multiples import multiples_of


def pictures_of(
    checked: Checked, earlier: Earlier, aside: Aside, progress: Progress | None = None
) -> tuple[Drawn, ...]:
    """The pictures of a pattern.

    Raises:
        Cancelled: When whoever is told of the progress stops the work.
    """
    made_of = sha256("pictures", __version__, fabric_key(checked))
    kept = _kept(checked, earlier, made_of)
    if kept:
        return kept
    import hookwright.drawing.both_hands  # noqa: F401, PLC0415 - once, for both processes

    multiples_of(checked)  # remembered, so that both have it
    (covers,) = aside.begin([partial(covers_of, checked, made_of)])
    drawings = drawings_of(checked, made_of, aside, stretch(progress, 0.0, 0.7))
    return (*covers.result(stretch(progress, 0.7, 1.0, "the fabric")), *drawings)


def _kept(checked: Checked, earlier: Earlier, made_of: str) -> tuple[Drawn, ...]:
    """All pictures of an earlier release; none where one of them is not whole any more."""
    covers, drawings = [], []
    for name in earlier.names(made_of):
        data = earlier.keep(name, made_of)
        if data is None:
            return ()
        if cover := cover_of(checked, name, data, made_of):
            covers.append(cover)
        elif drawing := drawing_kept(name, data, made_of):
            drawings.append(drawing)
    return (*covers, *drawings)
