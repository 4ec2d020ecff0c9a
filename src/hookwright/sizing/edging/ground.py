"""What an edging is worked out from: the piece of one size, its measures, its words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from fractions import Fraction

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.sizing.edging.closing import slope_of
from hookwright.sizing.edging.facts import Flatness, PickUp, Shape, Side, Wish
from hookwright.sizing.edging.piece import Edged
from hookwright.sizing.edging.proportions import Proportions, proportions_of
from hookwright.sizing.edging.rows import Row
from hookwright.sizing.edging.spelling import Spelling, spelling_of
from hookwright.sizing.edging.starting import Chains, chains_of
from hookwright.sizing.edging.wave import Wave, wave_on_top
from hookwright.working.fabric import Stitch
from hookwright.working.sequence import Group, Line, Run


class Ground(Struct, frozen=True):
    """All that is known of the piece of one size.

    Attributes:
        checked: The pattern.
        piece: The piece.
        wish: What is asked for.
        measures: Its proportions.
        spelling: Its words.
        chains: Its beginning chains.
        wave: The wave of its last row; None where that is straight.
        above: Heights of edging rows already worked on top of it, from the piece upwards.
        below: Those worked under its foundation.
        is_first: Whether no other edging has been worked on it before.
    """

    checked: Checked
    piece: Edged
    wish: Wish
    measures: Proportions
    spelling: Spelling
    chains: Chains
    wave: Wave | None
    above: tuple[Fraction, ...] = ()
    below: tuple[Fraction, ...] = ()
    is_first: bool = True

    @property
    def facing(self) -> str:
        """How the right side is called."""
        told = re.search(r"\bRS\b", self.checked.source.text)
        return "RS facing" if told else "the right side facing"

    @property
    def last_row(self) -> str:
        """What the last row of the piece is called: "Row 37", "the last round"."""
        step, spelling = self.piece.last.step, self.spelling
        if step.number is None or len(self.checked.worked.sizes) > 1:
            return "the last round" if self.piece.is_round else "the last row"
        label = spelling.round_label if step.is_round else spelling.row_label
        return f"{label} {step.number}"

    def joined(self, place: str) -> str:
        """How yarn is joined at a place, after what is still on the hook has been cut."""
        cut = "" if self.piece.cut or not self.is_first else "Fasten off. "
        yarn, slip = self.yarn, self.spelling.slip
        return f"{cut}With {self.facing}, join {yarn} with {slip} in {place}"

    def height_at(self, row: int) -> Fraction:
        """How high a row is; in a wave with plain rows between, all of them on average."""
        heights = self.measures.heights
        if self.wave is not None and self.wave.rests:
            return sum(heights, Fraction(0)) / len(heights)
        return heights[row]

    @property
    def width_mm(self) -> Fraction | None:
        """How wide a stitch is along an edge; None where no gauge tells."""
        known = self.measures.width_mm
        if known is not None or self.wave is None or self.measures.wave_mm is None:
            return known
        slope = slope_of(self.wave, self.height_at(-1), self.measures.wave_mm)
        return Fraction(slope.width_mm or 0).limit_denominator(1000)

    @property
    def yarn(self) -> str:
        """The yarn in use at the end of the piece, as the pattern calls it."""
        assert self.piece.last.worked is not None
        names = list(_yarns(self.piece.last.worked.row.line))
        name = names[-1] if names else None
        if not name:
            return "yarn"
        listed = (c.letter or c.name for c in self.checked.design.colours)
        known = next((own for own in listed if own.casefold() == name.casefold()), "")
        return known or (name.upper() if len(name) <= 2 else name.title())


class Plan(Struct, frozen=True):
    """An edging of one size before it is proven.

    Attributes:
        side: Where it lies.
        shape: What it makes of the edge.
        heading: The heading of its part.
        lead: What is said before its rows.
        rows: Its rows.
        flatness: How it lies, one value an edge.
        pick_up: How row ends are taken.
        notes: What else to know.
    """

    side: Side
    shape: Shape
    heading: str
    lead: tuple[str, ...]
    rows: tuple[Row, ...]
    flatness: tuple[Flatness, ...]
    pick_up: PickUp | None = None
    notes: tuple[str, ...] = ()


class CannotBe(Struct, frozen=True):
    """Why a side has no edging.

    Attributes:
        message: A sentence.
        why: What to do about it.
    """

    message: str
    why: str = ""


def ground_of(checked: Checked, piece: Edged, wish: Wish) -> Ground:
    """What is known of a piece."""
    wave = wave_on_top(piece)
    in_wave = wave.in_one if wave is not None else 0
    terms = checked.worked.terms
    return Ground(
        checked,
        piece,
        wish,
        proportions_of(checked.design, piece.rows, terms, in_wave),
        spelling_of(checked),
        chains_of(checked.reading.pattern, piece.working),
        wave,
    )


def _yarns(line: Line[Stitch]) -> Iterator[str | None]:
    for piece in line:
        if isinstance(piece, Run):
            yield piece.yarn
        elif isinstance(piece, Group):
            yield from _yarns(piece.body)
        else:
            yield from _yarns(piece.body)
