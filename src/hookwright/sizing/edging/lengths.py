"""A length in both units, as an edging tells it."""

from __future__ import annotations

from fractions import Fraction

_MM_PER_INCH = 25.4


def both_units(mm: float) -> str:
    """A length in both: "2.6 cm (1.03 in)", "6.3 mm (0.25 in)"."""
    inches = mm / _MM_PER_INCH
    if mm < _SHORT:
        return f"{mm:.1f} mm ({inches:.2f} in)"
    return f"{mm / 10:.1f} cm ({inches:.{1 if inches >= _LONG else 2}f} in)"


_SHORT, _LONG = 10, 10
"""Below so many millimetres; from so many inches on."""


def in_stitches(length: Fraction, width_mm: Fraction | None) -> str:
    """A length in widths of a stitch, and in both units where a gauge tells the width."""
    told = f"{float(length):.1f}".removesuffix(".0") + " stitches"
    if width_mm is None:
        return told
    return f"{told} ({both_units(float(length * width_mm)).replace(' (', ', ')}"
