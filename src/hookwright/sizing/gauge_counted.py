"""What does a gauge count of a piece, across it and up?

Stitches or repeats lie across; rows lie up, and rounds from the centre, which lie twice in
what is measured across the piece.
"""

from __future__ import annotations

import re
from fractions import Fraction

from msgspec import Struct

from hookwright.checking import Checked
from hookwright.design.facts import Gauge
from hookwright.design.gauge_counts import stitch_named
from hookwright.regex import regex
from hookwright.sizing.facts import PartMultiple
from hookwright.sizing.pieces import Growth, Piece
from hookwright.sizing.pitch import Counted, counted

_REPEATS = frozenset(
    "repeat rep pattern patt motif wave ripple chevron zigzag zig-zag point peak scallop "
    "pattern-repeat".split()
)
"""What one repeat is called in a gauge."""
_ACROSS = regex(
    r"\b(?:across|diameter|square|circle|disc|motif|hexagon|wide)\b", re.IGNORECASE
)
_ROUNDS = regex(
    r"(?:rnds?|rounds?)[ \t]+(?P<first>\d+)(?:\D+(?P<last>\d+))?|first (?P<n>\d+)"
)
_SHORTEST_REPEAT = 2


class Fitting(Struct, frozen=True):
    """How well a gauge fits a piece, and what it counts there."""

    piece: Piece | None
    multiple: PartMultiple | None
    checked: Checked

    @property
    def in_repeat(self) -> int:
        """Stitches of a repeat; 0 where there is none."""
        stitches = self.multiple.stitches if self.multiple is not None else None
        return stitches.each if stitches is not None else 0

    @property
    def places(self) -> int:
        """How many stitches wide a repeat lies: chains between them lie along as well.

        A fabric that lies flat on its chain is as wide as that.
        """
        chains = self.multiple.chains if self.multiple is not None else None
        if chains is None or self.piece is None or not self.piece.has_spaces:
            return self.in_repeat
        return max(chains.each, self.in_repeat)

    def across(self, gauge: Gauge) -> tuple[bool, Counted] | None:
        """What is counted across: whether repeats, and how many."""
        mm = gauge.width.mm[0] if gauge.width is not None else None
        if not gauge.stitches or not mm:
            return None
        if gauge.of == "st":
            return False, counted(gauge.stitches, mm)
        if _ROUNDS.match(gauge.of.lower()):
            return None
        if gauge.in_one and gauge.in_one != self.in_repeat:
            return False, counted(gauge.stitches * gauge.in_one, mm)
        each = self._repeats_in(gauge)
        if not each or self.places < _SHORTEST_REPEAT:
            return None
        return True, counted(gauge.stitches / each, mm, self.places)

    def _repeats_in(self, gauge: Gauge) -> int:
        """How many of what the gauge counts lie in a repeat; 0 where that is not known."""
        if gauge.in_one == self.in_repeat or _REPEATS & set(gauge.of.split()):
            return 1
        assert self.multiple is not None or not self.in_repeat
        if self.multiple is None or self.piece is None or not self.multiple.repeats:
            return 0
        working = self.checked.worked.sizes[self.multiple.size]
        rows = [o for o in working.outcomes if o.step.part in self.piece.parts]
        found = [o.tally.groups.get(gauge.of, 0) for o in rows]
        numbers = [number for number in found if isinstance(number, int)]
        return max(numbers, default=0) // self.multiple.repeats

    def up(self, gauge: Gauge) -> Counted | None:
        """What is counted up: rows, or rounds from the centre, which lie twice across."""
        rounds = _ROUNDS.match(gauge.of.lower())
        if rounds is not None and gauge.width is not None and gauge.width.mm[0]:
            first = int(rounds["first"] or 1)
            number = int(rounds["n"] or rounds["last"] or first) - first + 1
            if number > 0 and first == 1:
                return counted(Fraction(2 * number), gauge.width.mm[0])
            return None
        mm = gauge.height.mm[0] if gauge.height is not None else None
        if not gauge.rows or not mm:
            return None
        return counted(gauge.rows * (2 if self._is_across(gauge) else 1), mm)

    def _is_across(self, gauge: Gauge) -> bool:
        """Whether it says how wide a piece is after some rounds: "5 rnds = 4 in across"."""
        told = self.checked.design.gauges
        if gauge.stitches or self.piece is None or gauge not in told:
            return False
        if not self.piece.in_rounds or self.piece.growth is Growth.STEADY:
            return False
        text = self.checked.source.text
        begin = text.rfind("\n", 0, gauge.span.start) + 1
        end = text.find("\n", gauge.span.end)
        words = text[begin : end if end >= 0 else len(text)]
        return _ACROSS.search(words) is not None

    def rank(self, gauge: Gauge) -> int:
        """0 for a gauge of the very fabric, 1 for one of most of its rows, else 2."""
        named = stitch_named(gauge.stitch)
        if not named:
            return 0
        own = self.piece.stitches if self.piece is not None else ()
        of_it = sum(stitch == named for stitch in own)
        if of_it * 10 >= len(own) * 8:
            return 0
        return 1 if of_it * 2 >= len(own) else 2
