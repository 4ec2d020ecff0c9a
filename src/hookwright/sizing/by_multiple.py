"""How is a wanted size made of whole repeats and whole sets of rows?"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct

from hookwright.sizing.fabric_gauge import FabricGauge
from hookwright.sizing.facts import PartMultiple
from hookwright.sizing.fitting import Bracket, bracket, is_too_small
from hookwright.sizing.lengths import in_both, small
from hookwright.sizing.made import Made, SizeMade, made_of
from hookwright.sizing.row_family import RowFamily, strays, stripes_told
from hookwright.sizing.wishes import Wish


class Sizer(Struct, frozen=True):
    """What a part is sized by.

    Attributes:
        part: Its multiple.
        gauge: Its gauge.
        families: The numbers of rows it may have, the strictest first.
        unit: The unit to speak in first.
    """

    part: PartMultiple
    gauge: FabricGauge
    families: Sequence[RowFamily]
    unit: str

    @property
    def beside(self) -> Fraction:
        """How wide the stitches beside the repeats are."""
        nothing = self.gauge.width(self._extra, 0, self._extra)
        return nothing.mm if nothing is not None else Fraction(0)

    @property
    def each(self) -> Fraction:
        """How wide a repeat is."""
        assert self.part.stitches is not None
        assert self.gauge.stitch is not None
        if self.gauge.repeat is not None:
            return self.gauge.repeat.mm
        return self.gauge.stitch.mm * self.part.stitches.each

    @property
    def _extra(self) -> int:
        return self.part.stitches.extra if self.part.stitches is not None else 0

    @property
    def _least(self) -> int:
        """The fewest repeats of a piece: without any it is another fabric."""
        return max(1, self.part.stitches.least if self.part.stitches is not None else 1)

    @property
    def _called(self) -> tuple[str, str]:
        """What a piece is made wider by: one of it, and many."""
        stitches = self.part.stitches
        of_one = stitches is not None and stitches.each == 1 and self.gauge.repeat is None
        return ("stitch", "stitches") if of_one else ("repeat", "repeats")

    def size(self, wish: Wish, width: Fraction | None, height: Fraction | None) -> SizeMade:
        """A wish made, where it can be.

        Args:
            wish: The wish.
            width: How wide this part is to be for it; None to stay as written.
            height: How high.
        """
        assert self.part.stitches is not None
        told: list[str] = list(wish.said)
        repeats = self._repeats(width)
        narrowest = self.each * self._least + self.beside
        if width is not None and is_too_small(width, narrowest):
            return SizeMade(
                wish, said=tuple(told), reason=self._too_narrow(width, narrowest)
            )
        family, rows = self._rows(height)
        if height is not None and family is not None and rows is not None:
            fewest = family.rows.at(family.rows.least)
            lowest = self.gauge.height(fewest)
            if lowest is not None and is_too_small(height, lowest.mm):
                reason = self._too_low(height, fewest, lowest.mm)
                return SizeMade(wish, said=tuple(told), reason=reason)
        if width is not None:
            told.append(self._of_repeats(width, repeats))
        if height is not None:
            told += self._of_rows(height, family, rows)
        nearest = self._made(repeats.nearest, family, rows.nearest if rows else None)
        below = above = None
        if repeats.below is not None and (rows is None or rows.below is not None):
            below = self._made(repeats.below, family, rows.below if rows else None)
        above = self._made(repeats.above, family, rows.above if rows else None)
        return SizeMade(wish, nearest, below, above, (*told, *self._on_the_hook(nearest)))

    def _on_the_hook(self, made: Made) -> Iterator[str]:
        """What the piece measures before it is blocked, where that is known."""
        across, up = self.gauge.blocking
        if made.width is not None and across is not None:
            yield (
                f"It blocks to {float(across):.2f} of its width: as worked it is "
                f"{in_both(made.width.mm / across, self.unit)} wide."
            )
        if made.height is not None and up is not None:
            yield (
                f"It blocks to {float(up):.2f} of its height: work until it measures "
                f"{in_both(made.height.mm / up, self.unit)}."
            )

    def now(self) -> Made:
        """The part as it is written."""
        rows = self.part.rows
        number = rows.at(self.part.set_repeats) if rows is not None else None
        return made_of(self.part, self.gauge, self.part.repeats, number)

    def _made(self, repeats: int, family: RowFamily | None, rows: int | None) -> Made:
        number = self.now().rows
        if family is not None and rows is not None:
            number = family.rows.at(rows)
        return made_of(self.part, self.gauge, repeats, number)

    def _repeats(self, width: Fraction | None) -> Bracket:
        assert self.part.stitches is not None
        if width is None:
            return Bracket(self.part.repeats, self.part.repeats, self.part.repeats)
        return bracket(width, self.each, self.beside, self._least)

    def _rows(self, height: Fraction | None) -> tuple[RowFamily | None, Bracket | None]:
        """The rows about a height, in whole stripe sequences where that leads near it."""
        if height is None or not self.families or self.gauge.row is None:
            return None, None
        found = None
        for family in self.families:
            each = self.gauge.row.mm
            rows = family.rows
            found = (
                family,
                bracket(height, each * rows.each, each * rows.extra, rows.least),
            )
            if not strays(rows.at(found[1].nearest), height / each):
                break
        return found or (None, None)

    def _too_narrow(self, width: Fraction, narrowest: Fraction) -> str:
        least = self._least
        one, many = self._called
        repeats = f"one {one}" if least == 1 else f"{least} {many}"
        beside = " with its edge stitches" if self._extra else ""
        return (
            f"{in_both(width, self.unit)} is narrower than {repeats}{beside}: "
            f"{in_both(narrowest, self.unit)} is the least that can be made."
        )

    def _too_low(self, height: Fraction, fewest: int, lowest: Fraction) -> str:
        rows = (
            "1 row takes" if fewest == 1 else f"the {fewest} rows that it has at least take"
        )
        return (
            f"{in_both(height, self.unit)} is lower than the least that can be made: "
            f"{rows} {in_both(lowest, self.unit)}."
        )

    def _of_repeats(self, width: Fraction, found: Bracket) -> str:
        """The division that tells the repeats, and which way it was rounded."""
        exact = (width - self.beside) / self.each
        one, many = self._called
        edge = ""
        if self._extra:
            stitches = "stitch" if self._extra == 1 else "stitches"
            edge = (
                f" less {small(self.beside, self.unit)} for {self._extra} {stitches} beside"
            )
        return (
            f"{in_both(width, self.unit)} wide{edge}, over {small(self.each, self.unit)} a "
            f"{one}, is {float(exact):.2f} {many}: {_rounded(exact, found)}."
        )

    def _of_rows(
        self, height: Fraction, family: RowFamily | None, found: Bracket | None
    ) -> list[str]:
        if family is None or found is None or self.gauge.row is None:
            return ["Its rows cannot be told, so only its width is sized."]
        exact = height / self.gauge.row.mm
        rows = family.rows.at(found.nearest)
        way = "as it is" if exact == rows else "down" if rows < exact else "up"
        told = [self._rows_told(height, exact, rows, way)]
        if family.said:
            told.append(family.said)
        if family.sequence:
            stripes = stripes_told(rows, family.sequence)
            told.append(f"{rows} rows are {stripes}.")
        return told

    def _rows_told(self, height: Fraction, exact: Fraction, rows: int, way: str) -> str:
        assert self.gauge.row is not None
        rounded = way if way == "as it is" else f"rounded {way}"
        return (
            f"{in_both(height, self.unit)} high, over "
            f"{small(self.gauge.row.mm, self.unit)} a row, is {float(exact):.2f} rows: "
            f"{rows}, {rounded}."
        )


def _rounded(exact: Fraction, found: Bracket) -> str:
    if found.nearest == exact:
        return f"{found.nearest}, as it is"
    way = "down" if found.nearest < exact else "up"
    return f"{found.nearest}, rounded {way} to the nearer"
