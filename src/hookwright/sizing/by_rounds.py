"""How is a wanted size made of a piece without a multiple: of how many rounds or motifs?"""

from __future__ import annotations

import math
from collections.abc import Callable
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from hookwright.sizing.fitting import Bracket, bracket, is_too_small
from hookwright.sizing.lengths import in_both, small
from hookwright.sizing.made import Made, SizeMade
from hookwright.sizing.pieces import Growth, Piece
from hookwright.sizing.pitch import Pitch
from hookwright.sizing.rounds import (
    OF_TRIANGLE,
    TWICE,
    across,
    ball_for,
    cap_for,
    flat_increases,
    oval_chain,
    rounds_across,
    rows_to_width,
    schedule,
)
from hookwright.sizing.wishes import Wish

_MOST_TOLD = 60
"""Rounds of a ball whose counts are told one by one."""


_CHANGES_BY = {
    Growth.FLAT_ROUND: "rounds",
    Growth.OVAL: "chain and its rounds",
    Growth.CAP: "rounds, those of the crown first",
    Growth.BALL: "rounds",
    Growth.WIDENING: "rows",
}


class Rounds(Struct, frozen=True):
    """What a piece without a multiple is sized by.

    Attributes:
        piece: The piece.
        stitch: What a stitch takes.
        row: What a round takes.
        unit: The unit to speak in first.
        motif: How wide and high a finished motif is, where several are made.
        tall: How high the finished piece is said to be.
        is_triangle: Whether it is a triangle: its width is its side.
    """

    piece: Piece
    stitch: Pitch
    row: Pitch
    unit: str
    motif: tuple[Fraction, Fraction] | None = None
    tall: Fraction | None = None
    is_triangle: bool = False

    @property
    def share(self) -> Fraction:
        """How much wider a round makes a flat piece, in heights of the round."""
        return OF_TRIANGLE if self.is_triangle else TWICE

    def said(self) -> str:
        """That it has no multiple, and what changes instead."""
        by = _CHANGES_BY.get(self.piece.growth)
        return f"It {self.piece.growth}, so it changes size by its {by}." if by else ""

    def now(self) -> Made:
        """The piece as it is written."""
        rows, most = len(self.piece.counts), self.piece.most
        match self.piece.growth:
            case Growth.FLAT_ROUND:
                return replace(self._flat_made(rows), stitches=most)
            case Growth.OVAL:
                wide = across(rows, self.row)
                middle = self.stitch.times(max(0, (self.piece.chain or 0) - 1))
                long = Pitch(wide.mm + middle.mm, wide.spread_mm + middle.spread_mm)
                return Made(None, self.piece.chain, most, rows, wide, long)
            case Growth.BALL:
                return Made(None, None, most, rows, self._diameter(most), None)
            case Growth.CAP:
                around = self.stitch.times(most)
                return Made(None, None, most, rows, around, self.row.times(rows))
            case Growth.WIDENING:
                wide = self.stitch.times(most)
                return Made(None, self.piece.chain, most, rows, wide, self.row.times(rows))
            case _:
                return Made(None, self.piece.chain, most, rows, None, self.row.times(rows))

    def size(self, wish: Wish) -> SizeMade:
        """A wish made, where it can be."""
        if self.motif is not None and self._is_of_motifs(wish):
            return self._of_motifs(wish)
        match self.piece.growth:
            case Growth.FLAT_ROUND:
                return self._flat(wish)
            case Growth.OVAL:
                return self._oval(wish)
            case Growth.CAP:
                return self._cap(wish)
            case Growth.BALL:
                return self._ball(wish)
            case Growth.WIDENING:
                return self._widening(wish)
            case _:
                return self._by_yarn(wish)

    def _flat(self, wish: Wish) -> SizeMade:
        wanted = wish.width or wish.height or (wish.around or Fraction(0)) / 3
        each = self.share * self.row.mm
        if is_too_small(wanted, each):
            return self._too_small(wish, wanted, each)
        found = rounds_across(wanted, self.row, self.share)
        exact = wanted / each
        flat = flat_increases(self.stitch, self.row)
        square = 8 * self.row.mm / self.stitch.mm
        adds = (
            "its side by 3.46 heights" if self.is_triangle else "its height on both sides"
        )
        rounds = (
            f"Every round adds {adds}: {in_both(wanted, self.unit)} across, over "
            f"{small(each, self.unit)}, is {float(exact):.2f} rounds: "
            f"{found.nearest}, {_way(exact, found.nearest)}."
        )
        gains = (
            f"It gains {float(self.piece.more):.3g} stitches a round; at this gauge a "
            f"circle lies flat with {float(flat):.1f} and a square with "
            f"{float(square):.1f}."
        )
        said = [*wish.said, rounds, gains]
        if (
            wish.width
            and wish.height
            and wish.width != wish.height
            and not self.is_triangle
        ):
            said.append("It is as long as it is wide, so it was sized by its width.")
        return self._between(wish, found, self._flat_made, said)

    def _flat_made(self, rounds: int) -> Made:
        wide = across(rounds, self.row, self.share)
        high = self.row.times(3 * rounds) if self.is_triangle else wide
        return Made(None, None, self._count(rounds), rounds, wide, high)

    def _count(self, rounds: int) -> int:
        """Stitches after so many rounds: as written, and on at the same rate."""
        counts = self.piece.counts[: self.piece.grown]
        if rounds <= len(counts):
            return counts[rounds - 1]
        return counts[-1] + round(self.piece.more * (rounds - len(counts)))

    def _oval(self, wish: Wish) -> SizeMade:
        sides = sorted(mm for mm in (wish.width, wish.height) if mm is not None)
        if not sides:
            reason = "It is told by its width and its length: ask for these."
            return SizeMade(wish, said=wish.said, reason=reason)
        wide, long = sides[0], sides[1] if len(sides) > 1 else None
        if is_too_small(wide, 2 * self.row.mm):
            return self._too_small(wish, wide)
        found = rounds_across(wide, self.row)
        chain = self._oval_made(found.nearest, long).chain
        told = (
            f"Every round adds its height on both sides, so {found.nearest} rounds make it "
            f"{in_both(across(found.nearest, self.row).mm, self.unit)} wide; the chain in "
            f"its middle makes up the rest of its length: {chain} chains, one of them "
            "skipped."
        )
        said = [*wish.said, told]
        return self._between(wish, found, lambda n: self._oval_made(n, long), said)

    def _oval_made(self, rounds: int, long: Fraction | None) -> Made:
        """An oval of so many rounds; its chain stays as written where no length is told."""
        wide = across(rounds, self.row)
        chain = self.piece.chain or 1
        if long is not None:
            chain = oval_chain(long, wide.mm, self.stitch, 1)
        middle = self.stitch.times(chain - 1)
        length = Pitch(wide.mm + middle.mm, wide.spread_mm + middle.spread_mm)
        grown = 2 * (chain - (self.piece.chain or chain))
        return Made(None, chain, self._count(rounds) + grown, rounds, wide, length)

    def _cap(self, wish: Wish) -> SizeMade:
        girth = wish.around or wish.width
        first, more = self.piece.counts[0], max(1, round(self.piece.more))
        said = list(wish.said)
        if girth is None:
            girth = self.stitch.mm * self.piece.most
            said.append("Its girth stays as written.")
        if is_too_small(girth, self.stitch.mm * first):
            return self._too_small(wish, girth, self.stitch.mm * first)
        cap = cap_for(girth, wish.height, self.stitch, self.row, first, more)
        if wish.height is None:
            straight = len(self.piece.counts) - self.piece.grown
        else:
            straight = cap.straight
        said.append(
            f"{in_both(girth, self.unit)} around, over "
            f"{small(self.stitch.mm, self.unit)} a stitch, is "
            f"{float(girth / self.stitch.mm):.1f} stitches: {cap.stitches}, the nearest "
            f"that {cap.crown} rounds of {more} more each come to; the crown is "
            f"{in_both(cap.diameter, self.unit)} across, its girth over pi."
        )
        said.append(
            f"{cap.crown} rounds of crown and {straight} rounds even, ribbing or brim "
            "among them, measured from the middle of the crown along the fabric."
        )
        if self.piece.grown and cap.crown == 1:
            said.append("So small a crown is a ring: look whether it can be worked so.")
        rows = cap.crown + straight
        return SizeMade(
            wish,
            Made(
                None, None, cap.stitches, rows,
                self.stitch.times(cap.stitches), self.row.times(rows),
            ),
            said=tuple(said),
        )  # fmt: skip

    def _ball(self, wish: Wish) -> SizeMade:
        wanted = wish.width or wish.height or (wish.around or Fraction(0)) / 3
        if is_too_small(wanted, 2 * self.row.mm):
            return self._too_small(wish, wanted)
        ball = ball_for(wanted, self.stitch, self.row, min(self.piece.counts[0], 6))
        told = schedule(ball.counts[:_MOST_TOLD])
        rest = " and so on" if len(ball.counts) > _MOST_TOLD else ""
        rounds = (
            f"A ball {in_both(wanted, self.unit)} across has {len(ball.counts)} rounds, "
            f"{ball.growing} up to its widest, of round(2 pi R sin(r h / R) / w) stitches: "
            f"{told}{rest}."
        )
        said = (*wish.said, rounds)
        wide = self._diameter(ball.most)
        made = Made(None, None, ball.most, len(ball.counts), wide, wide)
        return SizeMade(wish, made, said=said)

    def _diameter(self, stitches: int) -> Pitch:
        """How wide across a ball is, by its widest round."""
        return self.stitch.times(Fraction(stitches) / Fraction(math.pi))

    def _widening(self, wish: Wish) -> SizeMade:
        if wish.width is None and wish.height is not None:
            found = bracket(wish.height, self.row.mm)
            exact = wish.height / self.row.mm
            by = f"{in_both(wish.height, self.unit)} high"
        else:
            wanted = wish.width or wish.around or Fraction(0)
            first, more = self.piece.counts[0], self.piece.more
            found = rows_to_width(wanted, self.stitch, first, more)
            exact = (wanted / self.stitch.mm - first) / more + 1
            by = f"{in_both(wanted, self.unit)} wide"
        if exact < Fraction(1, 2):
            return self._too_small(wish, wish.width or wish.height or Fraction(0))
        told = (
            f"It gains {float(self.piece.more):.3g} stitches a row: {by} is "
            f"{float(exact):.2f} rows: {found.nearest}, {_way(exact, found.nearest)}."
        )
        said = [*wish.said, told]
        return self._between(wish, found, self._widened, said)

    def _widened(self, rows: int) -> Made:
        stitches = self._count(rows)
        return Made(
            None,
            self.piece.chain,
            stitches,
            rows,
            self.stitch.times(stitches),
            self.row.times(rows),
        )

    def _between(
        self, wish: Wish, found: Bracket, make: Callable[[int], Made], said: list[str]
    ) -> SizeMade:
        nearest = make(found.nearest)
        below = make(found.below) if found.below is not None else None
        above = make(found.above)
        return SizeMade(wish, nearest, below, above, tuple(said))

    def _is_of_motifs(self, wish: Wish) -> bool:
        """Whether a wish is of a piece put together from several motifs."""
        assert self.motif is not None
        wide, high = self.motif
        return (wish.width or wide) * 2 > wide * 3 or (wish.height or high) * 2 > high * 3

    def _of_motifs(self, wish: Wish) -> SizeMade:
        assert self.motif is not None
        wide, high = self.motif
        columns = bracket(wish.width or wish.height or wide, wide).nearest
        rows = bracket(wish.height or wish.width or high, high).nearest
        told = (
            f"One {self.piece.name.lower() or 'motif'} is {in_both(wide, self.unit)} wide: "
            f"{columns} side by side and {rows} rows of them, {columns * rows} in all, "
            "without what joins and edges them."
        )
        if wish.width is None or wish.height is None:
            told = f"One length was asked for, and is taken for both ways. {told}"
        said = (*wish.said, told)
        made = Made(
            columns * rows, None, None, None,
            self._exactly(wide * columns), self._exactly(high * rows),
        )  # fmt: skip
        return SizeMade(wish, made, said=said)

    def _exactly(self, mm: Fraction) -> Pitch:
        """So long, as sure as the rounds of a motif are."""
        return Pitch(mm, mm * self.row.spread_mm / self.row.mm)

    def _by_yarn(self, wish: Wish) -> SizeMade:
        """A piece that goes up and down keeps its counts: its gauge makes it larger."""
        wanted = wish.height or wish.width
        if not self.piece.in_rounds:
            reason = (
                "Its rows are shaped, so that no number of repeats tells its size: "
                "its shaping is to be graded by hand, and the text checked."
            )
            return SizeMade(wish, said=wish.said, reason=reason)
        if wanted is None or not self.tall:
            reason = (
                "Its counts go up and down, so that no number of repeats or rounds tells "
                "its size: yarn and hook change it, and its text does not say how tall "
                "it is."
            )
            return SizeMade(wish, said=wish.said, reason=reason)
        share = wanted / self.tall
        stitches, rows = 100 / self.stitch.mm / share, 100 / self.row.mm / share
        said = (
            "Its counts go up and down, so they stay: in other yarn, at "
            f"{float(stitches):.1f} stitches and {float(rows):.1f} rows to 10 cm (4 in), "
            f"it comes to {in_both(wanted, self.unit)}, where it is "
            f"{in_both(self.tall, self.unit)} now."
        )
        now = self.now()
        tall = Pitch(wanted, wanted * self.row.spread_mm / self.row.mm)
        made = Made(None, self.piece.chain, now.stitches, now.rows, None, tall)
        return SizeMade(wish, made, said=(*wish.said, said))

    def _too_small(
        self, wish: Wish, wanted: Fraction, least: Fraction | None = None
    ) -> SizeMade:
        smallest = in_both(least or 2 * self.row.mm, self.unit)
        reason = (
            f"{in_both(wanted, self.unit)} is less than its first round makes: "
            f"{smallest} is about the least."
        )
        return SizeMade(wish, said=wish.said, reason=reason)


def _way(exact: Fraction, nearest: int) -> str:
    if nearest == exact:
        return "as it is"
    return "rounded down" if nearest < exact else "rounded up"
