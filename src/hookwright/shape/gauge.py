"""How wide and high is a stitch, for the gauge of a piece?

The gauge is found as for sizes. A gauge of flat fabric tells the stitch at once; one of
waves tells it by the geometry of the leaning columns, and where the layout then comes out
otherwise than was measured, for peaks and valleys are not all legs, the stitch is taken
over again so that it does.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.design.facts import Gauge
from hookwright.design.gauge_counts import stitch_named
from hookwright.shape.measuring import Extent
from hookwright.sizing.fabric_gauge import FabricGauge, Origin


class StitchSize(Struct, frozen=True):
    """How large the stitches of a piece are.

    Attributes:
        width_mm: The width of a stitch along its row.
        ratio: How many times as high as wide the gauge says the stitch is; 0 where the
            usual heights are taken.
        of: The plain stitch whose height that is; "" for a mean over the rows.
        repeat_mm: How wide a repeat was measured; 0 where none was.
        pitch_mm: What a row was measured to take up beside such a repeat; 0 for none.
        wave: Whether that was measured on waves.
        said: How it came about, in sentences.
        fitted: Whether it was taken over again until a repeat lay as it was measured.
        block_mm: How long the side of a block was measured; 0 where none was.
    """

    width_mm: float
    ratio: float
    of: str
    repeat_mm: float
    pitch_mm: float
    wave: bool
    said: tuple[str, ...]
    fitted: bool = False
    block_mm: float = 0.0


def stitch_size(
    checked: Checked, gauge: FabricGauge, asked: Sequence[Gauge]
) -> StitchSize | None:
    """The size of the stitches by a gauge; None where it tells no width."""
    if gauge.stitch is None:
        return None
    guessed = gauge.origin is Origin.GUESS
    said = gauge.said
    row = float(gauge.row.mm) if gauge.row is not None else 0.0
    measured = 0.0
    if gauge.repeat is not None and not gauge.of_plain:
        measured = float(gauge.repeat.mm)
    if gauge.slope is not None:
        width = float(gauge.slope.stitch_mm)
        height = row * math.cos(math.radians(gauge.slope.degrees))
    else:
        width, height = float(gauge.stitch.mm), row
    if guessed or not height:
        said = (*said, "Heights of stitches are the usual ones for their width.")
        return StitchSize(width, 0.0, "", 0.0, 0.0, wave=False, said=said)
    if gauge.row is not None and not gauge.row.measured and gauge.slope is None:
        # A row that was not measured is as high as its stitches are usually: fitting the
        # layout to a guess would draw them out or press them flat.
        return StitchSize(width, 0.0, "", measured, 0.0, wave=False, said=said)
    of = _stitch_of(checked, asked) if gauge.of_plain else ""
    pitch = row if measured else 0.0
    wave = gauge.slope is not None
    return StitchSize(width, height / width, of, measured, pitch, wave=wave, said=said)


def _stitch_of(checked: Checked, asked: Sequence[Gauge]) -> str:
    """The plain stitch that the gauge is told in."""
    noted = checked.design.noted
    gauges = [*asked, *checked.design.gauges, *(noted.swatches if noted else ())]
    named = (stitch_named(gauge.stitch) for gauge in gauges if gauge.rows)
    return next((stitch for stitch in named if stitch), "")


def fitted_again(size: StitchSize, extent: Extent) -> StitchSize | None:
    """The stitch with which a repeat comes out as measured; None where it does already.

    Of waves both the repeat and the row are brought to the measured ones, by the slope; of
    other repeats the width, and the height of a row.
    """
    if not size.repeat_mm or not extent.repeat:
        return None
    off = size.repeat_mm / (extent.repeat * size.width_mm)
    if not extent.pitch or not size.pitch_mm:
        return _wider(size, off)
    up = size.pitch_mm / (extent.pitch * size.width_mm)
    if max(abs(off - 1), abs(up - 1)) < _NEAR:
        return None
    if not size.wave:
        return _wider(size, off, up / off)
    angle = math.atan2(1, size.ratio)
    sine = min(1.0, math.sin(2 * angle) * off / up)
    wanted = math.asin(sine) / 2
    scale = up * math.sin(wanted) / math.sin(angle)
    return _wider(size, scale, math.tan(angle) / math.tan(wanted))


_NEAR = 2e-3


def _wider(size: StitchSize, scale: float, taller: float = 1.0) -> StitchSize | None:
    if abs(scale - 1) < _NEAR and abs(taller - 1) < _NEAR:
        return None
    return replace(
        size, width_mm=size.width_mm * scale, ratio=size.ratio * taller, fitted=True
    )
