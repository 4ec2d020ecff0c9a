"""How many sets of rows keep a square one, where it has other repeats?"""

from __future__ import annotations

from hookwright.checking import Checked
from hookwright.sizing.by_multiple import Sizer
from hookwright.sizing.facts import PartMultiple
from hookwright.sizing.made import made_of
from hookwright.sizing.placed import placed_parts
from hookwright.sizing.row_family import row_families
from hookwright.sizing.square import both_ways, is_square
from hookwright.sizing.wishes import Wish


def sets_of_a_square(checked: Checked, part: PartMultiple, repeats: int) -> int | None:
    """The sets of rows of a piece that the text calls square; None for any other.

    Args:
        checked: The text.
        part: The piece as written.
        repeats: How many repeats it is to have.
    """
    if repeats == part.repeats or part.stitches is None or not is_square(checked):
        return None
    placed = next(placed_parts(checked, [part], (), "in"), None)
    wide = made_of(part, placed.gauge, repeats, None).width if placed is not None else None
    if placed is None or wide is None:
        return None
    sizer = Sizer(part, placed.gauge, row_families(part, checked), "in")
    made = sizer.size(Wish(""), *both_ways(sizer, wide.mm)).nearest
    return made.sets if made is not None else None
