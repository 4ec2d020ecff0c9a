"""The swatch: what was measured, the gauge that comes of it, and what to make first."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from hookwright.checking import Checked
from hookwright.design.facts import Gauge, Measure
from hookwright.desk import told
from hookwright.desk.asked import Asked
from hookwright.listing.summary import counted
from hookwright.sizing.multiples import multiples_of
from hookwright.sizing.placed import PartSized
from hookwright.sizing.sized import Request, size_pattern


def answer(asked: Asked) -> dict[str, Any]:
    """Swatches of the worksheet, the gauge of each part, and the swatch to make."""
    checked = asked.checked
    sized = size_pattern(checked, multiples_of(checked), Request())
    return {
        "swatches": [_swatch(gauge) for gauge in _measured(checked)],
        "tables": _tables(checked),
        "words": asked.spans(gauge.span for gauge in checked.design.gauges),
        "parts": [_part(part) for part in sized.parts],
    }


def _measured(checked: Checked) -> tuple[Gauge, ...]:
    if checked.worksheet is None:
        return ()
    return tuple(g for g in checked.worksheet.noted.swatches if g.stitches or g.rows)


def _tables(checked: Checked) -> int:
    """How many swatches stand in the worksheet, with what is only begun."""
    sheet = checked.worksheet
    return len(sheet.noted.swatches) if sheet is not None else 0


def _swatch(gauge: Gauge) -> dict[str, Any]:
    return {
        "part": gauge.part,
        "stitch": gauge.stitch,
        "of": "repeats" if gauge.of == "repeat" else "stitches",
        "across": float(gauge.stitches) if gauge.stitches is not None else None,
        "rows": float(gauge.rows) if gauge.rows is not None else None,
        "width": _length(gauge.width),
        "height": _length(gauge.height),
        "state": str(gauge.state),
    }


def _length(measure: Measure | None) -> dict[str, Any] | None:
    return told.length(measure.at(0)) if measure is not None else None


def _part(part: PartSized) -> dict[str, Any]:
    gauge = part.gauge
    return {
        "part": part.multiple.part,
        "origin": str(gauge.origin),
        "state": str(gauge.state),
        "stitch": told.pitch(gauge.stitch),
        "repeat": told.pitch(gauge.repeat),
        "row": told.pitch(gauge.row),
        "said": list(gauge.said),
        "make": list(_to_make(part)),
    }


def _to_make(part: PartSized) -> Iterator[str]:
    """The swatch to make first, in sentences."""
    swatch = part.swatch
    if swatch is None:
        return
    begin = f"Chain {swatch.chain}: " if swatch.chain is not None else ""
    rows = f", {counted(swatch.rows, 'row')}" if swatch.rows is not None else ""
    yield f"{begin}{counted(swatch.stitches, 'stitch')}{rows}.".replace(
        "stitchs", "stitches"
    )
    yield swatch.measure
