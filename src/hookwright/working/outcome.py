"""What became of the rows of a pattern: each as worked, and the whole in every size."""

from __future__ import annotations

from msgspec import Struct

from hookwright.notation.tree import Pattern
from hookwright.working.conventions import PLAIN_READING, Readings
from hookwright.working.count import Count
from hookwright.working.counted_units import Habit
from hookwright.working.evidence import Assumption
from hookwright.working.plan import Plan
from hookwright.working.row import WorkedRow
from hookwright.working.steps import Step
from hookwright.working.tally import Tally


class Outcome(Struct, frozen=True):
    """One row of the plan as worked.

    Attributes:
        step: What was worked.
        worked: The row; None where the line only makes a foundation.
        tally: What it leaves, by everything that may be counted.
        agrees: For each printed count, whether it agrees in each habit.
        below: How many stitches the edge below had.
        meant: Whether places were left unworked on purpose.
        foundation: Chains of a foundation made by this line.
        resized: Whether the row was worked over the count printed before it.
        turned: Whether the edge it leaves is turned for the row after it.
        is_open: Whether its words do not say stitch by stitch what is worked.
    """

    step: Step
    worked: WorkedRow | None
    tally: Tally
    agrees: tuple[tuple[bool, bool, bool], ...]
    below: Count
    meant: bool
    foundation: int | None = None
    resized: bool = False
    readings: Readings = PLAIN_READING
    literal_missing: Count = 0
    is_open: bool = False
    turned: bool = False


class Working(Struct, frozen=True):
    """A pattern worked in one size.

    Attributes:
        outcomes: Its rows in working order.
        habit: How the pattern counts.
        assumption: What was taken for granted.
        cost: What the reading costs in all; 0 for a text that leaves nothing open.
        rivals: Other ways that cost the same.
        plan: The rows planned.
    """

    outcomes: tuple[Outcome, ...]
    habit: Habit
    assumption: Assumption
    cost: int
    rivals: tuple[Assumption, ...]
    plan: Plan


class WorkedPattern(Struct, frozen=True):
    """A pattern worked in all its sizes.

    Attributes:
        pattern: The tree.
        sizes: One working a size, in the order of the pattern's sizes.
        terms: "US" or "UK": the terms it was worked in.
    """

    pattern: Pattern
    sizes: tuple[Working, ...]
    terms: str = "US"
