"""What measuring a pattern comes to, as values: no arrays, and nothing heavy."""

from __future__ import annotations

from enum import StrEnum

from msgspec import Struct


class Lie(StrEnum):
    """How a piece lies."""

    FLAT = "flat"
    CUPS = "cups"
    RUFFLES = "ruffles"


class Degree(StrEnum):
    """How much is to be made of it."""

    NONE = "none"
    BLOCKS_OUT = "blocks out"
    STRONG = "strong"


class Verdict(Struct, frozen=True):
    """Does a piece lie flat?

    Attributes:
        lie: Flat, or which way not.
        degree: Whether blocking takes it up.
        surplus: By how much its rim is too long for what it goes round, 0.1 for a tenth;
            below 0 where it is too short.
        advice: What a designer makes of it, in a sentence.
    """

    lie: Lie
    degree: Degree
    surplus: float
    advice: str


class Measured(Struct, frozen=True):
    """A piece in one size, as it lies.

    Attributes:
        size: The name of the size; "" for a pattern in one.
        width_mm: How wide, the way its rows run; the longer side of a piece in rounds.
        height_mm: How high.
        repeat_width_mm: How wide a repeat of its rows is; None where there is none.
        row_pitch_mm: What one row takes up.
        angle_deg: How steeply its rows climb: the legs of a ripple.
        verdict: Whether it lies flat.
        stitches: How many stitches and chains were laid.
        rows: How many rows.
        how: How each figure came about, in sentences.
    """

    size: str
    width_mm: float
    height_mm: float
    repeat_width_mm: float | None
    row_pitch_mm: float | None
    angle_deg: float
    verdict: Verdict
    stitches: int
    rows: int
    how: tuple[str, ...]


class PartMeasured(Struct, frozen=True):
    """A piece in all sizes.

    Attributes:
        part: The name of the part it begins with; "" for a pattern in one part.
        sizes: One value a size that works it.
        reason: Why it was not measured, or not all of it; "" where it was.
    """

    part: str
    sizes: tuple[Measured, ...]
    reason: str = ""


class Measures(Struct, frozen=True):
    """A pattern measured.

    Attributes:
        parts: Its pieces in working order.
        refused: Why the gauge that was asked for cannot be used; "" where it can.
    """

    parts: tuple[PartMeasured, ...]
    refused: str = ""
