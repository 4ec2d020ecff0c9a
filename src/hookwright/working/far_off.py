"""Is a row so far off that the reading is likelier wrong than the row?

A slip leaves a few stitches of a row over, or asks for a few too many, and mostly one
number puts it right. A row that misses more than a quarter of its edge, that no number in
it puts right and no count bears out, is told in words that are read here otherwise than
they are meant. One whose count does bear it out, and that needs more than twice the edge,
goes along other pieces too.
"""

from __future__ import annotations

from hookwright.finding import Finding, Severity
from hookwright.working.count import Count
from hookwright.working.outcome import Outcome, WorkedPattern
from hookwright.working.problems import Fault
from hookwright.working.resizing import printed_stitches
from hookwright.working.steps import row_name

_FEWEST = 3
"""Fewer stitches than these are a slip in any row."""
_PART = 4
"""One stitch in so many is further off than slips are; common practice, no source."""


def is_far_off(fault: Fault, worked: WorkedPattern) -> bool:
    """Whether a row misses so much of its edge, or of its count: of its first size."""
    size = fault.sizes[0]
    return _is_far(fault, worked.sizes[size].outcomes[fault.at], size)


def _is_far(fault: Fault, outcome: Outcome, size: int) -> bool:
    rule, row = fault.finding.rule, outcome.worked
    if row is None:
        return False
    if rule == "past-the-end":
        missing = outcome.literal_missing or row.missing
        if any(map(any, outcome.agrees)):  # it goes along several pieces, not this one
            return _is_much(missing, _PART * outcome.below)
        return _is_much(missing, outcome.below)
    if rule == "stated-count" and fault.is_defended:
        printed = printed_stitches(outcome, outcome.step, size)
        return printed is not None and _is_much(outcome.tally.stitches - printed, printed)
    return False


def _is_much(off: Count, whole: Count) -> bool:
    if not isinstance(off, int) or not isinstance(whole, int):
        return False
    return abs(off) >= _FEWEST and abs(off) * _PART > whole


def doubted(fault: Fault, worked: WorkedPattern) -> Finding:
    """What is told of such a row: nothing of it is proven, and it is not accused."""
    found = fault.finding
    row = worked.sizes[fault.sizes[0]].outcomes[fault.at]
    return Finding(
        "unclear-rows",
        Severity.ADVICE,
        found.span,
        f"{row_name(row.step)} does not close by far as it is read here.",
        f"{found.message} No one number puts it right, so the reading is likelier wrong "
        "than the row, which is not proven. See whether a word of your own is told among "
        "the special stitches.",
        row=found.row,
        part=found.part,
        sizes=found.sizes,
        numbers=found.numbers,
    )
