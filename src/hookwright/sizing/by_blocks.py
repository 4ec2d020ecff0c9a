"""How is a wanted size made of a piece worked from corner to corner in blocks?

Every row adds a block until the shorter side is reached, a longer piece then goes on with
one more at one end and one fewer at the other, and every row after that has a block fewer:
so many blocks by so many take as many rows as both sides have blocks, less one. Common
practice, no source; the sum is arithmetic.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.facts import Gauge
from hookwright.sizing.fitting import Bracket, bracket, is_too_small
from hookwright.sizing.lengths import in_both, small
from hookwright.sizing.made import Made, SizeMade
from hookwright.sizing.pitch import Counted, Pitch, counted, pitch_of
from hookwright.sizing.wishes import Wish
from hookwright.working.outcome import Working

_CALLED = ("block", "tile", "square", "pixel", "box")


class Blocks(Struct, frozen=True):
    """A piece worked from corner to corner.

    Attributes:
        counts: Blocks of each of its rows.
        side: How long the side of a block is; None where nothing tells.
        unit: The unit to speak in first.
    """

    counts: tuple[int, ...]
    side: Pitch | None
    unit: str

    def said(self) -> str:
        """That it has no multiple, and what changes instead."""
        return (
            "It is worked from corner to corner, so it changes size by its rows of blocks."
        )

    def now(self) -> Made:
        """The piece as it is written."""
        short = max(self.counts)
        return self._made(short, max(short, len(self.counts) - short + 1))

    def size(self, wish: Wish) -> SizeMade:
        """A wish made, where it can be."""
        wide, high = wish.width or wish.height, wish.height or wish.width
        if self.side is None:
            reason = (
                "How long the side of a block is nothing tells: measure some in a swatch, "
                'and ask with --gauge "7 blocks and 7 rows = 4 in".'
            )
            return SizeMade(wish, said=wish.said, reason=reason)
        if wide is None or high is None:
            reason = "It is told by its width and its height: ask for these."
            return SizeMade(wish, said=wish.said, reason=reason)
        side = self.side.mm
        if is_too_small(min(wide, high), side):
            least = in_both(side, self.unit)
            reason = (
                f"{in_both(min(wide, high), self.unit)} is less than a block: "
                f"{least} is the least."
            )
            return SizeMade(wish, said=wish.said, reason=reason)
        return self._between(wish, bracket(wide, side), bracket(high, side))

    def _between(self, wish: Wish, across: Bracket, up: Bracket) -> SizeMade:
        below = None
        if across.below is not None and up.below is not None:
            below = self._made(across.below, up.below)
        nearest = self._made(across.nearest, up.nearest)
        above = self._made(across.above, up.above)
        told = tuple(self._told(across.nearest, up.nearest))
        return SizeMade(wish, nearest, below, above, (*wish.said, *told))

    def _made(self, across: int, up: int) -> Made:
        rows = across + up - 1
        if self.side is None:
            return Made(across, rows=rows)
        return Made(
            across, rows=rows, width=self.side.times(across), height=self.side.times(up)
        )

    def _told(self, across: int, up: int) -> Iterator[str]:
        """How the rows go."""
        assert self.side is not None
        short, long = sorted((across, up))
        side = small(self.side.mm, self.unit)
        yield f"A block is {side} wide: {across} blocks by {up}, {across * up} in all."
        even = ""
        if long > short:
            ends = "one more at one end and one fewer at the other"
            even = f", {long - short} rows of {short} with {ends}"
        yield (
            f"A block more in each of {short} rows{even}, and a block fewer in each of "
            f"{short - 1}: {short} + {long - short} + {short - 1} = {across + up - 1} rows."
        )


def blocks_of(
    checked: Checked, working: Working, part: int, asked: Sequence[Gauge], unit: str
) -> Blocks | None:
    """A part as rows of blocks, where it is worked from corner to corner."""
    if not working.assumption.conventions.loops_at_hook:
        return None
    rows = [o for o in working.outcomes if o.step.part == part and o.worked is not None]
    counts = [o.tally.spaces for o in rows]
    whole = tuple(number for number in counts if isinstance(number, int) and number > 0)
    if len(whole) < len(counts) or not whole or whole[0] != 1:
        return None
    return Blocks(whole, _side(checked, asked, whole), unit)


def _side(checked: Checked, asked: Sequence[Gauge], counts: Sequence[int]) -> Pitch | None:
    """The side of a block: as asked, by the text, the worksheet or the printed size."""
    noted = checked.design.noted
    for gauges in (
        asked,
        checked.design.gauges,
        noted.swatches if noted is not None else (),
    ):
        found = pitch_of([one for gauge in gauges for one in _counted(gauge)])
        if found is not None:
            return found
    told = (f.measure.at(0) for f in checked.design.finished if not f.to_fit and not f.of)
    lengths = [mm for mm in told if mm]
    if not lengths:
        return None
    short = max(counts)
    mm = min(lengths) / short
    return Pitch(mm, mm * Fraction(1, 2 * short), 0)


def _counted(gauge: Gauge) -> Iterator[Counted]:
    """A gauge that counts blocks."""
    is_of = gauge.of.removesuffix("s") in _CALLED or gauge.of.removesuffix("es") in _CALLED
    width = gauge.width.at(0) if gauge.width is not None else None
    if is_of and gauge.stitches and width:
        yield counted(gauge.stitches, width)
