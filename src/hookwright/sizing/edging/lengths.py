"""A length in both units, as an edging tells it."""

from __future__ import annotations

_MM_PER_INCH = 25.4


def both_units(mm: float) -> str:
    """A length in centimetres and inches: "2.6 cm (1.03 in)"."""
    return f"{mm / 10:.1f} cm ({mm / _MM_PER_INCH:.2g} in)"
