"""Does the text call a piece square, and how large is it by one length?"""

from __future__ import annotations

from fractions import Fraction

from hookwright.checking import Checked
from hookwright.design.facts import Along
from hookwright.sizing.by_multiple import Sizer
from hookwright.sizing.wishes import Wish

SQUARE = "The text tells one length for both ways, so it is made square."


def is_square(checked: Checked) -> bool:
    """Whether the text tells one length for both ways of the piece."""
    told = [f for f in checked.design.finished if not f.of and not f.to_fit]
    across = {f.measure.span for f in told if f.along is Along.WIDTH}
    return any(f.along is Along.LENGTH and f.measure.span in across for f in told)


def both_ways(
    sizer: Sizer, side: Fraction | None
) -> tuple[Fraction | None, Fraction | None]:
    """The side of a square both ways: it grows up as much as whole repeats do across.

    What the text calls square is so as written, whatever its gauge makes of it.
    """
    now, made = sizer.now(), sizer.size(Wish(""), side, None).nearest
    if made is None or not (made.width and now.width and now.height):
        return side, side
    return side, now.height.mm + made.width.mm - now.width.mm
