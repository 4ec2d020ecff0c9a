""" "My gauge is another": what comes out at it, and what to chain for the same size."""

from __future__ import annotations

from hookwright.answers.another_size import another_size, measured
from hookwright.answers.facts import Reply
from hookwright.answers.main_piece import main_part, sized_as
from hookwright.checking import Checked
from hookwright.sizing.lengths import in_cm
from hookwright.sizing.made import Made
from hookwright.sizing.sized import Request

_QUESTION = "Another gauge"


def another_gauge(checked: Checked, size: int, gauge: str) -> Reply:
    """A reply to a maker whose swatch differs.

    Args:
        checked: The pattern.
        size: The size of the text that she makes, from 0.
        gauge: Her gauge, in words: "14 sts and 8 rows = 4 in".
    """
    own = sized_as(checked, Request())
    hers = sized_as(checked, Request(None, None, (), gauge))
    if hers.findings:
        told = tuple(f"{found.message} {found.why}".strip() for found in hers.findings)
        return Reply(_QUESTION, told, answered=False)
    before, after = main_part(own.parts), main_part(hers.parts)
    if before is None or after is None or not before.now or not after.now:
        return Reply(_QUESTION, ("Nothing tells how large the piece is.",), answered=False)
    as_told = before.now[min(size, len(before.now) - 1)]
    comes_out = after.now[min(size, len(after.now) - 1)]
    answer = [
        (
            f"Worked as written, at your gauge it comes out "
            f"{measured(comes_out, own.unit, after)}; the pattern makes it "
            f"{measured(as_told, own.unit, before)}."
        ),
    ]
    again = _same_size(checked, size, as_told, gauge)
    if again is not None:
        answer += ["For the size of the pattern at your gauge:", *again.answer]
    answer.append(
        "Or try another hook first: too many stitches to the inch want a larger one, too "
        "few a smaller one."
    )
    cautions = () if again is None else again.cautions
    figures = (
        ("as written, width_mm", _mm(comes_out)),
        *(again.figures if again is not None else ()),
    )
    return Reply(_QUESTION, tuple(answer), after.gauge.said, cautions, figures)


def _same_size(checked: Checked, size: int, as_told: Made, gauge: str) -> Reply | None:
    if as_told.width is None:
        return None
    width = in_cm(as_told.width.mm)
    height = in_cm(as_told.height.mm) if as_told.height is not None else None
    reply = another_size(checked, size, width=width, height=height, gauge=gauge)
    return reply if reply.answered else None


def _mm(made: Made) -> float | None:
    return round(float(made.width.mm), 2) if made.width is not None else None
