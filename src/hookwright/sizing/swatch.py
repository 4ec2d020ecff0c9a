"""Which swatch is to be made first, and how is it measured?

About 15 cm (6 in) each way, for the edges of a swatch lie otherwise than its middle, where
10 cm (4 in) are measured. Source: magazines' and designers' advice on gauge, 12 cm at least
and better 15; common practice.
"""

from __future__ import annotations

from fractions import Fraction
from math import ceil

from msgspec import Struct

from hookwright.sizing.fabric_gauge import FabricGauge
from hookwright.sizing.facts import PartMultiple
from hookwright.sizing.pitch import Pitch

_SIDE_MM = Fraction(150)
_MIDDLE_MM = Fraction(100)
_FEWEST_REPEATS = 2
"""A repeat beside an edge lies otherwise than one between two others."""


class Swatch(Struct, frozen=True):
    """A swatch to make.

    Attributes:
        repeats: How many repeats.
        chain: Its chain; None where the piece begins without one.
        stitches: Its stitches.
        rows: How many rows; None where these cannot be told.
        width: How wide it is to come.
        height: How high.
        measure: What to count over its middle, in a sentence.
    """

    repeats: int
    chain: int | None
    stitches: int
    rows: int | None
    width: Pitch
    height: Pitch | None
    measure: str


def swatch_of(part: PartMultiple, gauge: FabricGauge) -> Swatch | None:
    """The swatch for a part; None where its multiple is not known."""
    if part.stitches is None or gauge.stitch is None:
        return None
    beside = part.stitches.extra
    one = gauge.width(part.stitches.at(1), 1, beside)
    none = gauge.width(beside, 0, beside)
    assert one is not None
    assert none is not None
    each = gauge.repeat.mm if gauge.repeat is not None else one.mm - none.mm
    wanted = ceil((_SIDE_MM - beside * gauge.stitch.mm) / each)
    fewest = _FEWEST_REPEATS if part.stitches.each > 1 or gauge.repeat is not None else 1
    repeats = max(wanted, part.stitches.least, fewest)
    rows = _rows(part, gauge)
    width = gauge.width(part.stitches.at(repeats), repeats, beside)
    assert width is not None
    return Swatch(
        repeats,
        part.chains.at(repeats) if part.chains is not None else None,
        part.stitches.at(repeats),
        rows,
        width,
        gauge.height(rows) if rows is not None else None,
        _how_to_measure(part, gauge, repeats),
    )


def _rows(part: PartMultiple, gauge: FabricGauge) -> int | None:
    if part.rows is None or part.rows.each < 1 or gauge.row is None:
        return None
    wanted = _SIDE_MM / gauge.row.mm
    sets = ceil((wanted - part.rows.extra) / part.rows.each)
    return part.rows.at(max(sets, part.rows.least))


def _how_to_measure(part: PartMultiple, gauge: FabricGauge, repeats: int) -> str:
    assert part.stitches is not None
    assert gauge.stitch is not None
    begin = "Wash and dry it as the piece will be, and let it lie flat for a night. "
    end = " Note the rows over the same height, and both before washing as well."
    if gauge.slope is not None:
        over = max(1, repeats - 1)
        waves = "1 repeat" if over == 1 else f"{over} repeats"
        return f"{begin}Measure {waves} in the middle, from peak to peak.{end}"
    in_repeats = (
        gauge.repeat is not None or gauge.stitch.mm * part.stitches.each * 2 > _MIDDLE_MM
    )
    if in_repeats and (part.stitches.each > 1 or gauge.repeat is not None):
        inner = "1 repeat" if repeats < 4 else f"{repeats - 2} repeats"
        return f"{begin}Measure {inner} in the middle, and not beside an edge.{end}"
    return (
        f"{begin}Count the stitches over 10 cm (4 in) in the middle, to half a stitch.{end}"
    )
