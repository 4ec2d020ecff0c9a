"""`hookwright measure`: how large does a pattern come out, and does it lie flat?"""

from __future__ import annotations

import json
from typing import Any

from msgspec import Struct

from hookwright.answer import findings_answer
from hookwright.checking import Checked, check
from hookwright.commands.check import Status
from hookwright.commands.project import draft_at, worksheet_at
from hookwright.listing.measures import measure_listing
from hookwright.reading import UnreadableDraft
from hookwright.shape.facts import (
    Measured,
    Measures,
    PartMeasured,
    RoundMeasured,
    Standing,
)
from hookwright.shape.measures import measures_of
from hookwright.sizing.wishes import unit_of
from hookwright.terminal import ProgressLine, ReaderGone, ink, say, say_aside, width


class MeasureOptions(Struct, frozen=True):
    """What was asked for.

    Attributes:
        gauge: The gauge a maker has instead, in words; "" for that of the pattern.
        terms: "US" or "UK", whatever the text says of itself.
        as_json: An object for programs.
    """

    gauge: str = ""
    terms: str | None = None
    as_json: bool = False


def measure(path: str, options: MeasureOptions) -> Status:
    """Print the measures of the pattern at a path."""
    try:
        checked = check(draft_at(path), options.terms, worksheet_at(path))
        with ProgressLine() as line:
            measures = measures_of(checked, options.gauge, line)
        if options.as_json:
            say(json.dumps(measure_answer(measures, checked)))
        else:
            say(measure_listing(measures, unit_of(checked), width(), ink()))
    except UnreadableDraft as refusal:
        say_aside(str(refusal))
        return Status.NOT_READ
    except ReaderGone:
        return Status.CLEAN
    if not checked.has_rows():
        return Status.NOT_READ
    whole = not measures.refused and not any(part.reason for part in measures.parts)
    return Status.CLEAN if whole and not checked.has_errors() else Status.TO_MEND


def measure_answer(measures: Measures, checked: Checked) -> dict[str, Any]:
    """The measures of one pattern as an object for programs; lengths are in millimetres."""
    parts = [_part(part) for part in measures.parts]
    first = next((part for part in parts if part["sizes"]), None)
    return {
        "name": checked.source.name,
        "part": first["part"] if first else None,
        "sizes": first["sizes"] if first else [],
        "parts": parts,
        "reason": measures.refused or None,
        "findings": findings_answer(checked),
    }


def _part(part: PartMeasured) -> dict[str, Any]:
    return {
        "part": part.part,
        "sizes": [_size(size) for size in part.sizes],
        "reason": part.reason or None,
    }


def _size(size: Measured) -> dict[str, Any]:
    verdict = size.verdict
    return {
        "name": size.size,
        "width_mm": round(size.width_mm, 2),
        "height_mm": round(size.height_mm, 2),
        "repeat_width_mm": _rounded(size.repeat_width_mm),
        "row_pitch_mm": _rounded(size.row_pitch_mm),
        "angle_deg": round(size.angle_deg, 2),
        "verdict": str(verdict.lie),
        "degree": str(verdict.degree),
        "surplus": round(verdict.surplus, 4),
        "advice": verdict.advice,
        "stitches": size.stitches,
        "rows": size.rows,
        "how": list(size.how),
        "wave_mm": _rounded(size.wave_mm),
        "standing": _standing(size.standing),
        "rounds": [_round(one) for one in size.rounds],
    }


def _standing(standing: Standing | None) -> dict[str, Any] | None:
    if standing is None:
        return None
    return {
        "across_mm": _rounded(standing.across_mm),
        "tall_mm": _rounded(standing.tall_mm),
    }


def _round(one: RoundMeasured) -> dict[str, Any]:
    return {
        "label": one.label,
        "stitches": one.stitches,
        "around_mm": _rounded(one.around_mm),
        "across_mm": _rounded(one.across_mm),
        "level_mm": _rounded(one.level_mm),
        "slope_deg": _rounded(one.slope_deg),
        "curvature_deg": _rounded(one.curvature_deg),
    }


def _rounded(number: float | None) -> float | None:
    return None if number is None else round(number, 2)
