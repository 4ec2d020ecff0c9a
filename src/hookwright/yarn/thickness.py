"""How thick is a yarn, by its weight, or by how far its gram goes?"""

from __future__ import annotations

import tomllib
from fractions import Fraction
from functools import cache
from pathlib import Path

from msgspec import Struct

from hookwright.sizing.guessing import weights
from hookwright.sizing.pitch import root

_TABLE = Path(__file__).parent / "data" / "thickness.toml"
_INCH = Fraction(254, 10)


class Thickness(Struct, frozen=True):
    """A yarn's diameter and how it was told.

    Attributes:
        mm: The diameter.
        said: Where it comes from, in words: "yarn of weight 4, about 10 wraps to the inch".
    """

    mm: Fraction
    said: str


@cache
def _rows() -> tuple[tuple[int, Fraction, Fraction, Fraction, Fraction], ...]:
    """Number, wraps to the inch, metres in 100 g."""
    return tuple(
        (row["number"], *map(Fraction, (*row["wraps"], *row["m_per_100g"])))
        for row in tomllib.loads(_TABLE.read_text("utf-8"))["weight"]
    )


def thickness(
    weight: int | None, mm_per_g: Fraction | None, hook_mm: Fraction | None
) -> Thickness | None:
    """The diameter of a yarn; None where nothing tells of it.

    Args:
        weight: The trade's weight, 0 to 7.
        mm_per_g: The length of a gram.
        hook_mm: The hook, for a yarn that nothing else is known of.
    """
    how = f"yarn of weight {weight}"
    if weight is None and mm_per_g is not None:
        metres = mm_per_g / 10
        weight = min(_rows(), key=lambda row: _outside(metres, row[3], row[4]))[0]
        how = f"{float(metres):.0f} m in 100 g is yarn of weight {weight}"
    if weight is None and hook_mm is not None:
        middle = {w.number: sum(w.hooks, Fraction(0)) / 2 for w in weights()}
        weight = min(middle, key=lambda number: abs(middle[number] - hook_mm))
        how = f"a hook of {float(hook_mm):g} mm is for yarn of weight {weight}"
    found = next((row for row in _rows() if row[0] == weight), None)
    if found is None:
        return None
    wraps = root(found[1] * found[2])
    return Thickness(_INCH / wraps, f"{how}, about {float(wraps):.0f} wraps to the inch")


def _outside(number: Fraction, low: Fraction, high: Fraction) -> tuple[Fraction, Fraction]:
    """How far a number lies outside of a range, and how far from its middle."""
    return max(low - number, number - high, Fraction(0)), abs(number - (low + high) / 2)
