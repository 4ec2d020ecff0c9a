"""From a checked pattern and what is wanted to its sizes: gauge, swatch, repeats and rows."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from fractions import Fraction

from msgspec import Struct
from msgspec.structs import replace

from hookwright.checking import Checked
from hookwright.design.facts import Along, Gauge
from hookwright.finding import Finding, Severity
from hookwright.sizing.bodies import Fit, fits_of
from hookwright.sizing.by_multiple import Sizer
from hookwright.sizing.by_rounds import Rounds
from hookwright.sizing.fabric_gauge import FabricGauge, gauge_of
from hookwright.sizing.facts import PartMultiple
from hookwright.sizing.lengths import in_both
from hookwright.sizing.long_chain import LongChain, long_chain
from hookwright.sizing.made import Made, SizeMade
from hookwright.sizing.named_sizes import caution
from hookwright.sizing.pieces import Growth, Piece, pieces_of
from hookwright.sizing.row_family import row_families
from hookwright.sizing.swatch import Swatch, swatch_of
from hookwright.sizing.waves import is_wave
from hookwright.sizing.wishes import RULE, Request, Wish, Wishes, unit_of, wishes_of
from hookwright.source import Source, Span

_EDGING = re.compile(
    r"\b(?:edging|edge|border|trim|fringe|ties?|straps?|handles?|finishing|tassels?)\b",
    re.IGNORECASE,
)
_SIDEWAYS = re.compile(
    r"\b(?:worked|crocheted|made|work)\b[^.;\n]{0,30}"
    r"\b(?:sideways|lengthwise|lengthways|side[- ]to[- ]side|end[- ]to[- ]end)\b",
    re.IGNORECASE,
)


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


class Sized(Struct, frozen=True):
    """A pattern with its sizes.

    Attributes:
        parts: Its parts in working order.
        asked: The text of what was asked for.
        findings: What of it cannot be done; spans are of `asked`.
        noted: What of the worksheet's sizes cannot be; spans are of the worksheet.
        fits: The bodies that a garment's own sizes fit.
        cautions: What is said once where a size is a baby's.
        unit: The unit that the designer measures in.
    """

    parts: tuple[PartSized, ...]
    asked: Source
    findings: tuple[Finding, ...] = ()
    noted: tuple[Finding, ...] = ()
    fits: tuple[Fit, ...] = ()
    cautions: tuple[str, ...] = ()
    unit: str = "in"

    def cannot_all_be_made(self) -> bool:
        """Whether anything that was asked for cannot be done."""
        return any(f.severity is Severity.ERROR for f in (*self.findings, *self.noted))


def size_pattern(
    checked: Checked, multiples: Sequence[PartMultiple], request: Request
) -> Sized:
    """The sizes of a pattern. Never fails: what cannot be made is a finding.

    Args:
        checked: The pattern.
        multiples: How its parts grow, every part in each of the text's sizes.
        request: What is wanted.
    """
    wishes = wishes_of(request, checked)
    unit = unit_of(checked)
    bad_gauge = wishes.has_gauge and not wishes.gauges
    parts = tuple(_parts(checked, multiples, wishes, unit, sizes=not bad_gauge))
    findings = [*wishes.findings, *_impossible(parts, of_worksheet=False)]
    if not bad_gauge and not any(part.sizes for part in parts):
        findings += _no_part(parts, wishes)
    return Sized(
        parts,
        wishes.asked,
        tuple(sorted(findings, key=lambda finding: finding.span)),
        tuple(_impossible(parts, of_worksheet=True)),
        fits_of(checked),
        tuple(_cautions(wishes.wishes)),
        unit,
    )


def _parts(
    checked: Checked,
    multiples: Sequence[PartMultiple],
    wishes: Wishes,
    unit: str,
    *,
    sizes: bool,
) -> Iterator[PartSized]:
    names = list(dict.fromkeys(one.part for one in multiples if one.size == 0))
    placed = [_Placed.of(checked, multiples, name, wishes.gauges, unit) for name in names]
    wanted = _wanted_parts(placed)
    for number, part in enumerate(placed):
        yield part.sized(wishes.wishes if sizes and number in wanted else ())


class _Placed(Struct, frozen=True):
    """A part with the piece that it begins, where it begins one."""

    checked: Checked
    own: tuple[PartMultiple, ...]
    piece: Piece | None
    begins: bool
    gauge: FabricGauge
    unit: str

    @staticmethod
    def of(
        checked: Checked,
        multiples: Sequence[PartMultiple],
        name: str,
        asked: Sequence[Gauge],
        unit: str,
    ) -> _Placed:
        """The part of that name."""
        own = tuple(one for one in multiples if one.part == name)
        number = next(
            (n for n, p in enumerate(checked.reading.pattern.parts) if p.name == name), 0
        )
        pieces = pieces_of(checked)
        piece = next((piece for piece in pieces if number in piece.parts), None)
        rows = [o for o in checked.worked.sizes[0].outcomes if o.step.part == number]
        gauge = gauge_of(
            checked, piece, own[0], asked, waves=own[0].stitches is not None and is_wave(rows),
            unit=unit,
        )  # fmt: skip
        begins = piece is not None and piece.parts[0] == number
        return _Placed(checked, own, piece, begins, gauge, unit)

    @property
    def main(self) -> PartMultiple:
        """The part in the first size."""
        return self.own[0]

    @property
    def rounds(self) -> Rounds | None:
        """What it is sized by, where it grows by its rounds."""
        piece = self.piece
        if piece is None or not self.begins or self.gauge.stitch is None or not piece.counts:
            return None
        by_rounds = piece.growth is not Growth.STEADY
        if self.gauge.row is None or not by_rounds:
            return None
        if self.main.stitches is not None and piece.growth is Growth.OTHER:
            return None
        return Rounds(
            piece, self.gauge.stitch, self.gauge.row, self.unit, self._motif(), self._tall()
        )

    def _motif(self) -> tuple[Fraction, Fraction] | None:
        """How large a finished motif is, where several are made."""
        if self.piece is None or self.main.make < 2:
            return None
        told = [f for f in self.checked.design.finished if not f.of and not f.to_fit]
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
        """The part with the sizes that are wanted of it."""
        rounds = self.rounds
        part = self.main
        if rounds is not None:
            sizes = tuple(rounds.size(wish) for wish in wishes)
            said = (rounds.said(), *_own_reason(part, rounds), *_by_yarn(rounds, sizes))
            return PartSized(
                part, self.gauge, rounds.piece.growth, tuple(self._as_written(rounds)), sizes,
                said=tuple(filter(None, said)),
            )  # fmt: skip
        if part.stitches is None:
            reason = part.reason or "Its rows tell no multiple."
            sizes = tuple(SizeMade(wish, reason=reason) for wish in wishes)
            return PartSized(part, self.gauge, None, (), sizes, said=part.shared)
        families = row_families(part, self.checked)
        sized = [Sizer(own, self.gauge, (), self.unit) for own in self.own if own.stitches]
        now = tuple(one.now() for one in sized)
        if not self.begins:  # an edging lies along the piece: its own gauge is not known
            now = tuple(replace(made, width=None) for made in now)
        sizer = Sizer(part, self.gauge, families, self.unit)
        sizes = tuple(self._by_multiple(sizer, wish) for wish in wishes)
        is_edging = _EDGING.search(part.part) is not None
        return PartSized(
            part, self.gauge, None, now, sizes,
            swatch_of(part, self.gauge) if self.begins and not is_edging else None,
            tuple(self._chains(sizes, now)), (*part.shared, *self._said()),
        )  # fmt: skip

    def _as_written(self, rounds: Rounds) -> Iterator[Made]:
        """The piece in each of the text's sizes."""
        for size in range(len(self.checked.worked.sizes)):
            found = [p for p in pieces_of(self.checked, size) if p.parts == rounds.piece.parts]
            yield replace(rounds, piece=found[0] if found else rounds.piece).now()

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
                said.append(f"One of two alike: half of the girth, {in_both(width, self.unit)}.")
            else:
                said.append("It is worked flat and sewn: its width is the way around.")
        if self._is_sideways():
            width, height = height, width
            said.append("It is worked sideways: its rows lie along its length.")
        made = sizer.size(wish, width, height)
        return _with_words(made, said)

    def _is_half(self) -> bool:
        return self.main.make == 2 or re.search(
            r"\b(?:back|front)\b", self.main.part, re.IGNORECASE
        ) is not None

    def _is_sideways(self) -> bool:
        return _SIDEWAYS.search(self.checked.source.text) is not None

    def _said(self) -> Iterator[str]:
        slope = self.gauge.slope
        stitches = self.main.stitches
        if slope is not None and stitches is not None:
            long = slope.stitch_mm * stitches.each
            yield (
                f"Waves draw the chain in: a repeat of it measures about {in_both(long, self.unit)} "
                f"and comes to {in_both(long / slope.chain, self.unit)} once some rows are "
                f"worked, so the chain is to be {float(slope.chain):.2f} times as long as the "
                "finished width."
            )

    def _chains(
        self, sizes: Sequence[SizeMade], now: Sequence[Made]
    ) -> Iterator[tuple[str, LongChain]]:
        if self.main.chains is None:
            return
        for size in sizes:
            if size.nearest is not None and size.nearest.repeats is not None:
                yield size.wish.name, long_chain(self.main.chains, size.nearest.repeats)
        if not sizes and now and now[0].repeats is not None:
            yield "As written", long_chain(self.main.chains, now[0].repeats)


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


