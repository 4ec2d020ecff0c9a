"""How is a part sized: by its multiple, by its rounds, or in the sizes of its text?"""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.design.facts import Along, Gauge
from hookwright.design.gauge_counts import PIECES
from hookwright.regex import regex
from hookwright.sizing.bodies import Fit, fits_of
from hookwright.sizing.by_blocks import Blocks, blocks_of
from hookwright.sizing.by_multiple import Sizer
from hookwright.sizing.by_rounds import Rounds
from hookwright.sizing.fabric_gauge import FabricGauge, gauge_of
from hookwright.sizing.facts import PartMultiple
from hookwright.sizing.fitting import bracket
from hookwright.sizing.lengths import in_both
from hookwright.sizing.long_chain import LongChain, long_chain
from hookwright.sizing.made import Made, SizeMade
from hookwright.sizing.own_sizes import is_of_own_sizes, made_by_rows, nearest_own_size
from hookwright.sizing.pieces import Growth, Piece, pieces_of
from hookwright.sizing.row_family import row_families
from hookwright.sizing.square import SQUARE, both_ways, is_square
from hookwright.sizing.swatch import Swatch, swatch_of
from hookwright.sizing.waves import is_wave
from hookwright.sizing.wishes import Wish, kinds_of

_EDGING = regex(
    r"\b(?:edging|edge|border|trim|fringe|ties?|straps?|handles?|finishing|tassels?)\b",
    re.IGNORECASE,
)
_LIES_ALONG = regex(r"\b(?:edging|border|trim|fringe)\b", re.IGNORECASE)
_ON_TOP = "What the text works along its edges is not in these sizes: it comes on top."
_TRIANGLE = regex(r"\b(?:triangles?|triangular|bunting)\b", re.IGNORECASE)
_SIDEWAYS = regex(
    r"\b(?:worked|crocheted|made|work)\b[^.;\n]{0,30}"
    r"\b(?:sideways|lengthwise|lengthways|side[- ]to[- ]side|end[- ]to[- ]end)\b",
    re.IGNORECASE,
)


def is_an_edging(part: str) -> bool:
    """Whether a part is one that comes on top of a piece, by what it is called."""
    return _EDGING.search(part) is not None


class PartSized(Struct, frozen=True):
    """A part with its gauge and its sizes.

    Attributes:
        multiple: How it grows.
        gauge: Its gauge.
        growth: How its counts go, where it has no multiple.
        now: What it measures as written, one for each of the text's sizes.
        sizes: The wanted sizes; empty for a part that they are not of.
        swatch: The swatch to make first.
        chains: How to make the chain of each size that has one, with the size's name.
        said: What holds for all of its sizes, in sentences.
    """

    multiple: PartMultiple
    gauge: FabricGauge
    growth: Growth | None = None
    now: tuple[Made, ...] = ()
    sizes: tuple[SizeMade, ...] = ()
    swatch: Swatch | None = None
    chains: tuple[tuple[str, LongChain], ...] = ()
    said: tuple[str, ...] = ()

    @property
    def is_around(self) -> bool:
        """Whether its width is the way around it."""
        return self.growth is Growth.CAP or (self.growth is None and self.multiple.is_round)


def placed_parts(
    checked: Checked, multiples: Sequence[PartMultiple], asked: Sequence[Gauge], unit: str
) -> Iterator[Placed]:
    """The parts in working order, each with its piece and its gauge."""
    pieces, fits = pieces_of(checked), fits_of(checked)
    is_hat = "hat" in kinds_of(checked)
    seen: Counter[str] = Counter()
    for own in _by_part(multiples):
        name = own[0].part
        number = _number_of(checked, name, seen[name])
        seen[name] += 1
        piece = next((piece for piece in pieces if number in piece.parts), None)
        flat = piece is not None and piece.growth is Growth.FLAT_ROUND
        if piece is not None and flat and is_hat and piece.grown < len(piece.counts):
            piece = replace(piece, growth=Growth.CAP)  # one round is told for its sides
        rows = [o for o in checked.worked.sizes[0].outcomes if o.step.part == number]
        waves = own[0].stitches is not None and is_wave(rows)
        gauge = gauge_of(checked, piece, own[0], asked, waves=waves, unit=unit)
        begins = piece is not None and piece.parts[0] == number
        blocks = blocks_of(checked, checked.worked.sizes[0], number, asked, unit)
        yield Placed(checked, own, piece, begins, gauge, unit, fits, blocks, number)


