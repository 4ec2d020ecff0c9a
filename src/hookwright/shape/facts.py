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
        wave: About how high the waves of its rim are from valley to crest, in widths of a
            stitch; 0 where it has none.
    """

    lie: Lie
    degree: Degree
    surplus: float
    advice: str
    wave: float = 0.0


class Standing(Struct, frozen=True):
    """A cap, tube or ball as it stands.

    Attributes:
        across_mm: How wide it is at its widest: a diameter.
        tall_mm: How tall.
    """

    across_mm: float
    tall_mm: float


class RoundMeasured(Struct, frozen=True):
    """A round by its stitches alone.

    Attributes:
        label: What the text calls it.
        stitches: How many stitches and chains it has.
        around_mm: How long it is.
        across_mm: How wide a circle of that length is.
        level_mm: How far down from the beginning it stands; 0 in a flat disc.
        slope_deg: How steeply the fabric falls to it: 0 for flat, 90 for straight down,
            more where it draws in; None where it is too long for its room, and ruffles.
        curvature_deg: How much all fabric inside it is bent: 0 for a disc, 360 for a cap
            with upright sides, 720 for a ball, below 0 for what ruffles.
    """

    label: str
    stitches: int
    around_mm: float
    across_mm: float
    level_mm: float
    slope_deg: float | None
    curvature_deg: float


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
        wave_mm: About how high the waves of its rim are; None where it does not ruffle.
        standing: How large it is as it stands; None for what lies.
        rounds: Its rounds; none for a piece of rows.
        outline: The corners of its shape in mm, anticlockwise from the right side, the
            lower left of its box at 0; what stands up is laid double. None where nothing
            tells it.
        circle: Whether that is a circle.
        garment: Whether that is the front of a garment with its sleeves, as `Front` has it.
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
    wave_mm: float | None = None
    standing: Standing | None = None
    rounds: tuple[RoundMeasured, ...] = ()
    outline: tuple[tuple[float, float], ...] = ()
    circle: bool = False
    garment: bool = False


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
