"""The kinds of edging: what is worked over the base row, and which repeat it takes.

All are worked everywhere in the trade; names and numbers are those in common use.
A row takes `each` stitches a repeat and `extra` beside them; between two corners of a
round the same, and what stands in the corner itself is told apart.
"""

from __future__ import annotations

from msgspec import Struct

from hookwright.sizing.edging.moves import Moves, free, plain, several, skip
from hookwright.sizing.facts import Multiple

PLAIN, CRAB = "plain", "crab"


class Border(Struct, frozen=True):
    """A kind of edging.

    Attributes:
        multiple: The stitches that it fits along one edge.
        before: What is worked before the first repeat.
        repeat: One repeat.
        after: What is worked behind the last one.
        corner: What is worked in the middle stitch of a corner.
        closed: One repeat in a round that has no corners.
        turned: Whether the work is turned before it; a crab stitch goes back on the same
            side.
        said: How it is worked, where its name alone does not tell.
    """

    multiple: Multiple
    before: Moves
    repeat: Moves
    after: Moves
    corner: Moves
    closed: Moves
    turned: bool = True
    said: str = ""

    def over(self, stitches: int) -> Moves:
        """The movements over so many stitches, a number that it fits."""
        repeats = (stitches - self.multiple.extra) // self.multiple.each
        return (*self.before, *(self.repeat * repeats), *self.after)


_PICOT = free("ch 3, sl st in last {sc} made")

KINDS = {
    CRAB: Border(
        Multiple(1, 0),
        (),
        (plain("crab st"),),
        (),
        (plain("crab st"),),
        (plain("crab st"),),
        turned=False,
        said=(
            "Crab st: {sc} worked backward, without turning: from left to right, or from"
            " right to left if you are left-handed."
        ),
    ),
    "picot": Border(
        Multiple(3, 1),
        (),
        (plain("sc"), plain("sc"), plain("sc"), _PICOT),
        (plain("sc"),),
        (several(3, "sc"),),
        (plain("sc"), plain("sc"), plain("sc"), _PICOT),
    ),
    "scallop": Border(
        Multiple(4, 1),
        (plain("sc"),),
        (skip(), several(5, "dc"), skip(), plain("sc")),
        (),
        (several(7, "dc"),),
        (plain("sc"), skip(), several(5, "dc"), skip()),
    ),
    "shell": Border(
        Multiple(6, 1),
        (plain("sc"),),
        (skip(2), several(5, "dc"), skip(2), plain("sc")),
        (),
        (several(7, "dc"),),
        (plain("sc"), skip(2), several(5, "dc"), skip(2)),
    ),
}
"""The kinds that are worked over a base row; PLAIN is the base row and more of it."""
NAMES = (PLAIN, *KINDS)
