"""How are lengths, counts and findings told to the page? In both units, each as a word."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from hookwright.finding import Finding
from hookwright.sizing.facts import Multiple
from hookwright.sizing.lengths import in_cm, in_inches
from hookwright.sizing.made import Made
from hookwright.sizing.pitch import Pitch


def length(mm: Fraction | None) -> dict[str, Any] | None:
    """A length in millimetres, and in words in both units."""
    if mm is None:
        return None
    return {"mm": round(float(mm), 3), "in": in_inches(mm), "cm": in_cm(mm)}


def pitch(found: Pitch | None) -> dict[str, Any] | None:
    """What something takes up, with how far it may be off."""
    if found is None:
        return None
    return {
        **(length(found.mm) or {}),
        "spread": length(found.spread_mm),
        "measured": found.measured,
    }


def made(found: Made | None) -> dict[str, Any] | None:
    """One way to make a size."""
    if found is None:
        return None
    return {
        "repeats": found.repeats,
        "chain": found.chain,
        "stitches": found.stitches,
        "rows": found.rows,
        "sets": found.sets,
        "width": pitch(found.width),
        "height": pitch(found.height),
    }


def multiple(found: Multiple | None) -> dict[str, Any] | None:
    """A multiple in numbers and in words."""
    if found is None:
        return None
    return {"each": found.each, "extra": found.extra, "says": str(found)}


def findings(found: tuple[Finding, ...]) -> list[dict[str, str]]:
    """What stands in the way, in sentences."""
    return [{"message": one.message, "why": one.why} for one in found]
