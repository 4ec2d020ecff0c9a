"""What `size --json` prints: a pattern's multiples, gauge and sizes as values for programs.

Lengths are in millimetres. A number that is not known is null, with the reason beside it.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from typing import Any

from hookwright.answer import finding_answer, findings_answer
from hookwright.checking import Checked
from hookwright.finding import Finding
from hookwright.reading.draft import Draft, SameLines
from hookwright.sizing.bodies import Fit
from hookwright.sizing.fabric_gauge import FabricGauge
from hookwright.sizing.facts import Multiple, PartMultiple
from hookwright.sizing.made import Made, SizeMade
from hookwright.sizing.pitch import Pitch
from hookwright.sizing.placed import PartSized
from hookwright.sizing.sized import Sized
from hookwright.sizing.swatch import Swatch


def size_answer(
    sized: Sized, checked: Checked, not_written: Sequence[Finding] = ()
) -> dict[str, Any]:
    """The sizes of one pattern as an object for programs.

    Args:
        sized: The sizes.
        checked: The pattern.
        not_written: Why its text could not be written with them.
    """
    parts = [_part(part) for part in sized.parts]
    first = next((n for n, part in enumerate(sized.parts) if part.sizes), 0)
    main = parts[first] if parts else None
    asked = Draft(sized.asked, SameLines(sized.asked))
    noted = checked.worksheet.source if checked.worksheet is not None else sized.asked
    sheet = Draft(noted, SameLines(noted))
    return {
        "name": checked.source.name,
        "multiple": main["multiple"] if main else None,
        "sizes": main["sizes"] if main else [],
        "gauge": main["gauge"] if main else None,
        "parts": parts,
        "fits": [_fit(fit) for fit in sized.fits],
        "cautions": list(sized.cautions),
        "findings": [
            *(finding_answer(found, asked, "asked") for found in sized.findings),
            *(finding_answer(found, sheet, "worksheet") for found in sized.noted),
            *(finding_answer(found, checked.draft, "pattern") for found in not_written),
            *findings_answer(checked),
        ],
    }


def _part(part: PartSized) -> dict[str, Any]:
    return {
        "part": part.multiple.part,
        "make": part.multiple.make,
        "multiple": _multiples(part.multiple),
        "reason": part.multiple.reason or None,
        "in_rounds": part.multiple.is_round,
        "gauge": _gauge(part.gauge),
        "as_written": [_made(made) for made in part.now],
        "sizes": [_size(size) for size in part.sizes],
        "swatch": _swatch(part.swatch) if part.swatch is not None else None,
        "chains": [
            {
                "name": name,
                "chain": chain.chains,
                "spare": chain.spare,
                "marker_every": chain.every or None,
                "markers": chain.markers,
                "behind_last_marker": chain.behind,
                "length_mm": _number(chain.long),
            }
            for name, chain in part.chains
        ],
        "how": list(part.said),
    }


def _multiples(part: PartMultiple) -> dict[str, Any] | None:
    if part.chains is None and part.stitches is None and part.rows is None:
        return None
    return {
        "chains": _pair(part.chains),
        "stitches": _pair(part.stitches),
        "rows": _pair(part.rows),
        "repeats": part.repeats if part.stitches is not None else None,
        "edge": part.edge,
        "turning": part.turning,
    }


def _pair(multiple: Multiple | None) -> list[int] | None:
    return [multiple.each, multiple.extra] if multiple is not None else None


def _gauge(gauge: FabricGauge) -> dict[str, Any]:
    across, up = gauge.blocking
    before = gauge.as_worked
    return {
        "from": str(gauge.origin),
        "state": str(gauge.state) or None,
        **_pitches(gauge),
        "blocking_width": _number(across),
        "blocking_height": _number(up),
        "chain_over_width": _number(gauge.slope.chain) if gauge.slope is not None else None,
        "as_worked": _pitches(before) if before is not None else None,
        "how": list(gauge.said),
    }


def _pitches(gauge: FabricGauge) -> dict[str, float | None]:
    return {
        **_pitch("stitch", gauge.stitch),
        **_pitch("repeat", gauge.repeat),
        **_pitch("row", gauge.row),
    }


def _pitch(name: str, pitch: Pitch | None) -> dict[str, float | None]:
    return {
        f"{name}_mm": _number(pitch.mm if pitch is not None else None),
        f"{name}_spread_mm": _number(pitch.spread_mm if pitch is not None else None),
    }


def _number(number: Fraction | None) -> float | None:
    """A number for programs: to a ten-thousandth, which is finer than anybody measures."""
    return round(float(number), 4) if number is not None else None


def _size(size: SizeMade) -> dict[str, Any]:
    return {
        "name": size.wish.name,
        "wanted_width_mm": _number(size.wish.around or size.wish.width),
        "wanted_height_mm": _number(size.wish.height),
        **_made(size.nearest),
        "below": _made(size.below) if size.below is not None else None,
        "above": _made(size.above) if size.above is not None else None,
        "reason": size.reason or None,
        "how": list(size.said),
    }


def _made(made: Made | None) -> dict[str, Any]:
    made = made or Made()
    return {
        "repeats": made.repeats,
        "chain": made.chain,
        "stitches": made.stitches,
        "rows": made.rows,
        **_pitch("width", made.width),
        **_pitch("height", made.height),
    }


def _swatch(swatch: Swatch) -> dict[str, Any]:
    return {
        "repeats": swatch.repeats,
        "chain": swatch.chain,
        "stitches": swatch.stitches,
        "rows": swatch.rows,
        **_pitch("width", swatch.width),
        **_pitch("height", swatch.height),
        "how": swatch.measure,
    }


def _fit(fit: Fit) -> dict[str, Any]:
    return {
        "size": fit.size,
        "girth_mm": _number(fit.girth),
        "body": fit.body.name if fit.body is not None else None,
        "ease_mm": _number(fit.ease),
        "fit": fit.fit or None,
        "to_fit_mm": _number(fit.printed),
    }
