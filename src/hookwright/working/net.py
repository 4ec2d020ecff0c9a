"""How many squares of a filet net are filled, in a row told stitch by stitch?

A square is as wide as the chains of an open one and the post behind it, and a row is a
first post and whole squares. Source: filet handbooks, common practice.
"""

from __future__ import annotations

from hookwright.working.count import Count
from hookwright.working.mesh import USUAL_CHAINS
from hookwright.working.tally import Tally


def solid_squares(tally: Tally) -> list[Count] | None:
    """The filled squares; None where the row is no net of squares of one width."""
    if len(tally.lengths) > 1:
        return None
    chains = next(iter(tally.lengths), USUAL_CHAINS)
    stitches, spaces = tally.stitches, tally.spaces
    if not isinstance(stitches, int) or not isinstance(spaces, int):
        return None
    squares, over = divmod(stitches + spaces * chains - 1, chains + 1)
    counted, rest = divmod(stitches - 1, chains + 1)  # where a chain is a stitch
    if not over:
        return [squares - spaces]
    return None if rest else [counted - spaces]