def _by_part(multiples: Sequence[PartMultiple]) -> Iterator[tuple[PartMultiple, ...]]:
    """Each part in all sizes that work it; two parts may have one name."""
    by_size: dict[int, dict[tuple[str, int], PartMultiple]] = {}
    for one in multiples:
        known = by_size.setdefault(one.size, {})
        known[one.part, sum(name == one.part for name, _ in known)] = one
    first, *others = by_size.values() if by_size else ({},)
    for key, own in first.items():
        yield (own, *(size[key] for size in others if key in size))


def _number_of(checked: Checked, name: str, times: int) -> int:
    """The number of a part by its name, where that may come several times."""
    parts = checked.reading.pattern.parts
    found = [number for number, part in enumerate(parts) if part.name == name]
    return found[min(times, len(found) - 1)] if found else 0


class Placed(Struct, frozen=True):
    """A part with the piece that it begins, where it begins one."""

    checked: Checked
    own: tuple[PartMultiple, ...]
    piece: Piece | None
    begins: bool
    gauge: FabricGauge
    unit: str
    fits: tuple[Fit, ...] = ()
    blocks: Blocks | None = None
    number: int = 0

    @property
    def is_edging(self) -> bool:
        """Whether its name says that it lies along another part."""
        return is_an_edging(self.main.part)

    def _has_edging(self) -> bool:
        parts = self.checked.reading.pattern.parts
        return any(_LIES_ALONG.search(part.name) for part in parts)

    def is_told_alone(self) -> bool:
        """Whether its numbers are not among those of the part that begins its piece."""
        whole = self.piece is not None and self.piece.growth in {Growth.CAP, Growth.BALL}
        return not self.is_edging and (self.begins or not whole)

    @property
    def main(self) -> PartMultiple:
        """The part in the first size."""
        return self.own[0]

    @property
    def rounds(self) -> Rounds | None:
        """What it is sized by, where it grows by its rounds."""
        piece = self.piece
        if (
            piece is None
            or not self.begins
            or self.gauge.stitch is None
            or not piece.counts
        ):
            return None
        by_rounds = piece.growth is not Growth.STEADY
        if self.gauge.row is None or not by_rounds:
            return None
        if self.main.stitches is not None and piece.growth is Growth.OTHER:
            return None
        return Rounds(
            piece,
            self.gauge.stitch,
            self.gauge.row,
            self.unit,
            self._motif(),
            self._tall(),
            self._is_triangle(),
        )

    def _is_triangle(self) -> bool:
        """Whether the piece, or the whole design, is called a triangle."""
        title = self.checked.design.title or self.checked.draft.title
        return _TRIANGLE.search(f"{self.main.part} {title}") is not None

    def _motif(self) -> tuple[Fraction, Fraction] | None:
        """How large a finished motif is, where several are made."""
        if self.piece is None or self.main.make < 2:
            return None
        told = [f for f in self.checked.design.finished if not f.to_fit]
        told = [f for f in told if f.of in PIECES] or [f for f in told if not f.of]
        wide = next((f.measure.at(0) for f in told if f.along in _ACROSS), None)
        high = next((f.measure.at(0) for f in told if f.along is Along.LENGTH), None)
        if wide is None and self.gauge.row is not None:
            wide = 2 * len(self.piece.counts) * self.gauge.row.mm
        return (wide, high or wide) if wide else None

    def _tall(self) -> Fraction | None:
        """How tall the finished piece is said to be."""
        told = [f for f in self.checked.design.finished if not f.of and not f.to_fit]
        found = [f.measure.at(0) for f in told if f.along in {Along.LENGTH, Along.UNSAID}]
        return next((mm for mm in found if mm), None)

    def sized(self, wishes: Sequence[Wish]) -> PartSized:
        """The part with the sizes that are wanted of it, in the order of the wishes."""
        own = [is_of_own_sizes(wish, self.checked, self.fits) for wish in wishes]
        others = [wish for wish, is_own in zip(wishes, own, strict=True) if not is_own]
        part = self._by_itself(others)
        reckoned = iter(part.sizes)
        sizes = tuple(
            self._of_own(wish, part.now) if is_own else next(reckoned)
            for wish, is_own in zip(wishes, own, strict=True)
        )
        return replace(part, sizes=sizes)

    def _by_itself(self, wishes: Sequence[Wish]) -> PartSized:
        """The part with the sizes that its own numbers are reckoned for."""
        rounds = self.rounds
        part = self.main
        if self.blocks is not None:
            return PartSized(
                part,
                self.gauge,
                Growth.DIAGONAL,
                (self.blocks.now(),),
                tuple(map(self.blocks.size, wishes)),
                said=(self.blocks.said(),),
            )
        if rounds is not None:
            sizes = tuple(rounds.size(wish) for wish in wishes)
            said = (rounds.said(), *_own_reason(part, rounds), *_by_yarn(rounds, sizes))
            now = tuple(self._as_written(rounds))
            said = tuple(filter(None, said))
            return PartSized(part, self.gauge, rounds.piece.growth, now, sizes, said=said)
        if part.stitches is None:
            reason = part.reason or "Its rows tell no multiple."
            sizes = tuple(self._of_rows(wish, reason) for wish in wishes)
            return PartSized(part, self.gauge, None, (), sizes, said=part.shared)
        families = row_families(part, self.checked)
        now = tuple(self._now())
        if not self.begins:  # an edging lies along the piece: its own gauge is not known
            now = tuple(replace(made, width=None) for made in now)
        sizer = Sizer(part, self.gauge, families, self.unit)
        sizes = tuple(self._by_multiple(sizer, wish) for wish in wishes)
        return PartSized(
            part, self.gauge, None, now, sizes,
            swatch_of(part, self.gauge) if self.begins and not self.is_edging else None,
            tuple(self._chains(sizes, now)), (*part.shared, *self._said()),
        )  # fmt: skip

    def _now(self) -> Iterator[Made]:
        """The part as written, in each of the text's sizes."""
        for own in self.own:
            if own.stitches is not None:
                yield Sizer(own, self.gauge, (), self.unit).now()

    def _of_own(self, wish: Wish, now: Sequence[Made]) -> SizeMade:
        """The part in that of the text's own sizes that a wish is met by."""
        found = nearest_own_size(wish, self.checked, self.fits, self.unit)
        if isinstance(found, SizeMade):
            return found
        size, named = found
        if len(now) == len(self.checked.sizes):
            return SizeMade(named, now[size], said=named.said)
        made = made_by_rows(self.checked, self.number, size, self.gauge)
        return SizeMade(named, made, said=named.said)

    def _as_written(self, rounds: Rounds) -> Iterator[Made]:
        """The piece in each of the text's sizes."""
        for size in range(len(self.checked.worked.sizes)):
            found = [
                p for p in pieces_of(self.checked, size) if p.parts == rounds.piece.parts
            ]
            own = found[0] if found else rounds.piece
            yield replace(rounds, piece=replace(own, growth=rounds.piece.growth)).now()

    def _of_rows(self, wish: Wish, reason: str) -> SizeMade:
        """A piece that only its rows tell: it can be made higher, and no wider."""
        families, row = row_families(self.main, self.checked), self.gauge.row
        wider = wish.width is not None or wish.around is not None
        if wish.height is None or wider or row is None or not families:
            return SizeMade(wish, said=wish.said, reason=reason)
        rows = families[0].rows
        found = bracket(wish.height, row.mm * rows.each, row.mm * rows.extra, rows.least)

        def made(repeats: int) -> Made:
            number = rows.at(repeats)
            return Made(rows=number, height=row.times(number))

        return SizeMade(
            wish,
            made(found.nearest),
            made(found.below) if found.below is not None else None,
            made(found.above),
            (*wish.said, *filter(None, (families[0].said,))),
        )

    def _by_multiple(self, sizer: Sizer, wish: Wish) -> SizeMade:
        """A wish in the ways of this part: its width may be a girth, or its length."""
        width, height, said = wish.width, wish.height, []
        if self.main.is_round:
            if wish.around is None and width is not None:
                said.append("It is worked in rounds: the width is told as the way around.")
            width = wish.around or width
        elif width is None and wish.around is not None:
            width = wish.around
            if wish.kind == "body" and self._is_half():
                width = wish.around / 2
                said.append(
                    f"One of two alike: half of the girth, {in_both(width, self.unit)}."
                )
            else:
                said.append("It is worked flat and sewn: its width is the way around.")
        if self._is_sideways():
            width, height = height, width
            said.append("It is worked sideways: its rows lie along its length.")
        one_way = wish.around is None and (width is None) != (height is None)
        if one_way and is_square(self.checked):
            width, height = both_ways(sizer, width or height)
            wish = replace(wish, width=width, height=height)
            said.append(SQUARE)
        made = sizer.size(wish, width, height)
        return _with_words(made, said)

    def _is_half(self) -> bool:
        return (
            self.main.make == 2
            or re.search(r"\b(?:back|front)\b", self.main.part, re.IGNORECASE) is not None
        )

    def _is_sideways(self) -> bool:
        return _SIDEWAYS.search(self.checked.source.text) is not None

    def _said(self) -> Iterator[str]:
        if not self.is_edging and self._has_edging():
            yield _ON_TOP
        slope = self.gauge.slope
        stitches = self.main.stitches
        if slope is not None and stitches is not None:
            long = slope.stitch_mm * stitches.each
            yield (
                "Waves draw the chain in: a repeat of it measures about "
                f"{in_both(long, self.unit)} and comes to "
                f"{in_both(long / slope.chain, self.unit)} once some rows are worked; "
                f"so the chain is to be {float(slope.chain):.2f} times as long as the "
                "finished width."
            )

    def _chains(
        self, sizes: Sequence[SizeMade], now: Sequence[Made]
    ) -> Iterator[tuple[str, LongChain]]:
        if self.main.chains is None:
            return
        slope = self.gauge.slope
        each = slope.stitch_mm if slope is not None else None
        named = [(size.wish.name, size.nearest) for size in sizes]
        for name, made in named or [("As written", now[0])] if now else []:
            if made is not None and made.repeats is not None:
                yield name, long_chain(self.main.chains, made.repeats, each)


_ACROSS = frozenset((Along.WIDTH, Along.ACROSS, Along.UNSAID))


def _with_words(made: SizeMade, said: Sequence[str]) -> SizeMade:
    return SizeMade(
        made.wish, made.nearest, made.below, made.above, (*said, *made.said), made.reason
    )


def _by_yarn(rounds: Rounds, sizes: Sequence[SizeMade]) -> Iterator[str]:
    """What makes a piece larger whose counts stay: it is told without being asked."""
    if rounds.piece.growth is Growth.OTHER:
        yield from (size.said[-1] for size in sizes if size.nearest is not None)


def _own_reason(part: PartMultiple, rounds: Rounds) -> Iterator[str]:
    if part.reason and not rounds.said():
        yield part.reason
