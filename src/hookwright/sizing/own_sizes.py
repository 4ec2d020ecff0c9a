"""Which of a text's own sizes is wanted, and how is a part made in it?

A garment is graded: its numbers go from size to size by the designer's own lists, and not
by the multiple of one part. So a wish for a body, or for a girth, is met by the nearest of
the text's sizes, in every part alike.
"""

from __future__ import annotations

from collections.abc import Sequence

from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.sizing.bodies import Fit
from hookwright.sizing.fabric_gauge import FabricGauge
from hookwright.sizing.lengths import in_both
from hookwright.sizing.made import Made, SizeMade
from hookwright.sizing.wishes import Wish


def is_of_own_sizes(wish: Wish, checked: Checked, fits: Sequence[Fit]) -> bool:
    """Whether a wish is met by one of the text's own sizes."""
    return wish.own is not None or (len(checked.sizes) > 1 and bool(fits))


def nearest_own_size(
    wish: Wish, checked: Checked, fits: Sequence[Fit], unit: str
) -> tuple[int, Wish] | SizeMade:
    """The text's own size for a wish, with the wish that names it; or why there is none."""
    if wish.own is not None:
        told = f"{wish.name} is one of the sizes of the text."
        return wish.own, replace(wish, said=(*wish.said, told))
    wanted = wish.around or wish.width
    if wanted is None:
        reason = "A garment is sized by its girth: ask for a width, or for a body."
        return SizeMade(wish, reason=reason)
    near = min(fits, key=lambda fit: abs(fit.girth - wanted))
    told = (
        f"The text is graded, so it is made in its own sizes: {near.size}, "
        f"{in_both(near.girth, unit)} around, comes nearest to {in_both(wanted, unit)}."
    )
    said = (*wish.said, told)
    reached = sorted(fit.girth for fit in fits)
    if not reached[0] * 9 <= wanted * 10 <= reached[-1] * 11:
        reason = (
            f"{in_both(wanted, unit)} around is outside of the sizes of the text: They "
            f"reach from {in_both(reached[0], unit)} to {in_both(reached[-1], unit)}."
        )
        return SizeMade(wish, said=said, reason=reason)
    name = f"{wish.name}: {near.size}"
    return checked.sizes.index(near.size), replace(wish, name=name, said=said)


def made_by_rows(checked: Checked, part: int, size: int, gauge: FabricGauge) -> Made:
    """A part as its rows are worked in a size, where it tells no multiple."""
    outcomes = [o for o in checked.worked.sizes[size].outcomes if o.step.part == part]
    counts = [
        o.tally.stitches
        for o in outcomes
        if o.worked is not None and isinstance(o.tally.stitches, int)
    ]
    rows = sum(o.worked is not None or o.is_open for o in outcomes)
    chain = next((o.foundation for o in outcomes if o.foundation is not None), None)
    return Made(
        None,
        chain,
        max(counts, default=None),
        rows,
        None,
        gauge.height(rows) if rows else None,
    )
