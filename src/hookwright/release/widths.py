"""What does a maker's own width come to: how many repeats, which chain, how many balls?

The answers are worked out beforehand, a line for each number of repeats, so that a page
looks them up and reckons nothing itself.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.release.yarn_amounts import Amounts, balls_for_widths
from hookwright.sizing.made import made_of
from hookwright.sizing.multiples import multiples_of
from hookwright.sizing.placed import PartSized
from hookwright.sizing.sized import size_pattern
from hookwright.sizing.wishes import Request

_WIDEST_MM = 4_000
_MOST = 400


class OwnWidth(Struct, frozen=True):
    """A piece of so many repeats.

    Attributes:
        mm: How wide it comes out, in whole millimetres.
        repeats: Its repeats.
        chain: Its foundation chain; None where it begins without one.
        stitches: Stitches of every row of plain width.
        balls: Balls of each colour, in the order of the colours; empty where not known.
    """

    mm: int
    repeats: int
    chain: int | None
    stitches: int
    balls: tuple[int, ...] = ()


class OwnWidths(Struct, frozen=True):
    """Every width that can be made, from narrow to wide.

    Attributes:
        widths: The widths.
        unit: The unit the designer measures in: "in" or "cm".
        each: Stitches of a repeat; 1 where any number will do.
        stays: Whether every row has as many stitches as the first.
    """

    widths: tuple[OwnWidth, ...]
    unit: str
    each: int
    stays: bool


def own_widths(checked: Checked, labels: Sequence[str] = ()) -> OwnWidths | None:
    """The widths of the piece a pattern begins with; None where it has no multiple.

    Args:
        checked: The pattern.
        labels: Its colours, in the order in which their balls are told.
    """
    sized = size_pattern(checked, multiples_of(checked), Request())
    for part in sized.parts:
        widths = _with_balls(checked, tuple(_widths(part)), labels)
        if len(widths) > 1 and part.multiple.stitches is not None:
            each = part.multiple.stitches.each
            return OwnWidths(widths, sized.unit, each, _stays(checked, part))
    return None


def _with_balls(
    checked: Checked, widths: tuple[OwnWidth, ...], labels: Sequence[str]
) -> tuple[OwnWidth, ...]:
    """The widths with the balls they take, where a swatch was weighed."""
    if not labels:
        return widths
    found = balls_for_widths(checked, [(one.repeats, Fraction(one.mm)) for one in widths])
    return tuple(
        replace(one, balls=_balls(found.get(one.repeats), labels)) for one in widths
    )


def _balls(amounts: Amounts | None, labels: Sequence[str]) -> tuple[int, ...]:
    """Balls of each colour; none where one of them is not known."""
    own = [amounts[label].balls for label in labels if amounts and label in amounts]
    known = [balls for balls in own if balls is not None]
    return tuple(known) if len(known) == len(labels) else ()


def _stays(checked: Checked, part: PartSized) -> bool:
    """Whether every row of the piece has as many stitches as its first."""
    name = part.multiple.part
    counts = {
        line.stitches[0] for line in checked.lines if line.part == name and line.below
    }
    return len(counts) == 1


def _widths(part: PartSized) -> Iterator[OwnWidth]:
    """A line for each number of repeats of a flat piece, where the text fixes all of it."""
    multiple = part.multiple
    if multiple.stitches is None or multiple.is_round or multiple.shared:
        return
    rows = part.now[0].rows if part.now else None
    for repeats in range(max(1, multiple.stitches.least), _MOST):
        made = made_of(multiple, part.gauge, repeats, rows)
        if made.width is None or made.stitches is None or made.width.mm > _WIDEST_MM:
            return
        yield OwnWidth(round(made.width.mm), repeats, made.chain, made.stitches)
