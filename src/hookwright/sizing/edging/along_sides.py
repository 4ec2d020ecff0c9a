"""The edging along the ends of the rows: so many stitches as the rows are high."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from hookwright.editing.main_piece import stitches_of
from hookwright.sizing.edging.base import Picked, along_row_ends
from hookwright.sizing.edging.closing import slope_of
from hookwright.sizing.edging.dressing import dressed
from hookwright.sizing.edging.even import MOST_ROWS_TOLD
from hookwright.sizing.edging.facts import PickUp, Shape, Side
from hookwright.sizing.edging.flatness import flatness, percent
from hookwright.sizing.edging.ground import CannotBe, Ground, Plan
from hookwright.sizing.edging.lengths import in_stitches
from hookwright.sizing.edging.moves import made
from hookwright.sizing.edging.piece import MOST_PLACES
from hookwright.sizing.edging.proportions import USUAL, us_name
from hookwright.sizing.edging.rows import with_ends


def why_no_sides(ground: Ground) -> CannotBe | None:
    """Why nothing can be worked along the ends of the rows; None where it can."""
    piece = ground.piece
    if piece.is_round:
        return CannotBe("The piece is worked in rounds and has no row ends.")
    if piece.open_ended:
        return CannotBe(
            "The number of rows is left to the maker, so that the stitches along the row"
            f" ends have no number. {pick_up_told(ground)}"
        )
    if len(piece.rows) > MOST_PLACES:
        return CannotBe(f"A side of more than {MOST_PLACES} rows is none that is edged.")
    if not piece.keeps_width:
        return CannotBe(
            "The rows do not keep their number of stitches: the sides are shaped, and how"
            " long they are the rows alone do not tell."
        )
    return None


def along_side(ground: Ground, side: Side) -> Plan | CannotBe:
    """The edging along the left or the right side.

    With the right side facing one works down the left side, from the last row, and up the
    right one, from the first. Edgings worked before along the ends lengthen both.
    """
    refusal = why_no_sides(ground)
    if refusal is not None:
        return refusal
    picked, pick_up = picked_along(ground, side)
    first_side = "RS" if ground.spelling.tells_sides else ""
    rows = dressed([picked.moves], ground.wish, first_side)
    if isinstance(rows, CannotBe):
        return rows
    number = made(picked.moves) + rows.change
    joined = ground.joined(f"the end of {_first_end(ground, side)}")
    lead = (f"{joined}, and work {_WAYS[side]} along the row ends.",)
    notes = [pick_up_told(ground)]
    if ground.above or ground.below:
        notes.append("The row ends of the edgings worked before are among them.")
    if rows.note:
        notes.append(rows.note)
    worked = with_ends(rows.rows, first_side=first_side, turned=rows.turned)
    heading = {Side.LEFT: "Left side edging", Side.RIGHT: "Right side edging"}[side]
    lies = flatness(number, picked.length, how_long(ground, number, picked))
    return Plan(side, Shape.PLAIN, heading, lead, worked, (lies,), pick_up, tuple(notes))


_WAYS = {Side.LEFT: "down the left side", Side.RIGHT: "up the right side"}


def _first_end(ground: Ground, side: Side) -> str:
    """The row whose end comes first: that of an edging, where one lies beyond the piece."""
    if side is Side.LEFT:
        return "the last row of the top edging" if ground.above else ground.last_row
    return "the last row of the foundation edging" if ground.below else "Row 1"


def picked_along(ground: Ground, side: Side) -> tuple[Picked, PickUp]:
    """The stitches along one side, and how the row ends are taken."""
    heights = heights_along(ground)
    in_order = heights if side is Side.RIGHT else tuple(reversed(heights))
    picked, pick_up = along_row_ends(in_order, ground.wish.stitch)
    usual = _usual(ground) if len(set(heights)) == 1 else None
    return picked, PickUp(pick_up.exact, pick_up.stitches, pick_up.rows, usual)


def heights_along(ground: Ground) -> tuple[Fraction, ...]:
    """The heights of all row ends in widths of a stitch; of waves the pitch."""
    own = ground.measures.heights
    if ground.wave is not None:
        mean = sum(own, Fraction(0)) / len(own)
        slope = slope_of(ground.wave, mean, ground.measures.wave_mm)
        pitch = Fraction(slope.pitch).limit_denominator(1000)
        steps = (own_height / mean if ground.wave.rests else 1 for own_height in own)
        own = tuple(pitch * step for step in steps)
    return (*reversed(ground.below), *own, *ground.above)


def _usual(ground: Ground) -> int | None:
    """The trade's round number a row, where the rows are all of one stitch."""
    names = [us_name(n, ground.spelling.terms) for n in stitches_of(ground.piece.rows)]
    return USUAL.get(names[0]) if len(set(names)) == 1 else None


def how_long(ground: Ground, number: int, picked: Picked) -> str:
    """How many stitches stand against how long a side."""
    length = in_stitches(picked.length, ground.width_mm)
    return f"{number} stitches along {len(picked.moves)} row ends of {length} in all"


def pick_up_told(ground: Ground) -> str:
    """The exact number a row, what it is worked as, and the usual number."""
    picked, pick_up = picked_along(ground, Side.RIGHT)
    stitch = ground.spelling.stitch(ground.wish.stitch)
    exact = f"{float(pick_up.exact):.3g} {stitch}"
    heights = heights_along(ground)
    if pick_up.rows == 1:
        written = f"{pick_up.stitches} {stitch} in each row end"
    elif pick_up.rows <= MOST_ROWS_TOLD:
        written = f"{pick_up.stitches} {stitch} in every {pick_up.rows} row ends"
    else:
        written = _by_height(heights, picked, stitch)
    if len(set(heights)) > 1:
        return f"The rows are {exact} high on average: {written}."
    usual = ""
    if pick_up.usual is not None:
        off = percent(pick_up.usual / pick_up.exact - 1)
        usual = f" (the usual {pick_up.usual} a row would be {off})"
    return f"A row is as high as {exact} are wide: {written}{usual}."


def _by_height(heights: Sequence[Fraction], picked: Picked, stitch: str) -> str:
    """What rows of each height take: "1 sc in each of 0.95 and 2 sc in each of 1.9"."""
    taken: dict[Fraction, set[int]] = {}
    for height, move in zip(heights, picked.moves, strict=True):
        taken.setdefault(height, set()).add(move.makes)
    if any(len(own) > 1 for own in taken.values()):
        return "each takes its share"
    told = [f"{own.pop()} {stitch} in each of {float(h):.3g}" for h, own in taken.items()]
    return f"{', '.join(told[:-1])} and {told[-1]}"