def _wanted_parts(placed: Sequence[_Placed]) -> set[int]:
    """The parts that a wish is of: the main piece, and others that are as wide."""
    pieces = [n for n, part in enumerate(placed) if not _EDGING.search(part.main.part)]
    able = [n for n in pieces if _can_be_sized(placed[n])] or pieces or [*range(len(placed))]
    if not able:
        return set()
    first = placed[able[0]].main
    return {
        n for n in able
        if n == able[0]
        or (first.stitches is not None and first.stitches == placed[n].main.stitches
            and first.repeats == placed[n].main.repeats and placed[n].begins)
    }  # fmt: skip


def _can_be_sized(part: _Placed) -> bool:
    return part.main.stitches is not None or part.rounds is not None


def _impossible(parts: Sequence[PartSized], *, of_worksheet: bool) -> Iterator[Finding]:
    """Wishes that cannot be made, once each, with what is possible."""
    seen: set[Span] = set()
    for part in parts:
        for size in part.sizes:
            span = size.wish.noted if of_worksheet else size.wish.place
            if not size.reason or span is None or span in seen:
                continue
            seen.add(span)
            message, _, why = size.reason.partition(": ")
            whole = f"{size.wish.name} cannot be made so: {_low(message)}"
            yield Finding(RULE, Severity.ERROR, span, f"{whole.rstrip('.')}.", _high(why))


def _low(words: str) -> str:
    return words if words[:1].isdigit() else words[:1].lower() + words[1:]


def _high(words: str) -> str:
    return words[:1].upper() + words[1:]


def _no_part(parts: Sequence[PartSized], wishes: Wishes) -> Iterator[Finding]:
    if parts or not wishes.wishes:
        return
    for wish in wishes.wishes:
        if wish.place is not None:
            yield Finding(
                RULE, Severity.ERROR, wish.place,
                f"{wish.name} cannot be made: the text has no part whose rows are worked.",
                "A part has a heading, and rows with labels under it.",
            )  # fmt: skip


def _cautions(wishes: Sequence[Wish]) -> Iterator[str]:
    babies = [wish for wish in wishes if wish.baby]
    if any(wish.around is None for wish in babies):
        yield caution("sleep")
    if babies:
        yield caution("openings")


__all__ = ["PartSized", "Request", "Sized", "size_pattern", "unit_of"]
