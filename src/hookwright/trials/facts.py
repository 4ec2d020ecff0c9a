"""What is known of the trials of a pattern, as values. Lengths are in millimetres."""

from __future__ import annotations

from msgspec import Struct

from hookwright.finding import Finding


class Used(Struct, frozen=True):
    """What a tester used of a colour, in metres."""

    colour: str
    metres: float


class Trial(Struct, frozen=True):
    """What one tester reports; None, or "", for what she leaves out.

    Attributes:
        line: The line of the file, from 1.
        tester: Who she is, as she is called there.
        size: The size she made, as the pattern names it; "" if not told, or unknown.
        skill: How much she has done before, in her words.
        stitch_mm: What a stitch, or repeat, takes across.
        row_mm: What a row takes up.
        width_mm: How wide it came out.
        height_mm: How high.
        used: What she used of each colour.
        hours: How long it took.
        unclear: The rows that were unclear to her, by their numbers.
        dropped: Whether she left off.
    """

    line: int
    tester: str
    size: str = ""
    skill: str = ""
    stitch_mm: float | None = None
    row_mm: float | None = None
    width_mm: float | None = None
    height_mm: float | None = None
    used: tuple[Used, ...] = ()
    hours: float | None = None
    unclear: tuple[int, ...] = ()
    dropped: bool = False


class Reports(Struct, frozen=True):
    """A file of reports as it was read.

    Attributes:
        trials: What each tester reports.
        findings: What could not be taken as it stands; spans are of the file's text.
    """

    trials: tuple[Trial, ...] = ()
    findings: tuple[Finding, ...] = ()


class Spread(Struct, frozen=True):
    """How some numbers lie.

    Attributes:
        values: They themselves, in the order of the file.
        mean: Their mean.
        deviation: The standard deviation of a sample; None for fewer than two.
        least: The smallest.
        most: The largest.
        median: The middle one.
    """

    values: tuple[float, ...]
    mean: float
    deviation: float | None
    least: float
    most: float
    median: float


class Allowance(Struct, frozen=True):
    """How much more yarn than reckoned covers 19 of 20 makers.

    Attributes:
        factor: By how much the reckoned yarn is multiplied; None where nothing tells.
        testers: From how many reports.
        most: The most that any of them used, as such a factor.
        said: How it came about, and how far to trust it.
    """

    factor: float | None
    testers: int
    most: float | None
    said: str


class ColourUse(Struct, frozen=True):
    """A colour: used over reckoned of each tester, at her own gauge and size."""

    colour: str
    ratios: tuple[tuple[str, float], ...]
    allowance: Allowance


class Unclear(Struct, frozen=True):
    """A row that confuses: what it is called, and how many testers say so of how many."""

    row: str
    testers: int
    of: int


class Missing(Struct, frozen=True):
    """A size or a skill that nobody covers, and how many to invite for it."""

    what: str
    wanted: int
    invite: int


class Analysis(Struct, frozen=True):
    """All that the reports come to.

    Attributes:
        reported: How many testers have reported.
        dropped: How many left off.
        total: The yarn of all colours together.
        colours: Each colour, where testers tell them apart.
        gauges: Spreads of stitch, row, width and height, as parts of the pattern's own.
        hours: How long it took.
        unclear: Rows that confuse, the most named first.
        missing: Sizes and skills not covered.
        said: What else is to be known, in sentences.
    """

    reported: int
    dropped: int
    total: ColourUse | None
    colours: tuple[ColourUse, ...]
    gauges: tuple[tuple[str, Spread], ...]
    hours: Spread | None
    unclear: tuple[Unclear, ...]
    missing: tuple[Missing, ...]
    said: tuple[str, ...] = ()
