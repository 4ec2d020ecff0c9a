"""Which rows of a piece are worked with its right side to the maker?"""

from __future__ import annotations

from collections.abc import Sequence

from hookwright.shape.graph import Laid
from hookwright.working.outcome import Outcome
from hookwright.working.steps import Step


def first_way(courses: Sequence[Laid], outcomes: Sequence[Outcome]) -> int:
    """The direction of rows on the right side: by the first row that tells its side.

    Args:
        courses: The rows as laid, a foundation or ring among them.
        outcomes: The same rows as worked.
    """
    rows = [course for course in courses if course.row]
    for course, outcome in zip(rows, outcomes, strict=False):
        side = side_told(outcome.step)
        if side:
            return course.direction if side == "RS" else -course.direction
    return 1


def side_told(step: Step) -> str:
    """The side that a row tells: "RS", "WS" or ""."""
    return step.side or (step.text.label.side if step.text.label is not None else "")
